import type { StepRules } from '../rulebook/index.ts';
import { clusterMoves } from './step-clusters.ts';
import { featuresOf, levelOfCount, type CalledLevel, type StepPlan } from './step-assess.ts';
import { countOfType, eachPoint, walkTypes, type Grid, type Step, type TypeMoves } from './step-grid.ts';

/** Chance of each level; `none` only where the rules know a minimum for Basic. They sum to 1. */
export interface StepChances {
  readonly none?: number;
  readonly B: number;
  readonly 1: number;
  readonly 2: number;
  readonly 3: number;
  readonly 4: number;
}

/**
 * Exact chance of each level when every move is credited independently with its own chance.
 * Rotation and body are fixed by the plan. The count is taken twice: as it is, and with the cluster
 * turns sure, weighted by the chance of all of them. The difference is what happens without clusters.
 */
export function levelChances(plan: StepPlan, credit: (index: number) => number = plannedCredit(plan)): StepChances {
  const { all, met } = countGrids(plan, credit);
  const chances = { none: 0, B: 0, 1: 0, 2: 0, 3: 0, 4: 0 };
  const add = (grid: Grid, features: number, sign: 1 | -1) =>
    eachPoint(grid, (count, p) => {
      if (p !== 0) chances[levelOfCount(count, features, plan.rules)] += sign * p;
    });
  add(all, featuresOf(plan, false), 1);
  if (met !== null) {
    add(met, featuresOf(plan, false), -1);
    add(met, featuresOf(plan, true), 1);
  }
  return tidy(chances, plan.rules);
}

export const plannedCredit =
  (plan: StepPlan) =>
  (index: number): number =>
    plan.moves[index]?.credit ?? 0;

/**
 * Distribution of the count over all cases, and over the cases in which both clusters are met (not
 * normalised); `met` is null where the plan has no valid clusters.
 */
export function countGrids(
  plan: StepPlan,
  credit: (index: number) => number,
): { readonly all: Grid; readonly met: Grid | null } {
  const all = countGrid(plan, credit, 1);
  if (!plan.clusters.valid) return { all, met: null };
  const inside = clusterMoves(plan.clusters);
  const weight = [...inside].reduce((product, index) => product * credit(index), 1);
  return { all, met: countGrid(plan, (index) => (inside.has(index) ? 1 : credit(index)), weight) };
}

function countGrid(plan: StepPlan, credit: (index: number) => number, weight: number): Grid {
  return walkTypes(
    plan.groups.map((group) => outcomesOf(group, credit, plan.rules.maxPerType)),
    plan.rules,
    { empty: 0, first: weight },
    (soFar, value) => soFar * value,
    (a, b) => a + b,
  );
}

/** What one type may add to the count, with the chance of each. */
function outcomesOf(group: TypeMoves, credit: (index: number) => number, maxPerType: number): Step[] {
  const [cw, ccw] = [group.byDirection.cw, group.byDirection.ccw].map((moves) =>
    creditedUpTo(moves.map(credit), maxPerType),
  );
  return (cw ?? []).flatMap((p, a) => (ccw ?? []).map((q, b) => ({ ...countOfType(a, b, maxPerType), value: p * q })));
}

/** Chance that 0, 1, … `most` or more of independent turns are credited. */
function creditedUpTo(chances: readonly number[], most: number): number[] {
  let row = [1, ...new Array<number>(most).fill(0)];
  for (const p of chances)
    row = row.map((now, n) => now * (n === most ? 1 : 1 - p) + (n === 0 ? 0 : (row[n - 1] ?? 0) * p));
  return row;
}

/** Differences of grids leave dust around 0; a chance is never below 0 or above 1. */
function tidy(chances: Required<StepChances>, rules: StepRules): StepChances {
  const clip = (p: number) => Math.min(1, Math.max(0, p));
  const { none, ...levels } = chances;
  const clipped = { B: clip(levels.B), 1: clip(levels[1]), 2: clip(levels[2]), 3: clip(levels[3]), 4: clip(levels[4]) };
  return rules.minimumForBasic === null ? clipped : { none: clip(none), ...clipped };
}

/** Expected value of a number per level, e.g. points in hundredths; null if a level that can occur has none. */
export function expectedOver(chances: StepChances, valueOf: (level: CalledLevel) => number | null): number | null {
  let sum = 0;
  for (const level of ['none', 'B', 1, 2, 3, 4] as const) {
    const p = chances[level] ?? 0;
    const value = p === 0 ? 0 : valueOf(level);
    if (value === null) return null;
    sum += p * value;
  }
  return sum;
}
