import type { ContentRules } from './types.ts';

/**
 * Content of a segment of which nothing is established: no rule on repeats, surplus or bonus is applied,
 * and every verdict on it is "unknown".
 */
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
