/** Door of the room `programs`: is a program legal, which is the best one, what if a jump goes wrong. */
export { rulesFor, seasonAfter, type RuleOverride } from './chosen.ts';
export { checkLayout } from './check/check.ts';
export { layoutChanges, type LayoutChanges, type RuleChange } from './check/changes.ts';
export { changesJson, changesText, checkJson, checkText } from './check/show.ts';
export type { CheckResult, Verdict, VerdictStatus } from './check/types.ts';
export { bestLayouts, type BestLayout, type BestOptions, type BestResult } from './best/best.ts';
export { parseObjective, type Objective } from './best/objective.ts';
export { bestJson, bestText } from './best/show.ts';
export { rescue, type RescueCase, type RescueResult } from './rescue/rescue.ts';
export { rescueJson, rescueText } from './rescue/show.ts';
export { chanceHigher, compare, type Comparison, type OnlyIn, type Side } from './compare/compare.ts';
export { compareJson, compareText } from './compare/show.ts';
export { ASSUMED_EFFORT, plan, type Effort, type PlanChange, type PlanOptions, type PlanResult } from './plan/plan.ts';
export { planText } from './plan/show.ts';
export { mend, type MendOptions } from './mend/mend.ts';
export { mendText } from './mend/show.ts';
export type { Mend, MendStep } from './mend/types.ts';
