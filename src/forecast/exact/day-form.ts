import { normalCdf, normalQuantile } from '../math/special.ts';
import type { Node } from '../math/hermite.ts';

/**
 * The form of the day. One factor z moves all elements of a program together: on a good day the better
 * outcomes of every element become likelier, on a bad day the worse ones. It tilts probabilities on
 * fixed outcomes and never moves a value, so the mixture over the nodes stays exact.
 *
 * Each element's outcomes, ordered by their points, are cut out of a normal scale whose correlation
 * with z is `rho`. Averaged over the nodes every outcome keeps exactly the probability it was given.
 */

/** Above this an element would hang on the day alone. */
const MOST = 0.9;

/**
 * Correlation of an element with the day factor: the shift of `formSd` grades, in points, over the
 * element's own spread in points. 0 without spread.
 */
export function formCorrelation(formSd: number, pointsPerGrade: number, sdPoints: number): number {
  if (formSd <= 0 || sdPoints <= 0) return 0;
  return Math.min(MOST, (formSd * Math.abs(pointsPerGrade)) / sdPoints);
}

/** Outcomes of one element: value that orders them, and probability. Equal values move together. */
export interface Ranked {
  readonly value: number;
  readonly p: number;
}

interface Step {
  readonly members: readonly number[];
  readonly p: number;
  readonly upper: number;
}

/** Outcomes grouped by value, with the cumulative probability up to and including each group. */
function stepsOf(outcomes: readonly Ranked[]): readonly Step[] {
  const order = outcomes.map((_, i) => i).filter((i) => (outcomes[i]?.p ?? 0) > 0);
  order.sort((a, b) => (outcomes[a]?.value ?? 0) - (outcomes[b]?.value ?? 0));
  const steps: Step[] = [];
  let upper = 0;
  for (let k = 0; k < order.length;) {
    const value = outcomes[order[k] ?? 0]?.value;
    const members: number[] = [];
    while (k < order.length && outcomes[order[k] ?? 0]?.value === value) members.push(order[k++] ?? 0);
    const p = members.reduce((sum, i) => sum + (outcomes[i]?.p ?? 0), 0);
    upper += p;
    steps.push({ members, p, upper });
  }
  return steps;
}

/** Chance of each step given z. */
function cut(steps: readonly Step[], rho: number, z: number): number[] {
  const rest = Math.sqrt(1 - rho * rho);
  let before = 0;
  return steps.map(({ upper }, k) => {
    const bound = k === steps.length - 1 ? 1 : normalCdf((normalQuantile(upper) - rho * z) / rest);
    const p = Math.max(0, bound - before);
    before = bound;
    return p;
  });
}

const ROUNDS = 200;
const CLOSE = 1e-15;

/** Scales rows (nodes) and columns (steps) in turn until both sums are right: what quadrature left over. */
function settle(rows: number[][], nodes: readonly Node[], steps: readonly Step[]): void {
  for (let round = 0; round < ROUNDS; round++) {
    let worst = 0;
    steps.forEach(({ p }, k) => {
      const sum = rows.reduce((s, row, n) => s + (nodes[n]?.weight ?? 0) * (row[k] ?? 0), 0);
      worst = Math.max(worst, Math.abs(sum - p));
      if (sum > 0) for (const row of rows) row[k] = ((row[k] ?? 0) * p) / sum;
    });
    for (const row of rows) {
      const sum = row.reduce((s, p) => s + p, 0);
      row.forEach((p, k) => (row[k] = p / sum));
    }
    if (worst < CLOSE) return;
  }
}

/**
 * Probability of every outcome at every node: `result[node][outcome]`. With rho 0 each node holds the
 * probabilities as given.
 */
export function tilt(outcomes: readonly Ranked[], rho: number, nodes: readonly Node[]): readonly Float64Array[] {
  const plain = Float64Array.from(outcomes, (o) => o.p);
  if (rho === 0 || nodes.length === 1) return nodes.map(() => plain);
  const steps = stepsOf(outcomes);
  const rows = nodes.map(({ z }) => cut(steps, rho, z));
  settle(rows, nodes, steps);
  return rows.map((row) => {
    const p = new Float64Array(outcomes.length);
    steps.forEach((step, k) => {
      for (const i of step.members) p[i] = ((row[k] ?? 0) * (outcomes[i]?.p ?? 0)) / step.p;
    });
    return p;
  });
}
