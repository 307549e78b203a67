import type { Hundredths } from '../rulebook/index.ts';

/** A distribution on the hundredths grid: `p[i]` is the probability of `from + i` hundredths. */
export interface Pmf {
  readonly from: Hundredths;
  readonly p: Float64Array;
}

/** One possible value with its probability; lists of atoms are the sparse form of a distribution. */
export interface Atom {
  readonly points: Hundredths;
  readonly p: number;
}

/** Quantiles are read with this allowance, so that a level met up to rounding noise counts as met. */
const LEVEL_SLACK = 1e-12;

/** All probability on one value. */
export const pointMass = (points: Hundredths, p = 1): Pmf => ({ from: points, p: Float64Array.of(p) });

/** Gathers atoms, in any order and with repetitions, into a distribution. Their sum is kept, not normalised. */
export function pmfOf(atoms: readonly Atom[]): Pmf {
  if (atoms.length === 0) return { from: 0, p: new Float64Array(0) };
  let low = Infinity;
  let high = -Infinity;
  for (const { points } of atoms) {
    if (points < low) low = points;
    if (points > high) high = points;
  }
  const p = new Float64Array(high - low + 1);
  for (const atom of atoms) p[atom.points - low] = (p[atom.points - low] ?? 0) + atom.p;
  return { from: low, p };
}

/** The values that occur, smallest first. */
export function atomsOf(pmf: Pmf): Atom[] {
  const atoms: Atom[] = [];
  pmf.p.forEach((p, i) => {
    if (p !== 0) atoms.push({ points: pmf.from + i, p });
  });
  return atoms;
}

/** target[at..] += source * weight. */
export function addScaled(target: Float64Array, at: number, source: Float64Array, weight: number): void {
  const n = source.length;
  for (let i = 0; i < n; i++) target[at + i] = (target[at + i] ?? 0) + (source[i] ?? 0) * weight;
}

/** Sum of two independent scores: dense array times the sparse values of the narrower one. */
export function convolve(a: Pmf, b: Pmf): Pmf {
  const [dense, sparse] = a.p.length >= b.p.length ? [a, b] : [b, a];
  if (sparse.p.length === 0) return { from: 0, p: new Float64Array(0) };
  const p = new Float64Array(dense.p.length + sparse.p.length - 1);
  sparse.p.forEach((weight, i) => {
    if (weight !== 0) addScaled(p, i, dense.p, weight);
  });
  return { from: a.from + b.from, p };
}

/** Weighted sum of distributions (a mixture where the weights sum to 1). */
export function mix(parts: readonly { readonly pmf: Pmf; readonly weight: number }[]): Pmf {
  const filled = parts.filter((part) => part.pmf.p.length > 0);
  if (filled.length === 0) return { from: 0, p: new Float64Array(0) };
  const from = Math.min(...filled.map((part) => part.pmf.from));
  const to = Math.max(...filled.map((part) => part.pmf.from + part.pmf.p.length));
  const p = new Float64Array(to - from);
  for (const { pmf, weight } of filled) addScaled(p, pmf.from - from, pmf.p, weight);
  return { from, p };
}

/** The same distribution without impossible values at its ends. */
export function trim(pmf: Pmf): Pmf {
  let start = 0;
  let end = pmf.p.length;
  while (start < end && pmf.p[start] === 0) start++;
  while (end > start && pmf.p[end - 1] === 0) end--;
  return { from: pmf.from + start, p: pmf.p.slice(start, end) };
}

/** Chance at either end that a double cannot hold beside 1. */
const NOTHING = 1e-17;

/**
 * The same distribution without ends that hold less than 1e-17 each. The lowest grades on every element
 * at once are possible, but no sum feels them, and they make arrays twice as wide.
 */
export function withoutTails(pmf: Pmf): Pmf {
  const { p } = pmf;
  let start = 0;
  let end = p.length;
  for (let sum = p[0] ?? 0; start < end - 1 && sum < NOTHING; sum += p[start] ?? 0) start++;
  for (let sum = p[end - 1] ?? 0; end > start + 1 && sum < NOTHING; sum += p[end - 1] ?? 0) end--;
  return start === 0 && end === p.length ? pmf : { from: pmf.from + start, p: p.slice(start, end) };
}

/** Total probability; 1 up to rounding for a whole distribution. */
export function mass(pmf: Pmf): number {
  let sum = 0;
  for (const p of pmf.p) sum += p;
  return sum;
}

/** Mean and standard deviation in hundredths; the mass need not be 1. */
export function moments(pmf: Pmf): { readonly mean: number; readonly sd: number; readonly variance: number } {
  const total = mass(pmf);
  let first = 0;
  pmf.p.forEach((p, i) => (first += p * i));
  const centre = first / total;
  let second = 0;
  pmf.p.forEach((p, i) => (second += p * (i - centre) ** 2));
  const variance = second / total;
  return { mean: pmf.from + centre, sd: Math.sqrt(variance), variance };
}

/** The smallest score whose cumulative probability is at least `level` - 1e-12. */
export function quantile(pmf: Pmf, level: number): Hundredths {
  let sum = 0;
  for (let i = 0; i < pmf.p.length; i++) {
    const p = pmf.p[i] ?? 0;
    sum += p;
    if (p > 0 && sum >= level - LEVEL_SLACK) return pmf.from + i;
  }
  return pmf.from + pmf.p.length - 1;
}

/** Chance of `target` hundredths or more. */
export function chanceOf(pmf: Pmf, target: Hundredths): number {
  const first = Math.max(0, Math.ceil(target) - pmf.from);
  let sum = 0;
  for (let i = pmf.p.length - 1; i >= first; i--) sum += pmf.p[i] ?? 0;
  return Math.min(1, sum);
}

/** Chance of less than or exactly `points`. */
export function cumulative(pmf: Pmf, points: Hundredths): number {
  const last = Math.min(pmf.p.length - 1, Math.floor(points) - pmf.from);
  let sum = 0;
  for (let i = 0; i <= last; i++) sum += pmf.p[i] ?? 0;
  return Math.min(1, sum);
}
