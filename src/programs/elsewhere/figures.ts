import { clock } from '../../notation/index.ts';
import type { SegmentRules } from '../segment-rules.ts';

/** One figure of the rules in two categories; null: not known. */
export interface Figure {
  readonly what: string;
  readonly before: string | null;
  readonly after: string | null;
}

const points = (hundredths: number): string => (hundredths / 100).toFixed(2).replace('-', '−');

type Reader = (rules: SegmentRules) => string | number | null | undefined;

function falls({ chosen }: SegmentRules): string | null {
  const { falls: scale } = chosen.deductions.deductions(chosen.category, chosen.segment);
  if (scale === null) return null;
  return new Set(scale).size <= 1 ? points(scale[0] ?? 0) : scale.map(points).join(', ');
}

const READERS: readonly (readonly [string, Reader])[] = [
  ['jump elements at most', ({ content }) => content.jumpElements.max],
  ['combinations and sequences at most', ({ content }) => content.maxUnits],
  ['jumps in them', ({ content }) => content.jumpsPerUnit?.join(', ')],
  ['turns in a jump at most', ({ content }) => content.maxTurns],
  ['turns in an Axel at most', ({ content }) => content.maxAxelTurns],
  ['spins at most', ({ content }) => content.spins.max],
  ['step sequences at most', ({ content }) => content.steps.max],
  ['choreographic elements at most', ({ content }) => content.choreo.max],
  ['late jump elements with the factor', ({ content }) => content.bonusLast],
  ['length', ({ content }) => (content.duration.seconds === null ? null : clock(content.duration.seconds))],
  ['highest level of spins', ({ chosen }) => chosen.levels.spins(chosen.category).cap],
  ['highest level of steps', ({ chosen }) => chosen.levels.steps(chosen.category).cap],
  [
    'factor of the components',
    ({ chosen }) => factor(chosen.values.components(chosen.category, chosen.segment).factor),
  ],
  ['a fall', falls],
];

const factor = (hundredths: number | null): string | null => (hundredths === null ? null : points(hundredths));

const asText = (value: string | number | null | undefined): string | null => (value == null ? null : String(value));

/** Figures that differ between two categories. */
export const figuresOf = (before: SegmentRules, after: SegmentRules): readonly Figure[] =>
  READERS.map(([what, read]) => ({ what, before: asText(read(before)), after: asText(read(after)) })).filter(
    (figure) => figure.before !== figure.after,
  );
