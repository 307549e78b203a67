import { fail, formatElement, ok, type Problem, type Result } from '../../notation/index.ts';
import type { Hundredths, Rulebook } from '../../rulebook/index.ts';
import { elementValue, goeOfGrade, type Called } from '../../scoring/index.ts';
import type { SkatedOutcome } from './program.ts';

/** Points of an element as called, one per grade of its outcome. */
export interface CalledPoints {
  /** As the panel calls it here, kept for a what-if with other grades. */
  readonly called: Called;
  readonly points: readonly Hundredths[];
  /** Points that one grade more brings around grade 0; 0 without value. */
  readonly perGrade: number;
}

const noValue = (called: Called, outcome: SkatedOutcome): CalledPoints => ({
  called,
  points: outcome.grades.map(() => 0),
  perGrade: 0,
});

const unknownValue = (code: string, rulebook: Rulebook): Problem => ({
  code: 'forecast.unknown-value',
  at: 'elements',
  found: code,
  expected: `an element whose value ${rulebook.id} knows`,
  advice: 'Enter its value in an overlay of your own, or leave the element out.',
});

const offScale = (grade: number, rulebook: Rulebook): Problem => ({
  code: 'forecast.grade',
  at: 'grade',
  found: String(grade),
  expected: `a panel grade from ${rulebook.values.goe.min} to ${rulebook.values.goe.max} in ${rulebook.season}`,
  advice: 'Correct the grade, or name the season it was given in.',
});

/**
 * Base value and grades of one called element: `points[i]` belongs to `outcome.grades[i]`. The lowest
 * grade of the scale replaces every grade where the program obliges it.
 */
export function calledPoints(called: Called, outcome: SkatedOutcome, rulebook: Rulebook): Result<CalledPoints> {
  const { min } = rulebook.values.goe;
  const value = elementValue(rulebook, called.element, { half: called.half });
  if (!value.hasValue) return ok(noValue(called, outcome));
  const { base, row } = value;
  if (base === null || row === null) {
    return fail(unknownValue(value.unknown[0] ?? formatElement(called.element), rulebook));
  }
  const points: Hundredths[] = [];
  for (const { grade } of outcome.grades) {
    const goe = goeOfGrade(row, called.lowestGrade ? min : grade);
    if (goe === null) return fail(row.grades === null ? unknownValue(row.code, rulebook) : offScale(grade, rulebook));
    points.push(base + goe);
  }
  return ok({ called, points, perGrade: ((goeOfGrade(row, 1) ?? 0) - (goeOfGrade(row, -1) ?? 0)) / 2 });
}
