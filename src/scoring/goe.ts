import type { Hundredths, ValueRow } from '../rulebook/index.ts';
import { roundedDivision } from './arithmetic.ts';
import { panelMean, trimmed, type PanelRule } from './panel.ts';

/** Index 0 of a row is the lowest grade; the scale is symmetric, so grade 0 stands in the middle. */
const middle = (grades: readonly Hundredths[]): number => (grades.length - 1) / 2;

/** Points of one judge's whole grade in this row; null: the row is not known or the grade not on its scale. */
export function pointsOfGrade(row: ValueRow, grade: number): Hundredths | null {
  return row.grades?.[grade + middle(row.grades)] ?? null;
}

/**
 * The panel's grade of execution in points: each mark through the row, then the panel mean. Null when
 * the row's points are not known, when no judge gave a mark or when a mark is not on the scale.
 */
export function goeOfMarks(row: ValueRow, marks: readonly (number | null)[], panel: PanelRule): Hundredths | null {
  const points: number[] = [];
  for (const mark of marks) {
    if (mark === null) continue;
    const value = pointsOfGrade(row, mark);
    if (value === null) return null;
    points.push(value);
  }
  return panelMean(points, panel);
}

/** Fractional grades are held to a billionth, so that interpolation stays in whole numbers. */
const FINE = 1_000_000_000;

/**
 * Points of a panel grade that may be fractional: interpolated between the rounded points of the two
 * neighbouring grades, then rounded half away from zero. Outside the scale or without points: null.
 */
export function goeOfGrade(row: ValueRow, grade: number): Hundredths | null {
  const fine = Math.round(grade * FINE);
  const below = Math.floor(fine / FINE);
  const share = fine - below * FINE;
  const low = pointsOfGrade(row, below);
  if (share === 0 || low === null) return low;
  const high = pointsOfGrade(row, below + 1);
  return high === null ? null : roundedDivision(low * FINE + (high - low) * share, FINE);
}

/**
 * The other order of averaging: first the trimmed mean of the grades, then their points. Two forms of
 * it are in use: between the rounded points of the row, and with the unrounded step where the row's
 * steps are an even percentage of its base value. Returns the distinct results, none where unknown.
 */
export function goeByMeanGrade(
  row: ValueRow,
  marks: readonly (number | null)[],
  panel: PanelRule,
): readonly Hundredths[] {
  const present = marks.filter((mark) => mark !== null);
  if (present.length === 0 || present.some((mark) => pointsOfGrade(row, mark) === null)) return [];
  const kept = trimmed(present, panel);
  const sum = kept.reduce((total, mark) => total + mark, 0);
  const results = [interpolated(row, sum, kept.length), unrounded(row, sum, kept.length)];
  return [...new Set(results.filter((result) => result !== null))];
}

function interpolated(row: ValueRow, sum: number, count: number): Hundredths | null {
  const below = Math.floor(sum / count);
  const rest = sum - below * count;
  const low = pointsOfGrade(row, below);
  const high = pointsOfGrade(row, below + 1) ?? low;
  return low === null || high === null ? null : roundedDivision(low * count + (high - low) * rest, count);
}

function unrounded(row: ValueRow, sum: number, count: number): Hundredths | null {
  const percent = stepPercent(row);
  return percent === null || row.base === null ? null : roundedDivision(row.base * percent * sum, 100 * count);
}

/** The whole percentage of the base value that reproduces every step of the row, if there is one. */
function stepPercent(row: ValueRow): number | null {
  const { base, grades } = row;
  const top = grades?.at(-1);
  if (!base || !grades || top === undefined) return null;
  const percent = Math.round((100 * top) / (base * middle(grades)));
  const even = grades.every((points, i) => points === roundedDivision(base * percent * (i - middle(grades)), 100));
  return even ? percent : null;
}
