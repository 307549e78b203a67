import type { Element, Jump, JumpElement, JumpMarker } from '../../notation/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import type { SkatedOutcome as Draft } from '../../forecast/index.ts';
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

const jumpsOf = (element: Element): readonly Jump[] => (element.kind === 'jump' ? element.jumps : []);

const joined = (first: Element, second: Element, marker: JumpMarker | null): JumpElement => {
  const jumps = [...jumpsOf(first), ...jumpsOf(second)];
  const kept = first.kind === 'jump' ? first.markers : [];
  return { kind: 'jump', jumps, markers: marker === null ? kept : [...kept, { marker, after: jumps.length }] };
};

/** After a fall nothing follows; otherwise the next jump is as sure as it is alone. */
function join(first: readonly Draft[], second: readonly Draft[], marker: JumpMarker | null): readonly Draft[] {
  return first.flatMap((one): readonly Draft[] =>
    one.fall
      ? [one]
      : second.map((two) => ({
          p: one.p * two.p,
          element: joined(one.element, two.element, marker),
          grades: weakerGrade(one.grades, two.grades),
          fall: two.fall,
        })),
  );
}

function build(first: DraftItem, second: DraftItem, marker: JumpMarker | null): DraftItem {
  return {
    element: joined(first.element, second.element, marker),
    outcomes: join(first.outcomes, second.outcomes, marker),
    uses: [...first.uses, ...second.uses],
    source: null,
  };
}

const longest = ({ content, chosen }: SegmentRules): number =>
  content.jumpsPerUnit?.[0] ?? (chosen.segment === 'short' ? 2 : 3);

/**
 * Combinations and sequences built from single jumps: toe loop or loop after any jump, an Axel after
 * any jump as a sequence where the season has them. Outcomes are those of the single jumps, taken as
 * independent; the grade is that of the weaker one. Three jumps where the segment allows them.
 */
export function builtItems(drafts: readonly DraftItem[], rules: SegmentRules): readonly DraftItem[] {
  const singles = drafts.filter((draft) => single(draft) !== null);
  const seconds = singles.filter((draft) => followsDirectly(single(draft)));
  const axels = singles.filter((draft) => single(draft)?.name === 'A');
  const pairs = singles.flatMap((first) => seconds.map((second) => build(first, second, null)));
  const triples = longest(rules) >= 3 ? pairs.flatMap((pair) => seconds.map((third) => build(pair, third, null))) : [];
  const { maxSequences } = rules.content;
  const sequences =
    maxSequences === 0 ? [] : singles.flatMap((first) => axels.map((axel) => build(first, axel, 'SEQ')));
  return [...pairs, ...triples, ...sequences];
}
