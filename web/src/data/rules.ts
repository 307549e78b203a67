import { describeProblem } from '../../../src/notation/index.ts';
import {
  chooseRules,
  shippedLibrary,
  type ChosenRules,
  type Library,
  type RuleQuery,
} from '../../../src/rulebook/index.ts';
import { ownRules } from './own-rules.ts';

let inUse: Library | null = null;

/** The rulebooks in use: the shipped ones with the coach's own added, as on the command line. */
export const rules = (): Library => (inUse ??= withOwn(shippedLibrary()));

function withOwn(shipped: Library): Library {
  const own = ownRules();
  if (own.length === 0) return shipped;
  const extended = shipped.extend(own);
  // The server has checked the same files: a difference is a defect of the program, not of the coach's file.
  if (!extended.ok) throw new Error(extended.error.map(describeProblem).join('\n'));
  return extended.value;
}

/** The rules of a form, or null with the reason where none can be chosen. */
export function rulesOf(query: RuleQuery): { readonly rules: ChosenRules | null; readonly why: string } {
  const chosen = chooseRules(rules(), query);
  return chosen.ok
    ? { rules: chosen.value, why: '' }
    : { rules: null, why: `${chosen.error.found}. ${chosen.error.advice}` };
}
