import type { Category, Segment } from '../notation/index.ts';
import type { ChosenRules } from '../rulebook/index.ts';
import { audit, type Protocol } from '../scoring/index.ts';
import { earlierProgram, timeOf, type Skated } from '../forecast/index.ts';

/** Was there video review for the panel? Like is compared with like; unknown is a kind of its own. */
export type Video = 'yes' | 'no' | 'unknown';

/** One program of hers, ready for a season's questions. Points as numbers, absent ones null. */
export interface SeasonProgram {
  readonly id: string | null;
  readonly competition: string;
  readonly date: string | null;
  readonly when: number;
  readonly season: string;
  readonly category: Category | null;
  readonly segment: Segment | null;
  readonly video: Video;
  readonly tes: number | null;
  readonly pcs: number | null;
  readonly total: number | null;
  readonly skated: readonly Skated[];
  /** Element scores in the printed order of `skated`; null where the sheet does not tell. */
  readonly scores: readonly (number | null)[];
  /** Mean mark of the components. */
  readonly components: number | null;
  /** Highest grade of the season's scale, to turn shares of the scale into grades. */
  readonly gradeMax: number;
}

const points = (hundredths: number | null): number | null => (hundredths === null ? null : hundredths / 100);

function meanMark(protocol: Protocol): number | null {
  const scores = protocol.components.flatMap(({ score, marks }) => {
    if (score !== null) return [score];
    const given = marks.filter((mark) => mark !== null);
    return given.length === 0 ? [] : [given.reduce((sum, m) => sum + m, 0) / given.length];
  });
  return scores.length === 0 ? null : scores.reduce((sum, s) => sum + s, 0) / scores.length / 100;
}

/** Reads a protocol for a season; figures that the sheet lacks are recomputed where they can be. */
export function seasonProgram(
  protocol: Protocol,
  rules: ChosenRules,
  index: number,
  video: Video = 'unknown',
): SeasonProgram {
  const when = timeOf(protocol) ?? index;
  const complete = protocol.total !== null && protocol.tes !== null && protocol.elements.every((e) => e.score !== null);
  const again = complete ? null : audit(protocol, rules);
  return {
    id: protocol.id,
    competition: protocol.competition ?? protocol.date ?? protocol.id ?? `event ${index + 1}`,
    date: protocol.date,
    when,
    season: protocol.season ?? rules.values.season,
    category: protocol.category,
    segment: protocol.segment,
    video,
    tes: points(protocol.tes ?? again?.tes ?? null),
    pcs: points(protocol.pcs ?? again?.pcs ?? null),
    total: points(protocol.total ?? again?.total ?? null),
    skated: earlierProgram(protocol, when, rules).skated,
    scores: protocol.elements.map((e, i) => points(e.score ?? again?.elements[i]?.score ?? null)),
    components: meanMark(protocol),
    gradeMax: rules.values.values.goe.max,
  };
}

/** Oldest first. */
export const inTime = (programs: readonly SeasonProgram[]): readonly SeasonProgram[] =>
  [...programs].sort((a, b) => a.when - b.when);

/** Programs of one category and segment: only like is compared with like. */
export function byKind(programs: readonly SeasonProgram[]): ReadonlyMap<string, readonly SeasonProgram[]> {
  const kinds = new Map<string, SeasonProgram[]>();
  for (const program of inTime(programs)) {
    const key = [program.category, program.segment].filter((part) => part !== null).join(', ');
    kinds.set(key, [...(kinds.get(key) ?? []), program]);
  }
  return kinds;
}
