import type { SpinRules } from '../rulebook/index.ts';
import { levelNumber } from './feedback-steps.ts';
import { bestPlacing, creditedCount, levelOfItems, limitsOf, type SpinLimits } from './spin-count.ts';
import { spinChances } from './spin-chances.ts';
import { itemsOf, type SpinItem, type SpinItems } from './spin-items.ts';
import { soundnessOf } from './spin-soundness.ts';
import type { Spin } from './spin.ts';
import type { CalledLevel } from './step-assess.ts';
import type { StepChances } from './step-chances.ts';
import type { Note } from './step-sequence.ts';
import type { Foot } from './turns.ts';

export type SpinLimit = 'features' | 'gate' | 'cap' | 'foot' | 'variations' | 'revolutions';

/** One written variation or feature and what becomes of it; `reason` is null where it counts. */
export interface FeatureVerdict {
  readonly index: number;
  readonly feature: string;
  readonly counted: boolean;
  readonly reason: string | null;
}

export interface SpinLevel {
  readonly level: CalledLevel;
  /** With its level, and V where it applies: `CCoSp3V`; no value: without level. */
  readonly code: string;
  readonly limitedBy: readonly SpinLimit[];
  /** Indexes of parts of which something counts. */
  readonly counted: readonly number[];
  /** One entry for each variation or feature that does not count, and for each part without any. */
  readonly uncounted: readonly { readonly index: number; readonly feature: string | null; readonly reason: string }[];
  /** Features that can be lost before the level drops: the fewest whose loss lowers it, less one. */
  readonly spare: number | null;
  /** Parts that lower the level if nothing of them is credited. */
  readonly critical: readonly number[];
  readonly chances: StepChances;
  readonly features: readonly FeatureVerdict[];
  /** Why V or no value, as sentences; empty for full value. */
  readonly faults: readonly string[];
  readonly notes: readonly Note[];
  readonly warnings: readonly string[];
}

const NO_LEVEL: StepChances = { none: 1, B: 0, 1: 0, 2: 0, 3: 0, 4: 0 };

/** The level of one spin, when `spin.used` and nothing else was spent before it. */
export function spinLevel(spin: Spin, rules: SpinRules): SpinLevel {
  const items = itemsOf(spin, rules, new Set(spin.used));
  return answerFor(spin, rules, items, spinChances(items.items, firstFootOf(spin), limitsOf(spin, rules)));
}

export const firstFootOf = (spin: Spin): Foot => spin.parts[0]?.foot ?? 'L';

/** The answer for a spin whose items and chances are known (in a program they depend on the spins before). */
export function answerFor(spin: Spin, rules: SpinRules, found: SpinItems, chances: StepChances): SpinLevel {
  const sound = soundnessOf(spin, rules);
  const limits = limitsOf(spin, rules);
  const firstFoot = firstFootOf(spin);
  const features = verdictsOf(spin, found, limits);
  const common = {
    counted: [...new Set(features.filter((one) => one.counted).map((one) => one.index))].sort((a, b) => a - b),
    uncounted: uncountedOf(spin, features),
    features,
    faults: sound.reasons,
    notes: found.notes,
    warnings: warningsOf(spin, rules),
  };
  if (sound.value === 'none')
    return {
      ...common,
      counted: [],
      uncounted: spin.parts.map((_, index) => ({ index, feature: null, reason: 'the spin has no value' })),
      level: 'none',
      code: sound.code,
      limitedBy: ['revolutions'],
      spare: null,
      critical: [],
      chances: NO_LEVEL,
    };
  const level = levelOfItems(found.items, firstFoot, limits);
  const rankWithout = (lost: (item: SpinItem) => boolean) =>
    levelNumber(
      levelOfItems(
        found.items.filter((item) => !lost(item)),
        firstFoot,
        limits,
      ),
    );
  return {
    ...common,
    level,
    code: `${sound.code}${level}${sound.value === 'V' ? 'V' : ''}`,
    limitedBy: limitsFor(found.items, firstFoot, limits, levelNumber(level)),
    spare: spareOf(found.items, levelNumber(level), (lost) => rankWithout((item) => lost.includes(item))),
    critical: spin.parts.flatMap((_, index) =>
      rankWithout((item) => item.index === index) < levelNumber(level) ? [index] : [],
    ),
    chances,
  };
}

