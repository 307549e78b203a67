import type { Hundredths } from '../../rulebook/index.ts';
import { callNext, startProgram } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import type { PoolItem } from './pool.ts';
import { BONUS, EARLY, LATE, type CalledOutcome, type ValueBook } from './values.ts';

/** An item with its worth alone, before anything else of the program is known. Hundredths. */
export interface Measured {
  readonly item: PoolItem;
  /** Each outcome as called alone. */
  readonly alone: readonly CalledOutcome[];
  /** Expected points alone by place, without deductions. */
  readonly mean: readonly [number, number, number];
  /** Expected points alone, early; falls deducted at the mildest amount of the scale. */
  readonly early: number;
  /** What a bonus place brings over an early one; below 0 with a heavy late penalty. */
  readonly bonusGain: number;
  readonly lateGain: number;
  readonly fallChance: number;
}

/** The amount (0 or negative) that a fall costs at least. */
export function mildestFall({ chosen }: SegmentRules): Hundredths {
  const { falls } = chosen.deductions.deductions(chosen.category, chosen.segment);
  return falls === null ? 0 : Math.max(...falls);
}

/**
 * Measures an item alone. Rules that look at the whole program can only take points from this, so sums
 * of it bound the expected score of every layout from above.
 */
export function measure(item: PoolItem, rules: SegmentRules, book: ValueBook): Measured {
  const { content, chosen } = rules;
  const fresh = startProgram({ ...content, slots: null, axelRequired: null }, chosen.values.values, chosen.segment);
  const alone = item.outcomes.map((o) => book.of(o, callNext(fresh, o.element, { bonus: false })));
  const at = (place: 0 | 1 | 2): number =>
    item.outcomes.reduce((sum, { p }, i) => sum + p * (alone[i]?.mean[place] ?? 0), 0);
  const mean = [at(EARLY), at(BONUS), at(LATE)] as const;
  const fallChance = item.outcomes.reduce((sum, { p, fall }) => sum + (fall ? p : 0), 0);
  return {
    item,
    alone,
    mean,
    early: mean[EARLY] + fallChance * mildestFall(rules),
    bonusGain: mean[BONUS] - mean[EARLY],
    lateGain: mean[LATE] - mean[EARLY],
    fallChance,
  };
}
