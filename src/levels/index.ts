/** Door of the room `levels`: step sequences and spins -> level; letters -> what they prove. */
export * from './feedback-steps.ts';
export * from './feedback-spin.ts';
export * from './turns.ts';
export { breaksIn, connects, directionOf, type Move, type Note } from './step-sequence.ts';
export { findClusters, footWord, type Cluster, type Clusters } from './step-clusters.ts';
export { planOf, levelWhen, rankOf, type CalledLevel, type StepPlan } from './step-assess.ts';
export { levelChances, expectedOver, type StepChances } from './step-chances.ts';
export { stepLevel, type StepLevel, type StepLimit, type Uncounted } from './step-level.ts';
export { readSteps, stepsForm, type StepsForm } from './step-form.ts';
export { formatSteps, parseSteps, type WrittenMove } from './step-text.ts';
export * from './spin.ts';
export { readSpin, readSpins, spinForm, spinsForm, type SpinForm, type SpinPlan, type SpinsForm } from './spin-form.ts';
export { spinLevel, type FeatureVerdict, type SpinLevel, type SpinLimit } from './spin-level.ts';
export { programSpins } from './program-spins.ts';
export { answerPlan, readPlan, type PlanAnswer, type PlanForm } from './plan.ts';
export { looksLikeSteps, readStepsText } from './plan-text.ts';
export { editWords, printSteps } from './print-steps.ts';
export { printSpin, printSpins } from './print-spins.ts';
export { moveWeights, type LevelWorth, type MoveWeight } from './step-weakest.ts';
export { improveSteps, type Edit, type Improved, type SearchConstraints, type SearchResult } from './step-search.ts';
export {
  INFERENCE_ASSUMPTIONS,
  inferStepCredit,
  type Interval,
  type StepInference,
  type StepSheet,
  type Told,
} from './season-steps.ts';
export { SPIN_ASSUMPTIONS, inferMissedPositions, type PositionInference, type SpinSheet } from './season-spins.ts';
export { assignFeatures, type Assignment, type SpinWorth } from './spin-assignment.ts';
export { readEvidence, type Evidence } from './evidence.ts';
export { printPositions, printStepInference } from './print-season.ts';
export { PATTERNS, RINKS, drawSteps, type Drawing, type Pattern, type Rink } from './step-drawing.ts';
