import type { Hundredths } from './types.ts';

/** Points as written (5.9, at most two decimals) -> integer hundredths (590). */
export const cents = (points: number): Hundredths => Math.round(points * 100);

/** True if a number of points has at most two decimals. */
export const isPoints = (points: number): boolean => Math.abs(points * 100 - Math.round(points * 100)) < 1e-6;

/** A percentage of an amount, rounded to hundredths half away from zero, in integers throughout. */
export function percentOf(amount: Hundredths, percent: number): Hundredths {
  const rounded = Math.floor((2 * Math.abs(amount) * percent + 100) / 200);
  return amount < 0 && rounded > 0 ? -rounded : rounded;
}
