import { studentQuantile } from '../forecast/index.ts';

/** A straight line through her results, with what is certain about it. */
export interface Trend {
  readonly n: number;
  /** Change from one event to the next, in the unit of the values. */
  readonly perEvent: number;
  /** The change per event lies in here on 19 of 20 such occasions. */
  readonly interval: readonly [number, number];
  /** Spread of single results around the line. */
  readonly noise: number;
  /** `up`, `down`: larger than the noise; `none`: inside it. */
  readonly direction: 'up' | 'down' | 'none';
}

const LEVEL = 0.975;
/** Fewer results than this have no trend. */
const LEAST = 4;

/**
 * Least-squares line over the order of events, with Student's interval for its slope. null with fewer
 * than four results: three points always look like a trend.
 */
export function trendOf(values: readonly number[]): Trend | null {
  const n = values.length;
  if (n < LEAST) return null;
  const middle = (n - 1) / 2;
  const mean = values.reduce((sum, v) => sum + v, 0) / n;
  const across = values.reduce((sum, _, i) => sum + (i - middle) ** 2, 0);
  const slope = values.reduce((sum, v, i) => sum + (i - middle) * (v - mean), 0) / across;
  const rest = values.reduce((sum, v, i) => sum + (v - mean - slope * (i - middle)) ** 2, 0);
  const noise = Math.sqrt(rest / (n - 2));
  const reach = studentQuantile(LEVEL, n - 2) * Math.sqrt(rest / (n - 2) / across);
  const interval = [slope - reach, slope + reach] as const;
  const direction = interval[0] > 0 ? 'up' : interval[1] < 0 ? 'down' : 'none';
  return { n, perEvent: slope, interval, noise, direction };
}
