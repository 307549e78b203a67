import { BASIC_POSITIONS, type BasicPosition, type SpinElement } from '../notation/index.ts';
import { INTERVAL, intervalOf, type Interval } from './season-steps.ts';

/** One combination spin of a sheet, and the positions that its letters name as missing. */
export interface SpinSheet {
  readonly element: SpinElement;
  readonly positions: readonly BasicPosition[] | null;
}

export interface PositionInference {
  readonly position: BasicPosition;
  readonly missed: number;
  readonly held: number;
  /** Combination spins with a V whose cause is not printed: they say nothing about one position. */
  readonly unknown: number;
  /** Chance that the position is missed in a combination spin. */
  readonly rate: Interval;
}

export const SPIN_ASSUMPTIONS: readonly string[] = [
  'Every combination spin without V had its three basic positions.',
  'A V without letters may have any cause and is left out.',
  'Every event has the same chance of a miss, independent of the others; before any sheet every chance is equally likely.',
];

const STEPS = 1000;

/** How often each basic position is missed in combination spins, over several sheets. */
export function inferMissedPositions(sheets: readonly SpinSheet[], level = INTERVAL): PositionInference[] {
  const combinations = sheets.filter(({ element }) => element.position === 'Co' && element.level !== null);
  return BASIC_POSITIONS.map((position) => {
    const named = combinations.filter(({ positions }) => (positions ?? []).length > 0);
    const missed = named.filter(({ positions }) => positions?.includes(position) === true).length;
    const full = combinations.filter(({ element }) => element.v === 0).length;
    const held = full + named.length - missed;
    const unknown = combinations.length - full - named.length;
    return { position, missed, held, unknown, rate: rateOf(missed, held, level) };
  });
}

/** Chance of a miss after `missed` of `missed + held`, on a grid fine enough to show per cents. */
function rateOf(missed: number, held: number, level: number): Interval {
  const weights = Array.from({ length: STEPS + 1 }, (_, n) => (n / STEPS) ** missed * (1 - n / STEPS) ** held);
  const total = weights.reduce((a, b) => a + b, 0);
  return intervalOf(
    weights.map((weight) => weight / total),
    level,
  );
}
