import type { Segment, SpinPosition } from '../notation/index.ts';
import type { SpinFeature, SpinPlace } from '../rulebook/index.ts';
import type { Foot } from './turns.ts';

export const PART_POSITIONS = ['camel', 'sit', 'upright', 'layback', 'non-basic'] as const;
export type PartPosition = (typeof PART_POSITIONS)[number];

/**
 * Categories of difficult variations and the positions they belong to. C camel: F shoulder line
 * parallel to the ice, S vertical, U past vertical. S sit: F free leg in front, S to the side, B
 * behind. U upright: F torso forward, S straight or sideways, B Biellmann, L layback. NBP not basic.
 * Source: explainer pages and a forum post quoting the rule.
 */
export const VARIATION_POSITIONS = {
  CF: ['camel'],
  CS: ['camel'],
  CU: ['camel'],
  SF: ['sit'],
  SS: ['sit'],
  SB: ['sit'],
  UF: ['upright'],
  US: ['upright'],
  UB: ['upright', 'layback'],
  UL: ['upright', 'layback'],
  NBP: ['non-basic'],
} as const satisfies Readonly<Record<string, readonly PartPosition[]>>;
export type Variation = keyof typeof VARIATION_POSITIONS;
export const VARIATIONS = ['CF', 'CS', 'CU', 'SF', 'SS', 'SB', 'UF', 'US', 'UB', 'UL', 'NBP'] as const;
export const isVariation = (name: string): name is Variation => VARIATIONS.some((one) => one === name);

/** A stretch of a spin on one foot, in one position and variation. */
export interface SpinPart {
  readonly foot: Foot;
  readonly position: PartPosition;
  readonly variation: Variation | null;
  /** Revolutions, 0 or more. */
  readonly revolutions: number;
  readonly features: readonly SpinFeature[];
  /** Chance that the panel credits the variation, and each feature, of this part. */
  readonly credit: number;
}

/** A planned spin; `used` are the variations and features spent earlier in the program. */
export interface Spin {
  /** Code without level: `CCoSp`. */
  readonly code: string;
  readonly flying: boolean;
  readonly changeFoot: boolean;
  readonly position: SpinPosition;
  readonly segment: Segment;
  readonly used: readonly string[];
  readonly parts: readonly SpinPart[];
  /** A flying spin without a clear visible jump; false where nothing was said. */
  readonly withoutJump: boolean;
}

export const BASIC = ['camel', 'sit', 'upright'] as const;
export type Basic = (typeof BASIC)[number];

/** The basic position of a part; layback is upright, non-basic is none. */
export function basicOf(position: PartPosition): Basic | null {
  if (position === 'layback') return 'upright';
  return position === 'non-basic' ? null : position;
}

/** Indexes of the neighbouring parts on the same foot that `same` joins to the part at `index`, itself included. */
export function runOf(
  parts: readonly SpinPart[],
  index: number,
  same: (a: SpinPart, b: SpinPart) => boolean,
): readonly number[] {
  const here = parts[index];
  if (here === undefined) return [];
  const joined = (at: number) => {
    const other = parts[at];
    return other?.foot === here.foot && same(here, other);
  };
  let from = index;
  let to = index;
  while (joined(from - 1)) from -= 1;
  while (joined(to + 1)) to += 1;
  return Array.from({ length: to - from + 1 }, (_, k) => from + k);
}

/** Continuous revolutions around a part: in its basic position, or in its very variation. */
export function revolutionsAround(parts: readonly SpinPart[], index: number, what: 'position' | 'variation'): number {
  const run = runOf(parts, index, (a, b) =>
    what === 'position'
      ? (basicOf(a.position) ?? a.position) === (basicOf(b.position) ?? b.position)
      : a.position === b.position && a.variation === b.variation,
  );
  return run.reduce((sum, at) => sum + (parts[at]?.revolutions ?? 0), 0);
}

/** The places of the rulebook's conditions that a part stands on. */
export function placesOf(part: SpinPart): readonly SpinPlace[] {
  const places: SpinPlace[] = [part.position];
  const basic = basicOf(part.position);
  if (part.variation !== null && basic !== null) places.push(`varied-${basic}`);
  if (part.variation === 'UB') places.push('biellmann');
  return places;
}
