import type { SkatedOutcome as Draft } from '../../forecast/index.ts';
import type { Element, Jump, JumpElement, JumpMarker } from '../../notation/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import { Joiner } from './joiner.ts';
import type { DraftItem } from './pool.ts';

const single = (draft: DraftItem): Jump | null => {
  const { element } = draft;
  return element.kind === 'jump' && element.jumps.length === 1 && element.markers.length === 0
    ? (element.jumps[0] ?? null)
    : null;
};

/** Jumps that start from the landing edge of another: toe loop and loop. */
const followsDirectly = (jump: Jump | null): boolean => jump?.name === 'T' || jump?.name === 'Lo';

/** The grade of a unit is held to be that of its weaker jump. */
function weakerGrade(a: Draft['grades'], b: Draft['grades']): Draft['grades'] {
  const grades = new Map<number, number>();
  for (const x of a) {
    for (const y of b) {
      const grade = Math.min(x.grade, y.grade);
      grades.set(grade, (grades.get(grade) ?? 0) + x.p * y.p);
    }
  }
  return [...grades].map(([grade, p]) => ({ grade, p })).sort((x, y) => x.grade - y.grade);
}

/** A single jump and how many of the same kind are worth more. */
interface Ranked {
  readonly draft: DraftItem;
  readonly rank: number;
}

/** What is known of a unit before its outcomes are worked out. */
interface Plan {
  readonly element: JumpElement;
  readonly uses: readonly number[];
  /** Sum of the ranks of its jumps: 0 where each is the best of its kind. */
  readonly rank: number;
  readonly make: () => DraftItem;
}

/** A unit that may be of use, and whether it is among the most promising. */
export interface Built {
  readonly draft: DraftItem;
  readonly core: boolean;
  /** A pair of the best or second best jumps: without these a legal layout may not be found at all. */
  readonly needed: boolean;
}

export interface Building {
  readonly rules: SegmentRules;
  /** Times each inventory entry may be used. */
  readonly caps: readonly number[];
  /** Expected points of a single jump, to tell which of a kind is the better. */
  readonly worth: (draft: DraftItem) => number;
  /** May a unit planned so stand in a layout at all? Asked before anything else of it is worked out. */
  readonly mayStand: (element: Element) => boolean;
}

/** Puts the second draft behind the first. After a fall nothing follows; otherwise the next jump is as sure as it is alone. */
class Units {
  private readonly joiner = new Joiner();

  plan(first: DraftItem, second: DraftItem, marker: JumpMarker | null): Omit<Plan, 'rank'> {
    const element = this.joiner.join(first.element, second.element, marker);
    const uses = [...first.uses, ...second.uses];
    let known: DraftItem | null = null;
    const make = (): DraftItem =>
      (known ??= { element, outcomes: this.outcomes(first.outcomes, second.outcomes, marker), uses, source: null });
    return { element, uses, make };
  }

  private outcomes(first: readonly Draft[], second: readonly Draft[], marker: JumpMarker | null): readonly Draft[] {
    return first.flatMap((one): readonly Draft[] =>
      one.fall
        ? [one]
        : second.map((two) => ({
            p: one.p * two.p,
            element: this.joiner.join(one.element, two.element, marker),
            grades: weakerGrade(one.grades, two.grades),
            fall: two.fall,
          })),
    );
  }
}

/** Ranks single jumps among those of their kind. */
function ranked(singles: readonly DraftItem[], worth: (draft: DraftItem) => number): readonly Ranked[] {
  const seen = new Map<string, number>();
  return singles
    .map((draft) => ({ draft, points: worth(draft) }))
    .sort((a, b) => b.points - a.points)
    .map(({ draft }) => {
      const jump = single(draft);
      const kind = `${jump?.turns ?? ''}${jump?.name ?? ''}`;
      const rank = seen.get(kind) ?? 0;
      seen.set(kind, rank + 1);
      return { draft, rank };
    });
}

const longest = ({ content, chosen }: SegmentRules): number =>
  content.jumpsPerUnit?.[0] ?? (chosen.segment === 'short' ? 2 : 3);

const inLevels = <T extends { readonly rank: number }>(list: readonly T[]): readonly (readonly T[])[] => {
  const levels: T[][] = [];
  for (const one of list) {
    while (levels.length <= one.rank) levels.push([]);
    levels[one.rank]?.push(one);
  }
  return levels;
};

/**
 * Combinations and sequences built from single jumps, the most promising first: toe loop or loop after any
 * jump, an Axel after any jump as a sequence where the season has them. Outcomes are those of the single
 * jumps, taken as independent; the grade is that of the weaker one. Three jumps where the segment allows them.
 * What would need an entry more often than it may be used, or breaks a rule by itself, is not built.
 */
export function* builtItems(drafts: readonly DraftItem[], building: Building): Generator<Built> {
  const { rules, caps, mayStand } = building;
  const singles = ranked(
    drafts.filter((draft) => single(draft) !== null),
    building.worth,
  );
  const units = new Units();
  const fits = ({ uses }: { readonly uses: readonly number[] }): boolean =>
    uses.every((entry) => uses.filter((other) => other === entry).length <= (caps[entry] ?? 0));
  const paired = (seconds: readonly Ranked[], marker: JumpMarker | null): readonly Plan[] =>
    singles
      .flatMap((a) => seconds.map((b): Plan => ({ ...units.plan(a.draft, b.draft, marker), rank: a.rank + b.rank })))
      .filter(fits);
  const seconds = singles.filter(({ draft }) => followsDirectly(single(draft)));
  const axels = singles.filter(({ draft }) => single(draft)?.name === 'A');
  const pairs = inLevels(paired(seconds, null));
  const sequences = inLevels(rules.content.maxSequences === 0 ? [] : paired(axels, 'SEQ'));
  const thirds = inLevels(longest(rules) >= 3 ? seconds : []);
  function* triples(rank: number): Generator<Plan> {
    for (let r = 0; r <= rank; r++) {
      for (const pair of pairs[r] ?? []) {
        for (const third of thirds[rank - r] ?? []) {
          if (!fits({ uses: [...pair.uses, ...third.draft.uses] })) continue;
          yield { ...units.plan(pair.make(), third.draft, null), rank };
        }
      }
    }
  }
  const levels = Math.max(pairs.length, sequences.length) + thirds.length;
  for (let rank = 0; rank <= levels; rank++) {
    const core = rank <= 1;
    for (const plan of [...(pairs[rank] ?? []), ...(sequences[rank] ?? [])]) {
      if (mayStand(plan.element)) yield { draft: plan.make(), core, needed: core };
    }
    if (rank === 0) continue;
    for (const plan of triples(rank - 1)) {
      if (mayStand(plan.element)) yield { draft: plan.make(), core, needed: false };
    }
  }
}
