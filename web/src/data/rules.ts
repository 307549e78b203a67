import {
  chooseRules,
  shippedLibrary,
  type ChosenRules,
  type Library,
  type RuleQuery,
} from '../../../src/rulebook/index.ts';

let library: Library | null = null;

/** The shipped rulebooks, made once per page. */
export function rules(): Library {
  library ??= shippedLibrary();
  return library;
}

/** The rules of a form, or null with the reason where none can be chosen. */
export function rulesOf(query: RuleQuery): { readonly rules: ChosenRules | null; readonly why: string } {
  const chosen = chooseRules(rules(), query);
  return chosen.ok
    ? { rules: chosen.value, why: '' }
    : { rules: null, why: `${chosen.error.found}. ${chosen.error.advice}` };
}
