/** Door of the room `programs`: is a program legal, which is the best one, what if a jump goes wrong. */
export { rulesFor, seasonAfter, type RuleOverride } from './chosen.ts';
export { checkLayout } from './check/check.ts';
export { layoutChanges, type LayoutChanges, type RuleChange } from './check/changes.ts';
export { changesJson, changesText, checkJson, checkText } from './check/show.ts';
export type { CheckResult, Verdict, VerdictStatus } from './check/types.ts';
export { bestLayouts, type BestLayout, type BestOptions, type BestResult } from './best/best.ts';
export { parseObjective, type Objective } from './best/objective.ts';
export { bestJson, bestText } from './best/show.ts';
