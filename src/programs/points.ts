import type { Element } from '../notation/index.ts';
import type { Hundredths, Rulebook } from '../rulebook/index.ts';
import { elementValue, goeOfGrade } from '../scoring/index.ts';

/** Points of an element as called at one panel grade; null where the season's values are not known. */
export function pointsAt(values: Rulebook, element: Element, half: boolean, grade: number): Hundredths | null {
  const value = elementValue(values, element, { half });
  if (!value.hasValue) return 0;
  if (value.base === null || value.row === null) return null;
  const goe = goeOfGrade(value.row, grade);
  return goe === null ? null : value.base + goe;
}

/** Points as a JSON number; null stays null. */
export const asPoints = (hundredths: Hundredths | null): number | null =>
  hundredths === null ? null : hundredths / 100;

/** Points for people: `12.30`. */
export const showPoints = (hundredths: Hundredths): string => (hundredths / 100).toFixed(2);