/** Items that count, the most useful choice first: gate, other features, variations, each as written. */
function chosenItems(placed: readonly SpinItem[], limits: SpinLimits): ReadonlySet<SpinItem> {
  const order = (item: SpinItem) => (item.gate ? 0 : item.kind === 'feature' ? 1 : 2);
  const chosen = new Set<SpinItem>();
  for (const item of [...placed].sort((a, b) => order(a) - order(b))) {
    const onFoot = [...chosen].filter((one) => one.foot === item.foot).length;
    const variations = [...chosen].filter((one) => one.kind === 'variation').length;
    const fits = onFoot < limits.perFoot && (item.kind === 'feature' || variations < limits.variations);
    if (fits) chosen.add(item);
  }
  return chosen;
}

function verdictsOf(spin: Spin, found: SpinItems, limits: SpinLimits): FeatureVerdict[] {
  const placed = bestPlacing(found.items, firstFootOf(spin), limits).items;
  const chosen = chosenItems(placed, limits);
  const reasonFor = (item: SpinItem): string | null => {
    if (chosen.has(item)) return null;
    if (!placed.includes(item)) return `${item.name} is credited once, on the other foot`;
    const variations = [...chosen].filter((one) => one.kind === 'variation').length;
    if (item.kind === 'variation' && variations >= limits.variations)
      return `no more than ${limits.variations} difficult variations count in a spin`;
    return `no more than ${limits.perFoot} features count on one foot`;
  };
  const items = found.items.map((item) => {
    const reason = reasonFor(item);
    return { index: item.index, feature: item.name, counted: reason === null, reason };
  });
  const refused = found.refused.map((one) => ({ ...one, counted: false }));
  return [...items, ...refused].sort((a, b) => a.index - b.index);
}

function uncountedOf(spin: Spin, features: readonly FeatureVerdict[]): SpinLevel['uncounted'] {
  type Entry = SpinLevel['uncounted'][number];
  return spin.parts.flatMap((_, index): Entry[] => {
    const here = features.filter((one) => one.index === index);
    if (here.length === 0) return [{ index, feature: null, reason: 'no feature or difficult variation here' }];
    return here.flatMap(({ feature, reason }) =>
      reason === null ? [] : [{ index, feature, reason: `${feature}: ${reason}` }],
    );
  });
}

/** What one more feature would run into. */
function limitsFor(items: readonly SpinItem[], firstFoot: Foot, limits: SpinLimits, level: number): SpinLimit[] {
  if (level === 4) return [];
  const { count } = bestPlacing(items, firstFoot, limits);
  const credited = creditedCount(count, limits);
  const held: SpinLimit[] = [];
  if (credited === level) held.push('features');
  if (credited === level && creditedCount(count, { ...limits, perFoot: Infinity }) > level) held.push('foot');
  if (credited === level && creditedCount(count, { ...limits, variations: Infinity }) > level) held.push('variations');
  if (limits.hasGate && credited > level && level === 3 && count.first.gate + count.second.gate === 0)
    held.push('gate');
  if (limits.cap === level) held.push('cap');
  return held;
}

/** Smallest number of lost items that lowers the level, less one; items of one kind on one foot are alike. */
function spareOf(
  items: readonly SpinItem[],
  level: number,
  rankWithout: (lost: readonly SpinItem[]) => number,
): number | null {
  if (level === 0) return null;
  const groups = groupAlike(items);
  let sets: readonly (readonly SpinItem[])[] = [[]];
  let fewest = Infinity;
  for (const group of groups)
    sets = sets.flatMap((set) => Array.from({ length: group.length + 1 }, (_, n) => [...set, ...group.slice(0, n)]));
  for (const set of sets) if (set.length < fewest && rankWithout(set) < level) fewest = set.length;
  return fewest === Infinity ? null : fewest - 1;
}

function groupAlike(items: readonly SpinItem[]): SpinItem[][] {
  const groups = new Map<string, SpinItem[]>();
  for (const item of items) {
    const key = `${item.foot} ${item.kind} ${item.gate} ${item.onceCredited ? item.name : ''}`;
    groups.set(key, [...(groups.get(key) ?? []), item]);
  }
  return [...groups.values()];
}

function warningsOf(spin: Spin, rules: SpinRules): string[] {
  const warnings: string[] = [];
  if (rules.cap === null)
    warnings.push('The highest level of spins in this category is not known: no cap was applied.');
  if (spin.position === 'L' && spin.parts.some((part) => part.variation === 'UL'))
    warnings.push(
      'In a layback spin the layback is the position; whether UL counts as a variation there is not established.',
    );
  return warnings;
}
