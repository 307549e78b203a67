import type { Pmf } from '../../forecast/index.ts';

/**
 * Distributions on a grid of cells of so many hundredths. Values are rounded up to whole cells, so a sum
 * of cells is never below the true sum: tails on a coarse grid bound the true tails from above.
 */
export interface Grid {
  readonly from: number;
  readonly p: Float64Array;
}

/** Two parts of one distribution, laid over each other. */
export function overlay(a: Grid, b: Grid): Grid {
  const from = Math.min(a.from, b.from);
  const p = new Float64Array(Math.max(a.from + a.p.length, b.from + b.p.length) - from);
  p.set(a.p, a.from - from);
  const shift = b.from - from;
  const added = b.p;
  for (let i = 0; i < added.length; i++) p[shift + i] = (p[shift + i] ?? 0) + (added[i] ?? 0);
  return { from, p };
}

/** The values of a grid that can occur. */
export const cellsIn = (grid: Grid): readonly Cell[] =>
  occurring(grid.p).map((i) => ({ at: grid.from + i, p: grid.p[i] ?? 0 }));

function occurring(p: Float64Array): number[] {
  const indexes: number[] = [];
  for (let i = 0; i < p.length; i++) if ((p[i] ?? 0) > 0) indexes.push(i);
  return indexes;
}

/** One possible value in cells, with its probability. */
export interface Cell {
  readonly at: number;
  readonly p: number;
}

export const NOTHING: Grid = { from: 0, p: Float64Array.of(1) };

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

export const gridOf = (pmf: Pmf, size: number): Grid =>
  plus(
    NOTHING,
    cellsOf(
      [...pmf.p].map((p, i) => ({ points: pmf.from + i, p })),
      size,
    ),
  );

/** Sum of an independent element and what was so far. */
export function plus(grid: Grid, cells: readonly Cell[]): Grid {
  const low = cells[0]?.at ?? 0;
  const high = cells.at(-1)?.at ?? 0;
  const { p } = grid;
  const n = p.length;
  const sum = new Float64Array(n + high - low);
  for (const cell of cells) {
    const shift = cell.at - low;
    const weight = cell.p;
    for (let i = 0; i < n; i++) sum[shift + i] = (sum[shift + i] ?? 0) + (p[i] ?? 0) * weight;
  }
  return { from: grid.from + low, p: sum };
}

/** `at(d)` = chance of d cells or more. */
export interface Tail {
  readonly from: number;
  /** `p[i]`: chance of `from + i` cells or more; 1 before, 0 after. */
  readonly p: Float64Array;
}

export function tailOf(grid: Grid): Tail {
  const p = new Float64Array(grid.p.length);
  let sum = 0;
  for (let i = grid.p.length - 1; i >= 0; i--) {
    sum += grid.p[i] ?? 0;
    p[i] = sum;
  }
  return { from: grid.from, p };
}

/** The larger of two tails at every value. */
export function envelope(a: Tail, b: Tail): Tail {
  const from = Math.min(a.from, b.from);
  const to = Math.max(a.from + a.p.length, b.from + b.p.length);
  const p = new Float64Array(to - from);
  for (let i = 0; i < p.length; i++) p[i] = Math.max(tailAt(a, from + i), tailAt(b, from + i));
  return { from, p };
}

export function tailAt(tail: Tail, cell: number): number {
  const i = cell - tail.from;
  return i <= 0 ? (i === 0 ? (tail.p[0] ?? 0) : Math.max(1, tail.p[0] ?? 0)) : (tail.p[i] ?? 0);
}

/** The distribution that has this tail. */
export function gridOfTail(tail: Tail): readonly Cell[] {
  const cells: Cell[] = [];
  for (let i = 0; i < tail.p.length; i++) {
    const p = (tail.p[i] ?? 0) - (tail.p[i + 1] ?? 0);
    if (p > 0) cells.push({ at: tail.from + i, p });
  }
  return cells;
}

/** Chance that the sum of an independent grid and tail reaches `target` cells. */
export function reach(grid: Grid, tail: Tail, target: number): number {
  const { p, from } = grid;
  const t = tail.p;
  const first = target - from - tail.from;
  let sum = 0;
  for (let i = 0; i < p.length; i++) {
    const need = first - i;
    const chance = need <= 0 ? 1 : need < t.length ? (t[need] ?? 0) : 0;
    sum += (p[i] ?? 0) * chance;
  }
  return sum;
}
