import type { Pmf } from '../../forecast/index.ts';

/**
 * Distributions on a grid of cells of so many hundredths. Values are rounded up to whole cells, so a sum
 * of cells is never below the true sum: tails on a coarse grid bound the true tails from above.
 * A grid may hold less than the whole probability: the part of it that led to one state of a program.
 */
export interface Grid {
  readonly from: number;
  readonly p: Float64Array;
}

/** One possible value in cells, with its probability. */
export interface Cell {
  readonly at: number;
  readonly p: number;
}

export const NOTHING: Grid = { from: 0, p: Float64Array.of(1) };

/** Probability that is left aside at either end of a distribution; far below the allowance of every bound. */
const TRIFLE = 1e-14;

/** Gathers values in hundredths into cells, rounded up. */
export function cellsOf(
  values: readonly { readonly points: number; readonly p: number }[],
  size: number,
): readonly Cell[] {
  const cells = new Map<number, number>();
  for (const { points, p } of values) {
    const at = Math.ceil(points / size);
    if (p > 0) cells.set(at, (cells.get(at) ?? 0) + p);
  }
  return [...cells].map(([at, p]) => ({ at, p })).sort((a, b) => a.at - b.at);
}

/** The values of a grid that can occur. */
export function cellsIn({ from, p }: Grid): readonly Cell[] {
  const cells: Cell[] = [];
  p.forEach((chance, i) => {
    if (chance > 0) cells.push({ at: from + i, p: chance });
  });
  return cells;
}

export const gridOf = (pmf: Pmf, size: number): Grid =>
  plus(
    NOTHING,
    cellsOf(
      [...pmf.p].map((p, i) => ({ points: pmf.from + i, p })),
      size,
    ),
  );

/** The same without ends that no sum feels. The upper end is given to the last cell kept, so that no tail shrinks. */
function trimmed(from: number, p: Float64Array): Grid {
  let start = 0;
  let end = p.length;
  let low = 0;
  let high = 0;
  while (start < end - 1 && low + (p[start] ?? 0) < TRIFLE) low += p[start++] ?? 0;
  while (end > start + 1 && high + (p[end - 1] ?? 0) < TRIFLE) high += p[--end] ?? 0;
  if (start === 0 && end === p.length) return { from, p };
  const kept = p.slice(start, end);
  kept[0] = (kept[0] ?? 0) + low;
  kept[kept.length - 1] = (kept[kept.length - 1] ?? 0) + high;
  return { from: from + start, p: kept };
}

/** Adds the sum of a grid and independent cells to an array that begins at `from`. */
function addInto(into: Float64Array, from: number, grid: Grid, cells: readonly Cell[]): void {
  const { p } = grid;
  const n = p.length;
  for (const cell of cells) {
    const shift = grid.from + cell.at - from;
    const weight = cell.p;
    for (let i = 0; i < n; i++) into[shift + i] = (into[shift + i] ?? 0) + (p[i] ?? 0) * weight;
  }
}

/** A grid and independent cells that are to be added to it. */
export type Summand = readonly [Grid, readonly Cell[]];

/** Mixture of sums: the parts of one distribution laid over each other. */
export function sumOver(parts: readonly Summand[]): Grid {
  let from = Infinity;
  let to = -Infinity;
  for (const [grid, cells] of parts) {
    from = Math.min(from, grid.from + (cells[0]?.at ?? 0));
    to = Math.max(to, grid.from + grid.p.length + (cells.at(-1)?.at ?? 0));
  }
  if (!(to > from)) return { from: 0, p: new Float64Array(1) };
  const p = new Float64Array(to - from);
  for (const [grid, cells] of parts) addInto(p, from, grid, cells);
  return trimmed(from, p);
}

/** Sum of an independent element and what was so far. */
export const plus = (grid: Grid, cells: readonly Cell[]): Grid => sumOver([[grid, cells]]);

/** Mean of a grid times its mass, in cells. */
export function firstMoment({ from, p }: Grid): number {
  let sum = 0;
  for (let i = 0; i < p.length; i++) sum += (p[i] ?? 0) * (from + i);
  return sum;
}

