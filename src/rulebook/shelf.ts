import type { Library } from './library.ts';
import type { Rulebook } from './types.ts';

/** The rulebooks of one issuing body in order of their seasons. */

/** Bodies that have a rulebook. */
export const bodiesOf = (library: Library): readonly string[] => [
  ...new Set(library.list().map((id) => id.slice(0, id.indexOf('/')))),
];

/** The rulebooks of a body, oldest season first; there is at least one. */
export interface Shelf {
  readonly all: readonly Rulebook[];
  readonly first: Rulebook;
  readonly last: Rulebook;
}

/** The shelf of a body; null where it has no rulebook. */
export function openShelf(library: Library, body: string): Shelf | null {
  const all = shelfOf(library, body);
  const [first] = all;
  const last = all.at(-1);
  return first && last ? { all, first, last } : null;
}

/** Rulebooks of a body, oldest season first; empty where it has none. */
export const shelfOf = (library: Library, body: string): readonly Rulebook[] =>
  library
    .list()
    .filter((id) => id.startsWith(`${body}/`))
    .flatMap((id) => library.rulebook(id) ?? [])
    .sort((a, b) => firstYear(a.season) - firstYear(b.season));

const firstYear = (season: string): number => Number(season.slice(0, 4));

/** The rulebook of the season, else of the nearest one; between two equally near the later. */
export function nearestTo({ all, last }: Shelf, season: string): Rulebook {
  const distance = (rulebook: Rulebook): number => Math.abs(firstYear(rulebook.season) - firstYear(season));
  return [...all].reverse().reduce((best, next) => (distance(next) < distance(best) ? next : best), last);
}
