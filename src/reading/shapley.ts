import type { Hundredths } from '../rulebook/index.ts';

/** A value for every set of players; bit i of `set` says whether player i is in it. */
export type SetValue = (set: number) => Hundredths;

/** More players than this would make 2^c sets too many; the causes of one element are at most ten. */
const MOST_PLAYERS = 12;

/**
 * Order-free shares of `v(all) - v(none)`: the Shapley value of each of `players` players, rounded to
 * whole hundredths by largest remainder (ties: the earlier player), so that the shares add up exactly.
 * A player that never changes `v` gets 0. Cost: players * 2^players integer additions.
 */
export function shapleyShares(players: number, v: SetValue): Hundredths[] {
  if (players > MOST_PLAYERS) throw new RangeError(`${players} causes on one element`);
  const values = Array.from({ length: 1 << players }, (_, set) => v(set));
  const exact = Array.from({ length: players }, (_, player) => scaledShare(player, players, values));
  return largestRemainder(exact, factorial(players), at(values, values.length - 1) - at(values, 0));
}

/** The share of one player times players!, an integer. */
function scaledShare(player: number, players: number, values: readonly number[]): number {
  const bit = 1 << player;
  let share = 0;
  for (let set = 0; set < values.length; set += 1) {
    if ((set & bit) !== 0) continue;
    const size = bits(set);
    share += factorial(size) * factorial(players - size - 1) * (at(values, set | bit) - at(values, set));
  }
  return share;
}

/**
 * Rounds `scaled[i] / scale` to integers that sum to `sum`: all are floored (towards minus infinity),
 * what is missing goes one each to the largest remainders, ties to the earlier.
 */
export function largestRemainder(scaled: readonly number[], scale: number, sum: number): number[] {
  const floors = scaled.map((share) => Math.floor(share / scale));
  const missing = sum - floors.reduce((total, share) => total + share, 0);
  const byRemainder = scaled
    .map((share, i) => ({ i, remainder: share - at(floors, i) * scale }))
    .sort((a, b) => b.remainder - a.remainder || a.i - b.i);
  const raised = new Set(byRemainder.slice(0, missing).map((one) => one.i));
  return floors.map((share, i) => share + (raised.has(i) ? 1 : 0));
}

const factorial = (n: number): number => (n <= 1 ? 1 : n * factorial(n - 1));

const bits = (set: number): number => (set === 0 ? 0 : (set & 1) + bits(set >> 1));

function at(values: readonly number[], index: number): number {
  const value = values[index];
  if (value === undefined) throw new RangeError(`no value at ${index}`);
  return value;
}
