import { formatElement, parseCode } from '../../notation/index.ts';
import type { Layout, LayoutElement } from '../../scoring/index.ts';
import { saferElement } from '../best/safer.ts';
import type { SegmentRules } from '../segment-rules.ts';

/** One thing to train: the layout with it, and how it is said. */
export interface TrainingStep {
  readonly kind: 'safer' | 'level';
  readonly no: number;
  readonly what: string;
  readonly layout: Layout;
}

/** How much of what goes wrong is taken away by “ten per cent safer”. */
const SAFER = 0.1;

/** The code one level up; null for jumps, at the top, and without a level. */
function levelUp(code: string, cap: number): string | null {
  const parsed = parseCode(code);
  if (!parsed.ok) return null;
  const { element } = parsed.value;
  if (element.kind !== 'spin' && element.kind !== 'steps') return null;
  const { level } = element;
  const next = level === 'B' ? 1 : level === 1 ? 2 : level === 2 ? 3 : level === 3 ? 4 : null;
  return next === null || next > cap ? null : formatElement({ ...element, level: next });
}

/** The element planned one level higher, each outcome one level higher where it has one. */
function higher(element: LayoutElement, cap: number): LayoutElement | null {
  const code = levelUp(element.code, cap);
  if (code === null) return null;
  const outcomes = element.outcomes?.map((o) => ({ ...o, code: levelUp(o.code, cap) ?? o.code })) ?? null;
  return { ...element, code, outcomes };
}

const capOf = (code: string, { chosen }: SegmentRules): number =>
  (code.startsWith('StSq') ? chosen.levels.steps(chosen.category).cap : chosen.levels.spins(chosen.category).cap) ?? 4;

const withElement = (layout: Layout, index: number, element: LayoutElement): Layout => ({
  ...layout,
  elements: layout.elements.map((one, i) => (i === index ? element : one)),
});

/** What could be trained on the elements of a layout. No new jumps: those are the coach's to release. */
export function trainingSteps(layout: Layout, rules: SegmentRules): readonly TrainingStep[] {
  return layout.elements.flatMap((element, index): readonly TrainingStep[] => {
    const no = index + 1;
    const sure = saferElement(element, SAFER);
    const up = higher(element, capOf(element.code, rules));
    return [
      ...(sure === null
        ? []
        : [
            {
              kind: 'safer' as const,
              no,
              what: `${element.code} 10 % safer`,
              layout: withElement(layout, index, sure),
            },
          ]),
      ...(up === null
        ? []
        : [
            {
              kind: 'level' as const,
              no,
              what: `${element.code} to ${up.code}`,
              layout: withElement(layout, index, up),
            },
          ]),
    ];
  });
}
