import type { Node } from '../math/hermite.ts';
import { formCorrelation, tilt, type Ranked } from './day-form.ts';
import type { Arc, Graph, Level } from './graph.ts';
import type { SkatedOutcome } from './program.ts';

/** Probability of every grade of every outcome of one element at one node: `p[outcome][grade]`. */
export type Chances = readonly (readonly number[])[];

/** A level of the graph with the day factor worked in. */
export interface TiltedLevel {
  readonly level: Level;
  /** By node. */
  readonly chances: readonly Chances[];
}

interface Flat extends Ranked {
  readonly outcome: number;
}

/**
 * Outcomes and grades in one list, ordered by their points in the first state in which the element may
 * be met. Deductions stay aside, so that element score and total share one form of the day.
 */
function flatten(level: Level): readonly Flat[] {
  const arcs = level.arcs[0] ?? [];
  return level.element.outcomes.flatMap((outcome, o) => {
    const arc = arcs[o];
    const points = arc === undefined ? [] : (level.values[arc.value]?.points ?? []);
    return outcome.grades.map(({ p }, g) => ({
      outcome: o,
      p: outcome.p * p,
      value: points[g] ?? 0,
    }));
  });
}

function spread(flat: readonly Ranked[]): number {
  const mean = flat.reduce((sum, a) => sum + a.p * a.value, 0);
  return Math.sqrt(flat.reduce((sum, a) => sum + a.p * (a.value - mean) ** 2, 0));
}

/** Points per grade of the likeliest outcome. */
function perGrade(level: Level): number {
  const { outcomes } = level.element;
  const likeliest = outcomes.reduce((best, o, i) => (o.p > (outcomes[best]?.p ?? 0) ? i : best), 0);
  const arc: Arc | undefined = level.arcs[0]?.[likeliest];
  return arc === undefined ? 0 : (level.values[arc.value]?.perGrade ?? 0);
}

function nested(outcomes: readonly SkatedOutcome[], flat: Float64Array): Chances {
  let at = 0;
  return outcomes.map((outcome) => outcome.grades.map(() => flat[at++] ?? 0));
}

/** Works the day factor into one level; with `formSd` 0 every node holds the chances as given. */
export function tiltLevel(level: Level, formSd: number, nodes: readonly Node[]): TiltedLevel {
  const flat = flatten(level);
  const rho = formCorrelation(formSd, perGrade(level), spread(flat));
  const byNode = tilt(flat, rho, nodes);
  return { level, chances: byNode.map((p) => nested(level.element.outcomes, p)) };
}

/** The whole program with the day factor worked in. */
export const tiltGraph = (graph: Graph, formSd: number, nodes: readonly Node[]): readonly TiltedLevel[] =>
  graph.levels.map((level) => tiltLevel(level, formSd, nodes));
