import type { Hundredths, ValueRow } from '../rulebook/index.ts';
import { pointsOfGrade, roundedDivision, trimmed, type PanelRule } from '../scoring/index.ts';
import { clip, fraction, type Fraction } from './fraction.ts';

/** The marks that are there. */
export const present = (marks: readonly (number | null)[]): readonly number[] => marks.filter((mark) => mark !== null);

/** The panel's mean grade of the marks that count, not rounded; null without marks. */
export function meanGrade(marks: readonly (number | null)[], panel: PanelRule): Fraction | null {
  const kept = trimmed(present(marks), panel);
  if (kept.length === 0) return null;
  return fraction(
    kept.reduce((sum, mark) => sum + mark, 0),
    kept.length,
  );
}

/**
 * The panel's grade of execution in points for marks that may be fractional: each mark clipped to the
 * scale and interpolated between the rounded points of the row, then trimmed, averaged, rounded once.
 * Null where the row's points are not known or no mark is given.
 */
export function goeOfFractions(row: ValueRow, marks: readonly Fraction[], panel: PanelRule): Hundredths | null {
  if (row.grades === null || marks.length === 0) return null;
  const top = (row.grades.length - 1) / 2;
  const clipped = marks.map((mark) => clip(mark, -top, top));
  const scale = clipped.reduce((common, mark) => leastCommonMultiple(common, mark.d), 1);
  const points: number[] = [];
  for (const mark of clipped) {
    const value = scaledPoints(row, mark, scale);
    if (value === null) return null;
    points.push(value);
  }
  const kept = trimmed(points, panel);
  const sum = kept.reduce((total, value) => total + value, 0);
  return roundedDivision(sum, kept.length * scale);
}

/** Interpolated points of one mark, times `scale` (a multiple of the mark's denominator). */
function scaledPoints(row: ValueRow, mark: Fraction, scale: number): number | null {
  const below = Math.floor(mark.n / mark.d);
  const share = (mark.n - below * mark.d) * (scale / mark.d);
  const low = pointsOfGrade(row, below);
  const high = share === 0 ? low : pointsOfGrade(row, below + 1);
  return low === null || high === null ? null : low * scale + (high - low) * share;
}

const leastCommonMultiple = (a: number, b: number): number => a * fraction(a, b).d;
