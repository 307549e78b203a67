import type { Hundredths } from '../../rulebook/index.ts';
import type { Element } from '../../notation/index.ts';
import { callNext, startProgram, type Called } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import type { Day } from './day.ts';
import type { PoolItem } from './pool.ts';
import { BONUS, EARLY, LATE, type CalledOutcome, type PlaceIndex, type ValueBook } from './values.ts';

/** Something for each place: early, bonus, late. */
export type ByPlace<T> = readonly [T, T, T];

/** An item with its worth alone, before anything else of the program is known. Hundredths. */
export interface Measured {
  readonly item: PoolItem;
  /** Each outcome as called alone. */
  readonly alone: readonly CalledOutcome[];
  /** Expected points alone by place, without deductions. */
  readonly mean: ByPlace<number>;
  /** The same at each node of the day factor. */
  readonly meanByNode: ByPlace<readonly number[]>;
  /** Expected points alone, early; falls deducted at the mildest amount of the scale. */
  readonly early: number;
  /** What a bonus place brings over an early one; below 0 with a heavy late penalty. */
  readonly bonusGain: number;
  readonly lateGain: number;
  /** Chance of a fall at each node of the day factor, by place. */
  readonly falls: ByPlace<readonly number[]>;
}

/** The amount (0 or negative) that a fall costs at least. */
export function mildestFall({ chosen }: SegmentRules): Hundredths {
  const { falls } = chosen.deductions.deductions(chosen.category, chosen.segment);
  return falls === null ? 0 : Math.max(...falls);
}

/** Calls an element as the first of a program; the same element is called once. */
export function freshCalls({ content, chosen }: SegmentRules): (element: Element) => Called {
  const fresh = startProgram({ ...content, slots: null, axelRequired: null }, chosen.values.values, chosen.segment);
  const known = new Map<Element, Called>();
  return (element) => {
    const called = known.get(element) ?? callNext(fresh, element, { bonus: false });
    known.set(element, called);
    return called;
  };
}

/**
 * Measures an item alone. Rules that look at the whole program can only take points from this, so sums
 * of it bound the expected score of every layout from above.
 */
export function measure(
  item: PoolItem,
  rules: SegmentRules,
  book: ValueBook,
  day: Day,
  callAlone: (element: Element) => Called,
): Measured {
  const alone = item.outcomes.map((o) => book.of(o, callAlone(o.element)));
  const meanByNode = byPlace((place) => day.means(item, place, (o) => alone[o]?.points[place] ?? []));
  const falls = byPlace((place) => day.falls(item, place));
  const mean = byPlace((place) => day.mix(meanByNode[place]));
  const [early, bonus, late] = mean;
  return {
    item,
    alone,
    mean,
    meanByNode,
    early: early + day.mix(falls[EARLY]) * mildestFall(rules),
    bonusGain: bonus - early,
    lateGain: late - early,
    falls,
  };
}

const byPlace = <T>(make: (place: PlaceIndex) => T): ByPlace<T> => [make(EARLY), make(BONUS), make(LATE)];
