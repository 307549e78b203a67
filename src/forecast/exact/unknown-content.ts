import type { ContentRules } from '../../rulebook/index.ts';

/** Content rules of which nothing is known: no rule on repeats, surplus or bonus is applied. */
export const UNKNOWN_CONTENT: ContentRules = {
  jumpElements: { min: null, max: null },
  axelRequired: null,
  maxUnits: null,
  maxCombinations: null,
  maxSequences: null,
  eulerExcludesSequence: null,
  eulerAllowed: null,
  jumpsPerUnit: null,
  maxTurns: null,
  maxTurnsInUnit: null,
  maxAxelTurns: null,
  repeats: null,
  slots: null,
  spins: { min: null, max: null, kinds: [], sameCodeForbidden: null },
  steps: { min: null, max: null },
  choreo: { min: null, max: null, forms: [] },
  bonusLast: null,
  duration: { seconds: null, tolerance: null, maximumOnly: false },
  bonusPoints: null,
};
