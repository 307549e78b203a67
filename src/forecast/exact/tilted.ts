import type { Node } from '../math/hermite.ts';
import { formCorrelation, tilt, type Ranked } from './day-form.ts';
import type { Graph, Level } from './graph.ts';
import type { SkatedOutcome } from './program.ts';

/** Probability of every grade of every outcome of one element at one node: `p[outcome][grade]`. */
export type Chances = readonly (readonly number[])[];

/** A level of the graph with the day factor worked in. */
export interface TiltedLevel {
  readonly level: Level;
  /** By node. */
  readonly chances: readonly Chances[];
}

/** What the form of the day needs to know of an element: its outcomes with their own points. */
export type Own = Pick<Level, 'element' | 'own'>;

/**
 * Outcomes and grades in one list, with the points that they would have alone in a program. Deductions
 * stay aside, so that element score and total share one form of the day.
 */
const flatten = ({ element, own }: Own): readonly Ranked[] =>
  element.outcomes.flatMap((outcome, o) =>
    outcome.grades.map(({ p }, g) => ({ p: outcome.p * p, value: own[o]?.points[g] ?? 0 })),
  );

function spread(flat: readonly Ranked[]): number {
  const mean = flat.reduce((sum, a) => sum + a.p * a.value, 0);
  return Math.sqrt(flat.reduce((sum, a) => sum + a.p * (a.value - mean) ** 2, 0));
}

/** Points per grade of the likeliest outcome. */
function perGrade({ element, own }: Own): number {
  const { outcomes } = element;
  const likeliest = outcomes.reduce((best, o, i) => (o.p > (outcomes[best]?.p ?? 0) ? i : best), 0);
  return own[likeliest]?.perGrade ?? 0;
}

function nested(outcomes: readonly SkatedOutcome[], flat: Float64Array): Chances {
  let at = 0;
  return outcomes.map((outcome) => outcome.grades.map(() => flat[at++] ?? 0));
}

/** Chances of one element's outcomes and grades by node; with `formSd` 0 every node holds them as given. */
export function tiltedChances(own: Own, formSd: number, nodes: readonly Node[]): readonly Chances[] {
  const flat = flatten(own);
  const rho = formCorrelation(formSd, perGrade(own), spread(flat));
  return tilt(flat, rho, nodes).map((p) => nested(own.element.outcomes, p));
}

/** Works the day factor into one level. */
export const tiltLevel = (level: Level, formSd: number, nodes: readonly Node[]): TiltedLevel => ({
  level,
  chances: tiltedChances(level, formSd, nodes),
});

/** The whole program with the day factor worked in. */
export const tiltGraph = (graph: Graph, formSd: number, nodes: readonly Node[]): readonly TiltedLevel[] =>
  graph.levels.map((level) => tiltLevel(level, formSd, nodes));
