/**
 * The panel's program-wide rules as an automaton in skating order: what stands in a program changes
 * what a later element is worth. Used by `forecast` (over outcomes) and `programs` (over plans).
 */
export * from './types.ts';
export { callNext, startProgram } from './program.ts';
export { finish, type Missing } from './finish.ts';
export { bonusPlaces, inSecondHalf, type Placement as ElementPlacement } from './second-half.ts';
export { futures, stateKey, type Future } from './state-key.ts';
export { hasStrayEuler, isUnit, kindOf } from './jumps.ts';
export { EULER_BETWEEN } from './limits.ts';
export { spinCharacter } from './other-elements.ts';
