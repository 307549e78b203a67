import type { JumpElement } from '../notation/index.ts';
import type { GoeReduction } from '../rulebook/index.ts';
import type { ObligingCause } from './causes.ts';
import { compare, fraction, subtract, times, ZERO, type Fraction } from './fraction.ts';
import type { ObligedGrades } from './types.ts';
import type { Skated } from './sides.ts';

/** Grades booked to each call, exactly, and what the season's list asks for. */
interface Obliged {
  readonly booked: Fraction;
  readonly list: ObligedGrades;
}

export type ObligedByCause = ReadonlyMap<ObligingCause, Obliged>;

/**
 * Grades that the calls of an element oblige: per cause the sum of the smallest numbers that the
 * season's list asks for (several errors add up), scaled down together so that all of them do not
 * exceed what the panel's mean grade lies below the reference grade. Unknown in the list counts 0.
 */
export function obligedGrades(
  skated: Skated,
  reductions: readonly GoeReduction[],
  gap: Fraction | null,
): ObligedByCause {
  const asked = askedFor(skated, reductions);
  const total = asked.reduce((sum, one) => sum + (one.min ?? 0), 0);
  const room = gap === null || compare(gap, ZERO) < 0 ? ZERO : gap;
  const scale = total === 0 || compare(fraction(total), room) <= 0 ? fraction(1) : times(room, fraction(1, total));
  return new Map(
    asked.map(({ cause, min, max }) => {
      const booked = times(fraction(min ?? 0), scale);
      return [cause, { booked, list: { booked: booked.n / booked.d, min, max } }];
    }),
  );
}

/** How far the panel's mean grade lies below the reference grade; negative if above, null without marks. */
export const gradeGap = (reference: Fraction, mean: Fraction | null): Fraction | null =>
  mean === null ? null : subtract(reference, mean);

interface Asked {
  readonly cause: ObligingCause;
  readonly min: number | null;
  readonly max: number | null;
}

function askedFor(skated: Skated, reductions: readonly GoeReduction[]): Asked[] {
  const calls = skated.element.kind === 'jump' ? callsOf(skated.element) : { rotation: [], edge: [] };
  const byCause: [ObligingCause, readonly string[]][] = [
    ['rotation', calls.rotation],
    ['edge', calls.edge],
    ['fall', skated.fall ? ['fall'] : []],
  ];
  return byCause
    .filter(([, signs]) => signs.length > 0)
    .map(([cause, signs]) => ({ cause, ...range(signs, reductions) }));
}

const callsOf = (element: JumpElement) => ({
  rotation: element.jumps.flatMap((jump) => jump.rotation ?? []),
  edge: element.jumps.flatMap((jump) => jump.edge ?? []),
});

/** Sum over the signs that the list knows; null where it knows none of them. */
function range(
  signs: readonly string[],
  reductions: readonly GoeReduction[],
): { min: number | null; max: number | null } {
  const known = signs.flatMap((sign) => reductions.find((one) => one.call === sign) ?? []);
  if (known.length === 0) return { min: null, max: null };
  return {
    min: known.reduce((sum, one) => sum + one.min, 0),
    max: known.reduce((sum, one) => sum + one.max, 0),
  };
}