/** `at(d)` = chance of d cells or more. */
export interface Tail {
  readonly from: number;
  /** `p[i]`: chance of `from + i` cells or more; 1 before, 0 after. */
  readonly p: Float64Array;
}

/** The tail of nothing at all: 0 cells for sure. */
export const NOTHING_MORE: Tail = { from: 0, p: Float64Array.of(1) };

export function tailOf(grid: Grid): Tail {
  const p = new Float64Array(grid.p.length);
  let sum = 0;
  for (let i = grid.p.length - 1; i >= 0; i--) {
    sum += grid.p[i] ?? 0;
    p[i] = sum;
  }
  return { from: grid.from, p };
}

/** A tail without the part where it is sure or cannot be; rounded up. */
function narrowed(from: number, p: Float64Array): Tail {
  let start = 0;
  let end = p.length;
  while (start < end - 1 && (p[start + 1] ?? 0) > 1 - TRIFLE) start++;
  while (end > start + 1 && (p[end - 1] ?? 0) < TRIFLE) end--;
  return start === 0 && end === p.length ? { from, p } : { from: from + start, p: p.slice(start, end) };
}

/** The larger of tails at every value. */
export function envelope(tails: readonly Tail[]): Tail {
  const [first] = tails;
  if (first !== undefined && tails.length === 1) return first;
  const from = Math.min(...tails.map((t) => t.from));
  const to = Math.max(...tails.map((t) => t.from + t.p.length));
  const most = new Float64Array(to - from);
  for (const { from: start, p } of tails) {
    const shift = start - from;
    most.fill(1, 0, shift);
    for (let i = 0; i < p.length; i++) most[shift + i] = Math.max(most[shift + i] ?? 0, p[i] ?? 0);
  }
  return { from, p: most };
}

/** A tail and independent cells before it. */
export type Ahead = readonly [Tail, readonly Cell[]];

/** Tail of a mixture: cells of several branches, each followed by a tail of its own. */
export function tailOver(branches: readonly Ahead[]): Tail {
  let from = Infinity;
  let to = -Infinity;
  for (const [tail, cells] of branches) {
    from = Math.min(from, tail.from + (cells[0]?.at ?? 0));
    to = Math.max(to, tail.from + tail.p.length + (cells.at(-1)?.at ?? 0));
  }
  if (!(to > from)) return NOTHING_MORE;
  const sum = new Float64Array(to - from);
  const sure = new Float64Array(to - from + 1);
  for (const [tail, cells] of branches) {
    const { p } = tail;
    const n = p.length;
    for (const cell of cells) {
      const shift = tail.from + cell.at - from;
      const weight = cell.p;
      sure[shift] = (sure[shift] ?? 0) + weight;
      for (let i = 0; i < n; i++) sum[shift + i] = (sum[shift + i] ?? 0) + (p[i] ?? 0) * weight;
    }
  }
  let later = 0;
  for (let i = sum.length - 1; i >= 0; i--) {
    later += sure[i + 1] ?? 0;
    sum[i] = (sum[i] ?? 0) + later;
  }
  return narrowed(from, sum);
}

/** The distribution that has this tail. */
export function gridOfTail(tail: Tail): readonly Cell[] {
  const cells: Cell[] = [];
  for (let i = 0; i < tail.p.length; i++) {
    const here = i === 0 ? 1 : (tail.p[i] ?? 0);
    const p = here - (tail.p[i + 1] ?? 0);
    if (p > 0) cells.push({ at: tail.from + i, p });
  }
  return cells;
}

/** Chance that the sum of an independent grid and tail reaches `target` cells. */
export function reach(grid: Grid, tail: Tail, target: number): number {
  const { p, from } = grid;
  const t = tail.p;
  const first = target - from - tail.from;
  const n = p.length;
  // From here on the grid alone is enough.
  const enough = Math.min(n, Math.max(0, first));
  let sum = 0;
  for (let i = Math.max(0, first - t.length + 1); i < enough; i++) sum += (p[i] ?? 0) * (t[first - i] ?? 0);
  for (let i = enough; i < n; i++) sum += p[i] ?? 0;
  return sum;
}
