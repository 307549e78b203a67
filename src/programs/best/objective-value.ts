import { chanceOf, quantile, type Pmf } from '../../forecast/index.ts';
import { reach, type Grid, type Tail } from './grid.ts';
import type { Objective } from './objective.ts';
import type { ByNode } from './tail-parts.ts';

export type TailObjective = Exclude<Objective, { kind: 'expected' }>;

/** Bounds are taken with this allowance for rounding. */
export const ROUNDING = 1e-10;

/** A sum of independent parts at each node: one with its distribution, the rest as a tail. */
export type Joint = readonly [ByNode<Grid>, ByNode<Tail>];

/** The exact value of the objective: a chance, or hundredths. */
export const exactValue = (pmf: Pmf, objective: TailObjective): number =>
  objective.kind === 'chance' ? chanceOf(pmf, objective.target) : quantile(pmf, objective.level);

/** Chance that one of several alternative sums (parts of one distribution) reaches so many cells. */
function chanceOfCells(joints: readonly Joint[], weights: readonly number[], cell: number): number {
  let sum = 0;
  for (const [grids, tails] of joints) {
    for (let z = 0; z < weights.length; z++) {
      const [grid, tail] = [grids[z], tails[z]];
      if (grid !== undefined && tail !== undefined) sum += (weights[z] ?? 0) * reach(grid, tail, cell);
    }
  }
  return sum;
}

function rangeOf(joints: readonly Joint[]): readonly [number, number] {
  let low = Infinity;
  let high = -Infinity;
  for (const [grids, tails] of joints) {
    grids.forEach((grid, z) => {
      const tail = tails[z];
      if (tail === undefined) return;
      low = Math.min(low, grid.from + tail.from);
      high = Math.max(high, grid.from + tail.from + grid.p.length + tail.p.length);
    });
  }
  return [low, high];
}

/**
 * The objective of a sum, on cells of `size` hundredths: an upper bound where its parts are. `shift` cells
 * come on top for certain. A quantile below `floor` hundredths is not worked out: -Infinity.
 */
export function boundOf(
  objective: TailObjective,
  size: number,
  weights: readonly number[],
  joints: readonly Joint[],
  shift: number,
  floor: number,
): number {
  const chance = (cell: number): number => chanceOfCells(joints, weights, cell - shift);
  if (objective.kind === 'chance') return chance(Math.ceil(objective.target / size));
  const enough = (cell: number): boolean => chance(cell) > 1 - objective.level - ROUNDING;
  const [from, to] = rangeOf(joints);
  let [low, high] = [from + shift, to + shift];
  const least = Math.floor(floor / size);
  if (least > low) {
    if (least > high || !enough(least)) return -Infinity;
    low = least;
  }
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (enough(middle)) low = middle;
    else high = middle - 1;
  }
  return low * size;
}
