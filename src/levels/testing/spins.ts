import fc from 'fast-check';
import type { Segment } from '../../notation/index.ts';
import { SPIN_FEATURES, type SpinFeature } from '../../rulebook/index.ts';
import { readSpin } from '../spin-form.ts';
import {
  PART_POSITIONS,
  VARIATIONS,
  VARIATION_POSITIONS,
  type PartPosition,
  type Spin,
  type SpinPart,
  type Variation,
} from '../spin.ts';

interface PartWords {
  readonly foot?: 'L' | 'R';
  readonly position?: PartPosition;
  readonly variation?: Variation;
  readonly features?: readonly SpinFeature[];
  readonly credit?: number;
}

/** A part in few words: `part('sit', 3, {variation: 'SF'})`. */
export const part = (position: PartPosition, revolutions: number, words: PartWords = {}): SpinPart => ({
  foot: words.foot ?? 'L',
  position,
  variation: words.variation ?? null,
  revolutions,
  features: words.features ?? [],
  credit: words.credit ?? 1,
});

/** A spin through its form, so that tests meet the same checks as a coach does. */
export function spin(
  code: string,
  parts: readonly SpinPart[],
  more: { used?: string[]; segment?: Segment; withoutJump?: boolean } = {},
): Spin {
  const read = readSpin({ kind: 'spin', code, parts, used: more.used ?? [], withoutJump: more.withoutJump ?? false });
  if (!read.ok) throw new Error(`${read.error.at}: ${read.error.expected}`);
  return { ...read.value.spin, segment: more.segment ?? 'free' };
}

/** Any part on a foot, with a variation that fits its position. */
const anyPart = (foot: 'L' | 'R'): fc.Arbitrary<SpinPart> =>
  fc.constantFrom(...PART_POSITIONS).chain((position) => {
    const fitting = VARIATIONS.filter((one) =>
      VARIATION_POSITIONS[one].some((where: PartPosition) => where === position),
    );
    const features = SPIN_FEATURES.filter(
      (name) =>
        (name !== 'back-sideways' || position === 'layback') &&
        (name !== 'biellmann' || position === 'upright' || position === 'layback') &&
        (position !== 'non-basic' || !['change-of-edge', 'increase-of-speed', 'both-directions'].includes(name)),
    );
    return fc.record({
      foot: fc.constant(foot),
      position: fc.constant(position),
      variation: fc.constantFrom(null, ...fitting),
      revolutions: fc.constantFrom(1, 2, 3, 4, 8),
      features: fc.subarray(features, { maxLength: 2 }),
      credit: fc.constantFrom(0, 0.4, 0.8, 0.9, 1),
    });
  });

/** Any flying spin with change of foot: every feature may stand in it. */
export const anySpin: fc.Arbitrary<Spin> = fc
  .tuple(
    fc.constantFrom('FCCoSp', 'FCSSp', 'FCCSp'),
    fc.array(anyPart('L'), { minLength: 1, maxLength: 3 }),
    fc.array(anyPart('R'), { minLength: 1, maxLength: 2 }),
    fc.subarray(['CF', 'SF', 'eight-revolutions', 'difficult-exit'], { maxLength: 2 }),
  )
  .map(([code, left, right, used]) => spin(code, [...left, ...right], { used }));
