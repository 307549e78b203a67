import { studentQuantile } from '../forecast/index.ts';

/** The range in which her next result usually falls: 8 of 10 days. */
export interface UsualRange {
  readonly n: number;
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

const EIGHT_OF_TEN = 0.9;
/** Fewer results than this have no usual range. */
const LEAST = 3;

/** Student's range for one more result beside the earlier ones; null with fewer than three. */
export function usualRange(earlier: readonly number[]): UsualRange | null {
  const n = earlier.length;
  if (n < LEAST) return null;
  const mean = earlier.reduce((sum, v) => sum + v, 0) / n;
  const variance = earlier.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (n - 1);
  const reach = studentQuantile(EIGHT_OF_TEN, n - 1) * Math.sqrt(variance * (1 + 1 / n));
  return { n, mean, low: mean - reach, high: mean + reach };
}

/** Where a result lies; `unknown` without a usual range. */
export type Standing = 'inside' | 'above' | 'below' | 'unknown';

export function standing(value: number, range: UsualRange | null): Standing {
  if (range === null) return 'unknown';
  if (value > range.high) return 'above';
  return value < range.low ? 'below' : 'inside';
}
