/**
 * The causes of the ledger in their fixed order: attribution, ties of rounding and every list follow it.
 * A cause is named by what one would train, so a call carries the grades that it obliges.
 */
export const CAUSES = [
  'content',
  'rotation',
  'edge',
  'level',
  'V',
  'no-value',
  'repeat',
  'second-half',
  'fall',
  'execution',
  'deduction',
  'bonus',
  'components',
] as const;
export type Cause = (typeof CAUSES)[number];

/** Calls whose grades are obliged by the season's list of reductions. */
export type ObligingCause = 'rotation' | 'edge' | 'fall';

export const isObliging = (cause: Cause): cause is ObligingCause =>
  cause === 'rotation' || cause === 'edge' || cause === 'fall';

/** Place of a cause in the fixed order, from 0. */
export const causeOrder = (cause: Cause): number => CAUSES.indexOf(cause);

/**
 * Whether an entry of this cause rests on a decision of the officials that stands (calls, levels,
 * grades, deductions). Half marks and bonus points are bookkeeping: they can be asked about.
 */
export const isFieldOfPlay = (cause: Cause): boolean => cause !== 'second-half' && cause !== 'bonus';

/** The heading of a cause in lists for people. */
export const CAUSE_NAMES: Readonly<Record<Cause, string>> = {
  content: 'content',
  rotation: 'rotation',
  edge: 'edge',
  level: 'level',
  V: 'V (position)',
  'no-value': 'no value',
  repeat: 'repeat',
  'second-half': 'second half',
  fall: 'fall',
  execution: 'execution',
  deduction: 'deduction',
  bonus: 'bonus',
  components: 'components',
};
