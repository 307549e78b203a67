import { normalCdf } from './math/special.ts';
import type { Pmf } from './pmf.ts';

/** A normal distribution cut into hundredths, for rivals of whom only mean and spread are known (points). */
export function normalPmf(mean: number, sd: number): Pmf {
  if (sd <= 0) return { from: Math.round(mean * 100), p: Float64Array.of(1) };
  const from = Math.floor((mean - 7 * sd) * 100);
  const to = Math.ceil((mean + 7 * sd) * 100);
  const p = new Float64Array(to - from + 1);
  let before = 0;
  for (let i = 0; i < p.length; i++) {
    const upper = i === p.length - 1 ? 1 : normalCdf(((from + i + 0.5) / 100 - mean) / sd);
    p[i] = upper - before;
    before = upper;
  }
  return { from, p };
}

/** For every own score: chance that the rival is ahead, an equal score counting half. */
function aheadOf(own: Pmf, rival: Pmf): Float64Array {
  const ahead = new Float64Array(own.p.length);
  let above = 0;
  for (let x = rival.from + rival.p.length - 1; x >= own.from + own.p.length; x--)
    above += rival.p[x - rival.from] ?? 0;
  for (let i = own.p.length - 1; i >= 0; i--) {
    const equal = rival.p[own.from + i - rival.from] ?? 0;
    ahead[i] = above + equal / 2;
    above += equal;
  }
  return ahead;
}

/**
 * Chance of each place (index 0 is the first) against rivals who skate independently; equal scores are
 * shared half and half. Cost: own scores times the square of the field.
 */
export function placeChances(own: Pmf, rivals: readonly Pmf[]): readonly number[] {
  const ahead = rivals.map((rival) => aheadOf(own, rival));
  const places = new Array<number>(rivals.length + 1).fill(0);
  own.p.forEach((p, i) => {
    if (p === 0) return;
    const count = new Float64Array(rivals.length + 1);
    count[0] = 1;
    ahead.forEach((chances, r) => {
      const q = chances[i] ?? 0;
      for (let k = r + 1; k >= 0; k--) count[k] = (count[k] ?? 0) * (1 - q) + (k > 0 ? (count[k - 1] ?? 0) * q : 0);
    });
    count.forEach((c, k) => (places[k] = (places[k] ?? 0) + p * c));
  });
  return places;
}
