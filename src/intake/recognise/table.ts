import type { Entry, Row } from './row.ts';
import { SECOND_LINE } from './row.ts';

/** Share of the rows that must have a line of numbers below them for two-line rows to be the rule. */
const TWO_LINE = 0.6;
const LEAST_BELOW = 3;

/** Puts second lines back to their rows: all of them where that is the rule, else where a row is short. */
export function withLinesBelow(rows: readonly Row[], usualWidth: number | null): Row[] {
  const having = rows.filter((row) => (row.below[0]?.length ?? 0) >= LEAST_BELOW);
  if (having.length >= TWO_LINE * rows.length && (rows.length > 2 || usualWidth === null || rows[0]?.entries.length !== usualWidth)) {
    return rows.map((row) => ((row.below[0]?.length ?? 0) >= LEAST_BELOW ? joined(row, 1) : row));
  }
  const width = usualWidth ?? commonest(rows.map((row) => row.entries.length));
  return rows.map((row) => {
    let count = row.entries.length;
    for (let lines = 1; lines <= row.below.length && count < width; lines++) {
      count += row.below[lines - 1]?.length ?? 0;
      if (count === width) return joined(row, lines);
    }
    return row;
  });
}

function joined(row: Row, lines: number): Row {
  const below = row.below.slice(0, lines).flatMap((entries, i) => entries.map((entry) => shifted(entry, (i + 1) * SECOND_LINE)));
  return { ...row, entries: [...row.entries, ...below], joined: true };
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
