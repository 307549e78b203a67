import type { ChosenRules } from '../../rulebook/index.ts';
import { nodesFor } from './distribution.ts';
import { ownPoints } from './own-points.ts';
import type { ProgramElement } from './program.ts';
import { tiltedChances, type Chances } from './tilted.ts';

/** Weights of the nodes of the day factor, as `distributionOf` mixes them; one node where form plays no part. */
export const dayWeights = (formSd: number): readonly number[] => nodesFor(formSd).map(({ weight }) => weight);

/**
 * Chances of every grade of every outcome of an element at each node of the day factor: given the node,
 * elements are independent. `result[node][outcome][grade]`.
 */
export const dayChances = (element: ProgramElement, rules: ChosenRules, formSd: number): readonly Chances[] =>
  tiltedChances({ element, own: ownPoints(element, rules) }, formSd, nodesFor(formSd));
