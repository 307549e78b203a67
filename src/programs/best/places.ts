import type { ContentRules } from '../../rulebook/index.ts';
import type { Place } from './values.ts';

/** How many jump elements can and must stand in the second half, and how many of them earn the factor. */
export interface LatePlaces {
  /** Jump elements in the second half: at least, at most. */
  readonly least: number;
  readonly most: number;
  /** Of those in the second half the last so many earn the factor. */
  readonly earning: number;
}

/** Element i of n starts at i/n: places from ceil(n/2) on lie in the second half. */
export function latePlaces(jumps: number, others: number, content: ContentRules): LatePlaces {
  const n = jumps + others;
  const early = Math.ceil(n / 2);
  const earning = content.bonusLast === 'all' ? n : (content.bonusLast ?? 0);
  return { least: Math.max(0, jumps - early), most: Math.min(jumps, n - early), earning };
}

/** An element of a program with its place. */
export interface Placed<T> {
  readonly what: T;
  readonly place: Place;
}

/**
 * Puts jumps and other elements into one skating order: the jumps keep theirs, those placed late stand
 * in the second half, the others are spread between them, with one at the end where there is one.
 */
export function arrange<T>(jumps: readonly Placed<T>[], others: readonly T[]): readonly Placed<T>[] {
  const n = jumps.length + others.length;
  const half = Math.ceil(n / 2);
  const early = jumps.filter((j) => j.place === 'early');
  const late = jumps.filter((j) => j.place !== 'early');
  const earlyOthers = others.slice(0, half - early.length).map((what): Placed<T> => ({ what, place: 'early' }));
  const lateOthers = others.slice(earlyOthers.length).map((what): Placed<T> => ({ what, place: 'late' }));
  return [...woven(early, earlyOthers), ...woven(late, lateOthers)];
}

/** Where no place in the program makes a difference the others are spread between all jumps. */
export const arrangeFreely = <T>(jumps: readonly Placed<T>[], others: readonly T[]): readonly Placed<T>[] =>
  woven(
    jumps,
    others.map((what): Placed<T> => ({ what, place: 'early' })),
  );

/** Spreads the second list evenly behind the first. */
function woven<T>(first: readonly T[], second: readonly T[]): readonly T[] {
  const result: T[] = [];
  let taken = 0;
  first.forEach((one, i) => {
    result.push(one);
    const due = Math.floor(((i + 1) * second.length) / first.length);
    while (taken < due) {
      const next = second[taken++];
      if (next !== undefined) result.push(next);
    }
  });
  return [...result, ...second.slice(taken)];
}
