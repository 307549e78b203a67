import type { DeductionRules, Hundredths } from '../rulebook/index.ts';
import { roundedDivision, sumOrNull } from './arithmetic.ts';

/** One component's points: its panel mean times its factor (both hundredths), rounded. Null propagates. */
export function componentPoints(score: Hundredths | null, factor: Hundredths | null): Hundredths | null {
  return score === null || factor === null ? null : roundedDivision(score * factor, 100);
}

/**
 * Points of `count` falls by the rulebook's scale (1st, 2nd …, the last entry repeats); 0 or negative.
 * No fall costs nothing; with falls and an unknown scale the answer is null.
 */
export function fallPoints(rules: DeductionRules, count: number): Hundredths | null {
  if (count === 0) return 0;
  const { falls } = rules;
  const last = falls?.at(-1);
  if (falls === null || last === undefined) return null;
  const listed = falls.slice(0, count).reduce((sum, points) => sum + points, 0);
  return listed + Math.max(0, count - falls.length) * last;
}

/** What a segment is summed from; every part may be unknown. */
export interface SegmentParts {
  readonly elements: readonly (Hundredths | null)[];
  /** Factored component points, each already rounded. */
  readonly components: readonly (Hundredths | null)[];
  /** 0 or negative. */
  readonly deductions: Hundredths | null;
  readonly bonus: Hundredths;
}

export interface SegmentScore {
  readonly tes: Hundredths | null;
  readonly pcs: Hundredths | null;
  readonly total: Hundredths | null;
}

/** Element score, component score and total of a segment; a sum over something unknown is unknown. */
export function segmentScore(parts: SegmentParts): SegmentScore {
  const tes = sumOrNull(parts.elements);
  const pcs = sumOrNull(parts.components);
  return { tes, pcs, total: sumOrNull([tes, pcs, parts.bonus, parts.deductions]) };
}
