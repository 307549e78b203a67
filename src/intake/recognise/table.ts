import type { Entry, Row } from './row.ts';
import { SECOND_LINE } from './row.ts';

/** A width that so many rows can have is worth trying. */
const WORTH_TRYING = 0.6;
const MAX_TRIALS = 3;

/**
 * Ways to put second lines back to their rows: every width that most rows reach with none, one or more
 * of the number lines below them, the commonest and widest first.
 */
export function withLinesBelow(rows: readonly Row[]): readonly Row[][] {
  const counts = new Map<number, number>();
  for (const row of rows) for (const width of new Set(widthsOf(row))) counts.set(width, (counts.get(width) ?? 0) + 1);
  const ranked = [...counts].sort(([a, m], [b, n]) => n - m || b - a);
  const most = ranked[0]?.[1] ?? 0;
  const worth = ranked
    .filter(([, count]) => count === most || count >= WORTH_TRYING * rows.length)
    .slice(0, MAX_TRIALS);
  return worth.map(([width]) => rows.map((row) => joined(row, Math.max(0, widthsOf(row).indexOf(width)))));
}

/** Figures of a row alone, with the first line below it, with the first two … */
function widthsOf(row: Row): number[] {
  const widths = [row.entries.length];
  for (const below of row.below) widths.push((widths.at(-1) ?? 0) + below.entries.length);
  return widths;
}

function joined(row: Row, lines: number): Row {
  const below = row.below.slice(0, lines);
  const entries = below.flatMap((one, i) => one.entries.map((entry) => shifted(entry, (i + 1) * SECOND_LINE)));
  return { ...row, entries: [...row.entries, ...entries], joined: true, used: below.map((one) => one.line) };
}

const shifted = (entry: Entry, by: number): Entry => ({ ...entry, x0: entry.x0 + by, x1: entry.x1 + by });

/** The commonest number; of equally common ones the larger. */
export function commonest(numbers: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const one of numbers) counts.set(one, (counts.get(one) ?? 0) + 1);
  let found = 0;
  let most = 0;
  for (const [one, count] of counts) {
    if (count > most || (count === most && one > found)) [found, most] = [one, count];
  }
  return found;
}

/** From where to where a column reaches in the full rows. */
export interface Extent {
  readonly x0: number;
  readonly x1: number;
}

/** Extents of the columns; null where columns overlap, so that a place says nothing. */
export function extentsOf(full: readonly (readonly Entry[])[]): readonly Extent[] | null {
  const width = full[0]?.length ?? 0;
  const extents = Array.from({ length: width }, (_, c) => {
    const entries = full.flatMap((row) => row[c] ?? []);
    return { x0: Math.min(...entries.map((one) => one.x0)), x1: Math.max(...entries.map((one) => one.x1)) };
  });
  const apart = extents.every((one, c) => c === 0 || (extents[c - 1]?.x1 ?? 0) <= one.x0);
  return full.length >= 2 && apart ? extents : null;
}

/** Puts the entries of a row that is not full into the columns by their places; null if one does not fit. */
export function placed(entries: readonly Entry[], extents: readonly Extent[]): (Entry | null)[] | null {
  const row: (Entry | null)[] = extents.map(() => null);
  let next = 0;
  for (const entry of entries) {
    const c = nearestColumn(entry, extents);
    if (c === null || c < next) return null;
    row[c] = entry;
    next = c + 1;
  }
  return row;
}

/** The only column whose extent, widened by half the way to its neighbours, holds the middle of the entry. */
function nearestColumn(entry: Entry, extents: readonly Extent[]): number | null {
  const middle = (entry.x0 + entry.x1) / 2;
  for (let c = 0; c < extents.length; c++) {
    const here = extents[c];
    if (here === undefined) continue;
    const left = c === 0 ? -Infinity : ((extents[c - 1]?.x1 ?? 0) + here.x0) / 2;
    const right = c === extents.length - 1 ? Infinity : (here.x1 + (extents[c + 1]?.x0 ?? 0)) / 2;
    if (middle >= left && middle < right) return c;
  }
  return null;
}
