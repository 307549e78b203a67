import type { Hundredths } from '../rulebook/index.ts';

/**
 * `numerator / denominator` rounded to a whole number, half away from zero: 5/2 -> 3, -5/2 -> -3.
 * Both are integers, the denominator positive; exact as long as twice the numerator fits 2^53.
 */
export function roundedDivision(numerator: number, denominator: number): number {
  const size = Math.floor((2 * Math.abs(numerator) + denominator) / (2 * denominator));
  return numerator < 0 && size !== 0 ? -size : size;
}

/** `percent` hundredths of a value, rounded half away from zero: 70 % of 5.95 points is 4.17. */
export function percentOf(value: Hundredths, percent: number): Hundredths {
  return roundedDivision(value * percent, 100);
}

/** Sum of figures of which some may not be known: null as soon as one is null. The empty sum is 0. */
export function sumOrNull(values: readonly (Hundredths | null)[]): Hundredths | null {
  let sum = 0;
  for (const value of values) {
    if (value === null) return null;
    sum += value;
  }
  return sum;
}
