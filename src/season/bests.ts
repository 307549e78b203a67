import { byKind, type SeasonProgram } from './programs.ts';

/** Her best totals in one category and segment. */
export interface Bests {
  readonly kind: string;
  readonly personal: { readonly total: number; readonly competition: string; readonly season: string };
  /** Of the latest season in the record. */
  readonly season: { readonly total: number; readonly competition: string; readonly season: string };
}

interface Scored {
  readonly total: number;
  readonly competition: string;
  readonly season: string;
}

const best = (list: readonly Scored[]): Scored | null =>
  list.reduce<Scored | null>((top, one) => (top === null || one.total > top.total ? one : top), null);

/** Personal best and season's best by category and segment; kinds without any total are left out. */
export function bestsOf(programs: readonly SeasonProgram[]): readonly Bests[] {
  return [...byKind(programs)].flatMap(([kind, list]): Bests[] => {
    const scored = list.flatMap(({ total, competition, season }) =>
      total === null ? [] : [{ total, competition, season }],
    );
    const latest = scored.at(-1)?.season;
    const personal = best(scored);
    const season = best(scored.filter((s) => s.season === latest));
    return personal === null || season === null ? [] : [{ kind, personal, season }];
  });
}
