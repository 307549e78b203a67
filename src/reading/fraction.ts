/**
 * A grade as an exact fraction: a panel's mean grade has the number of kept marks below the line, a
 * planned grade a power of ten. Both stay small, so plain integers are exact.
 */
export interface Fraction {
  readonly n: number;
  /** Always above 0, without a common divisor with `n`. */
  readonly d: number;
}

/** Decimal places of a grade that a person writes; more are cut by rounding. */
const WRITTEN_PLACES = 1_000_000;

const divisor = (a: number, b: number): number => (b === 0 ? Math.abs(a) : divisor(b, a % b));

/** `n / d` in lowest terms; `d` is not 0. */
export function fraction(n: number, d = 1): Fraction {
  const common = divisor(n, d) * Math.sign(d);
  return { n: n / common, d: d / common };
}

/** A grade written as a decimal number, exact to six places. */
export const writtenGrade = (grade: number): Fraction => fraction(Math.round(grade * WRITTEN_PLACES), WRITTEN_PLACES);

export const ZERO: Fraction = { n: 0, d: 1 };

export const add = (a: Fraction, b: Fraction): Fraction => fraction(a.n * b.d + b.n * a.d, a.d * b.d);

export const subtract = (a: Fraction, b: Fraction): Fraction => add(a, { n: -b.n, d: b.d });

export const times = (a: Fraction, b: Fraction): Fraction => fraction(a.n * b.n, a.d * b.d);

/** Negative, zero or positive as a is below, at or above b. */
export const compare = (a: Fraction, b: Fraction): number => a.n * b.d - b.n * a.d;

export const clip = (a: Fraction, min: number, max: number): Fraction => {
  if (a.n < min * a.d) return fraction(min);
  return a.n > max * a.d ? fraction(max) : a;
};

export const toNumber = (a: Fraction): number => a.n / a.d;

/** Middle of a list, the mean of the two middle ones for an even number; null for an empty list. */
export function median(values: readonly Fraction[]): Fraction | null {
  const sorted = [...values].sort(compare);
  const upper = sorted[Math.floor(sorted.length / 2)];
  const lower = sorted[Math.floor((sorted.length - 1) / 2)];
  if (upper === undefined || lower === undefined) return null;
  return times(add(lower, upper), fraction(1, 2));
}
