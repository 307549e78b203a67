import { contentKey, formatElement, type Element } from '../notation/index.ts';
import { standing, usualRange, type Standing, type UsualRange } from './usual.ts';
import { inTime, type SeasonProgram } from './programs.ts';

/** One element then and now. */
export interface ElementChange {
  readonly element: string;
  readonly before: string | null;
  readonly now: string | null;
  /** Points of the element; null where one of the two is not known. */
  readonly points: number | null;
}

/** What changed between her last program of a segment and the one before. */
export interface SinceLast {
  readonly competition: string;
  readonly before: string;
  readonly total: number | null;
  readonly change: number | null;
  /** Her usual range from all programs before the last. */
  readonly usual: UsualRange | null;
  readonly standing: Standing;
  readonly elements: readonly ElementChange[];
  /** Events with and without video review are not alike: said where known. */
  readonly otherVideo: boolean;
}

interface Item {
  readonly code: string;
  readonly score: number | null;
}

function items(program: SeasonProgram): ReadonlyMap<string, readonly Item[]> {
  const map = new Map<string, Item[]>();
  program.skated.forEach(({ element }: { readonly element: Element }, i) => {
    const key = contentKey(element);
    map.set(key, [...(map.get(key) ?? []), { code: formatElement(element), score: program.scores[i] ?? null }]);
  });
  return map;
}

function changes(before: SeasonProgram, now: SeasonProgram): readonly ElementChange[] {
  const then = items(before);
  const here = items(now);
  return [...new Set([...here.keys(), ...then.keys()])].flatMap((element) => {
    const a = then.get(element) ?? [];
    const b = here.get(element) ?? [];
    return Array.from({ length: Math.max(a.length, b.length) }, (_, i) => ({
      element,
      before: a[i]?.code ?? null,
      now: b[i]?.code ?? null,
      points: difference(a[i]?.score, b[i]?.score),
    }));
  });
}

const difference = (a: number | null | undefined, b: number | null | undefined): number | null =>
  a == null || b == null ? null : Math.round((b - a) * 100) / 100;

/** Compares her last program with the one before, of one segment; null with fewer than two. */
export function sinceLast(programs: readonly SeasonProgram[]): SinceLast | null {
  const ordered = inTime(programs);
  const now = ordered.at(-1);
  const before = ordered.at(-2);
  if (now === undefined || before === undefined) return null;
  const earlier = ordered.slice(0, -1).flatMap((p) => (p.total === null ? [] : [p.total]));
  const usual = usualRange(earlier);
  return {
    competition: now.competition,
    before: before.competition,
    total: now.total,
    change: difference(before.total, now.total),
    usual,
    standing: now.total === null ? 'unknown' : standing(now.total, usual),
    elements: changes(before, now),
    otherVideo: now.video !== before.video,
  };
}
