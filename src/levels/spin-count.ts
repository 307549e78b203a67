import type { SpinRules } from '../rulebook/index.ts';
import { asLevel, levelNumber } from './feedback-steps.ts';
import type { Level } from '../notation/index.ts';
import type { Spin } from './spin.ts';
import type { SpinItem } from './spin-items.ts';
import type { Foot } from './turns.ts';

/** Features of one foot by what the limits ask about. */
export interface FootCount {
  readonly variations: number;
  readonly gate: number;
  readonly plain: number;
}

/** All that the level of a spin depends on; `first` is the foot of the first part. */
export interface SpinCount {
  readonly first: FootCount;
  readonly second: FootCount;
}

export const NO_FEATURES: FootCount = { variations: 0, gate: 0, plain: 0 };

/** Limits that a spin is under. */
export interface SpinLimits {
  readonly perFoot: number;
  readonly variations: number;
  readonly hasGate: boolean;
  readonly cap: number | null;
}

/** At most so many features a foot where the foot changes; without a change there is no such limit. */
export const limitsOf = (spin: Spin, rules: SpinRules): SpinLimits => ({
  perFoot: spin.changeFoot ? rules.maxFeaturesPerFoot : Infinity,
  variations: rules.maxVariations ?? Infinity,
  hasGate: rules.gate.length > 0,
  cap: rules.cap,
});

/** How many features are credited at most, choosing which variations count to the skater's advantage. */
export function creditedCount({ first, second }: SpinCount, limits: SpinLimits): number {
  let best = 0;
  for (let a = 0; a <= Math.min(first.variations, limits.variations); a += 1) {
    const b = Math.min(second.variations, limits.variations - a);
    const onFirst = Math.min(limits.perFoot, a + first.gate + first.plain);
    const onSecond = Math.min(limits.perFoot, b + second.gate + second.plain);
    best = Math.max(best, onFirst + onSecond);
  }
  return best;
}

const TOP = 4;

/** Level of a count: number of features, the season's gate to the top level, the category's cap. */
export function levelOfFeatures(count: SpinCount, limits: SpinLimits): Level {
  const credited = Math.min(TOP, creditedCount(count, limits));
  const passed = credited < TOP || !limits.hasGate || count.first.gate + count.second.gate > 0;
  return asLevel(Math.min(passed ? credited : TOP - 1, limits.cap ?? TOP));
}

/**
 * The level when exactly these items are credited. What is credited once per program and was done on
 * both feet counts where it helps more; a repetition on one foot adds nothing.
 */
export function levelOfItems(items: readonly SpinItem[], firstFoot: Foot, limits: SpinLimits): Level {
  return levelOfFeatures(bestPlacing(items, firstFoot, limits).count, limits);
}

/** The items that count when each name is placed on its better foot, and their count. */
export function bestPlacing(
  items: readonly SpinItem[],
  firstFoot: Foot,
  limits: SpinLimits,
): { readonly items: readonly SpinItem[]; readonly count: SpinCount } {
  return placings(items)
    .map((placed) => ({ items: placed, count: countOf(placed, firstFoot) }))
    .reduce((best, one) => (rank(one.count, limits) > rank(best.count, limits) ? one : best));
}

const rank = (count: SpinCount, limits: SpinLimits): number =>
  levelNumber(levelOfFeatures(count, limits)) * 100 + creditedCount(count, limits);

/** Every way to keep one execution of each name that is credited once; there is always at least one way. */
function placings(items: readonly SpinItem[]): readonly (readonly SpinItem[])[] {
  const repeated = items.find(
    (item) => item.onceCredited && items.some((other) => other !== item && other.name === item.name),
  );
  if (repeated === undefined) return [items];
  const same = items.filter((item) => item.name === repeated.name);
  return same.flatMap((kept) => placings(items.filter((item) => item === kept || item.name !== kept.name)));
}

function countOf(items: readonly SpinItem[], firstFoot: Foot): SpinCount {
  return {
    first: footCount(items.filter((item) => item.foot === firstFoot)),
    second: footCount(items.filter((item) => item.foot !== firstFoot)),
  };
}

function footCount(items: readonly SpinItem[]): FootCount {
  const variations = items.filter((item) => item.kind === 'variation').length;
  const gate = items.filter((item) => item.gate).length;
  return { variations, gate, plain: items.length - variations - gate };
}
