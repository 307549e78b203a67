import { chooseRules, shippedLibrary, type ChosenRules, type RuleQuery } from '../../../src/rulebook/index.ts';

/** The shipped rulebooks, under the name that the screens use. */
export const rules = shippedLibrary;

/** The rules of a form, or null with the reason where none can be chosen. */
export function rulesOf(query: RuleQuery): { readonly rules: ChosenRules | null; readonly why: string } {
  const chosen = chooseRules(rules(), query);
  return chosen.ok
    ? { rules: chosen.value, why: '' }
    : { rules: null, why: `${chosen.error.found}. ${chosen.error.advice}` };
}
