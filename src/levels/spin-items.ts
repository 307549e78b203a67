import type { SpinFeature, SpinRules } from '../rulebook/index.ts';
import {
  BASIC,
  basicOf,
  placesOf,
  revolutionsAround,
  runOf,
  type Spin,
  type SpinPart,
  type Variation,
} from './spin.ts';
import type { Note } from './step-sequence.ts';
import type { Foot } from './turns.ts';

/** A variation or feature that the panel can credit. */
export interface SpinItem {
  /** Index of its part. */
  readonly index: number;
  readonly name: Variation | SpinFeature;
  readonly kind: 'variation' | 'feature';
  readonly foot: Foot;
  /** Counts for the season's gate to level 4. */
  readonly gate: boolean;
  /** Spent by success, not by the attempt; may be done on both feet, and the better one counts. */
  readonly onceCredited: boolean;
  readonly credit: number;
}

/** A variation or feature that is written and cannot count, with the reason. */
export interface Refused {
  readonly index: number;
  readonly feature: string;
  readonly reason: string;
}

export interface SpinItems {
  readonly items: readonly SpinItem[];
  readonly refused: readonly Refused[];
  readonly notes: readonly Note[];
  /** Names spent by the attempts of this spin, whatever is credited. */
  readonly attempted: readonly string[];
}

/**
 * Everything in a spin that could count, in the order written. `spent` holds what was used up earlier
 * in the program. Each category of variation and most features count once per program, at the first
 * attempt: a failed one uses it up too.
 */
export function itemsOf(spin: Spin, rules: SpinRules, spent: ReadonlySet<string>): SpinItems {
  const walk: Walk = {
    spin,
    rules,
    before: spent,
    attempted: new Set(),
    items: [],
    refused: [],
    notes: [],
    usedFrom: new Set(),
  };
  spin.parts.forEach((part, index) => {
    const voided = takeVariation(walk, part, index);
    for (const feature of part.features) takeFeature(walk, part, index, feature, voided);
  });
  return { items: walk.items, refused: walk.refused, notes: walk.notes, attempted: [...walk.attempted] };
}

interface Walk {
  readonly spin: Spin;
  readonly rules: SpinRules;
  readonly before: ReadonlySet<string>;
  readonly attempted: Set<string>;
  readonly items: SpinItem[];
  readonly refused: Refused[];
  readonly notes: Note[];
  /** First parts of executions whose variation was used before. */
  readonly usedFrom: Set<number>;
}

/** Answers whether the part is in a variation that was used before, so that it may carry nothing. */
function takeVariation(walk: Walk, part: SpinPart, index: number): boolean {
  const { variation } = part;
  if (variation === null) return false;
  // The same variation held over several written parts is one execution.
  const [start] = runOf(walk.spin.parts, index, (a, b) => a.position === b.position && a.variation === b.variation);
  if (start !== undefined && start < index) return walk.usedFrom.has(start);
  const used = walk.before.has(variation) || walk.attempted.has(variation);
  const reason = used ? `${variation} was used before in this program` : variationObjection(walk, part, index);
  if (used) walk.usedFrom.add(index);
  walk.attempted.add(variation);
  if (reason !== null) walk.refused.push({ index, feature: variation, reason });
  else walk.items.push(itemFor(walk, part, index, variation, 'variation'));
  return used;
}

function variationObjection(walk: Walk, part: SpinPart, index: number): string | null {
  const { spin, rules } = walk;
  if (revolutionsAround(spin.parts, index, 'variation') < rules.revolutionsPerPosition)
    return `fewer than ${rules.revolutionsPerPosition} revolutions in the variation`;
  if (part.variation === 'NBP' && spin.position !== 'Co') return 'a non-basic variation counts only in a combination';
  if (part.variation === 'UB' && spin.position === 'L' && part.features.includes('biellmann'))
    return 'counted as the Biellmann feature, not twice';
  return null;
}

function takeFeature(walk: Walk, part: SpinPart, index: number, feature: SpinFeature, voided: boolean): void {
  const rule = walk.rules.features.find((one) => one.name === feature);
  const reason =
    rule === undefined
      ? "not in this season's list of features"
      : (spentObjection(walk, feature, rule.limit) ?? featureObjection(walk, part, index, feature, voided));
  if (rule?.limit === 'once-attempted') walk.attempted.add(feature);
  if (reason !== null) walk.refused.push({ index, feature, reason });
  else walk.items.push(itemFor(walk, part, index, feature, 'feature'));
}

function spentObjection(walk: Walk, feature: SpinFeature, limit: string): string | null {
  if (limit === 'unlimited') return null;
  const spent = walk.before.has(feature) || walk.attempted.has(feature);
  return spent ? `${feature} was used before in this program` : null;
}

function featureObjection(
  walk: Walk,
  part: SpinPart,
  index: number,
  feature: SpinFeature,
  voided: boolean,
): string | null {
  const { spin, rules } = walk;
  if (voided && rules.usedVariationVoidsFeature)
    return `performed in ${String(part.variation)}, a variation used before`;
  if (revolutionsAround(spin.parts, index, 'position') < rules.revolutionsPerPosition)
    return `fewer than ${rules.revolutionsPerPosition} revolutions in the position`;
  return conditionObjection(walk, part, index, feature) ?? ownObjection(walk, index, feature);
}

/** The season's condition on the position and on the revolutions in it. */
function conditionObjection(walk: Walk, part: SpinPart, index: number, feature: SpinFeature): string | null {
  const condition = walk.rules.conditions[feature];
  if (condition === undefined) return null;
  const places = placesOf(part);
  if (!condition.on.some((place) => places.includes(place)))
    return `not in ${part.variation === null ? `a plain ${part.position}` : `${part.position} ${part.variation}`} position in this season`;
  if (condition.revolutions === null) return null;
  const around = condition.firm ? 'variation' : 'position';
  if (revolutionsAround(walk.spin.parts, index, around) >= condition.revolutions) return null;
  const shortfall = `${feature} needs ${condition.revolutions} revolutions here`;
  if (condition.firm) return shortfall;
  walk.notes.push({ index, note: `${shortfall}, by a source that is not the text of the rules.` });
  return null;
}

/** Conditions that look at the rest of the spin. */
function ownObjection(walk: Walk, index: number, feature: SpinFeature): string | null {
  if (feature === 'biellmann') return biellmannObjection(walk, index);
  if (feature === 'all-positions-second-foot') return secondFootObjection(walk, index);
  if (
    feature === 'eight-revolutions' &&
    walk.spin.parts[index]?.position === 'non-basic' &&
    walk.spin.position !== 'Co'
  )
    return 'in a non-basic position only in a combination';
  return null;
}

function biellmannObjection({ spin, rules }: Walk, index: number): string | null {
  const before = spin.parts
    .slice(0, index + 1)
    .filter((part) => part.position === 'layback' && part.variation !== 'UB')
    .reduce((sum, part) => sum + part.revolutions, 0);
  const needed = (spin.segment === 'short' ? rules.biellmannAfter : null) ?? rules.revolutionsPerPosition;
  return before >= needed ? null : `needs ${needed} revolutions in layback before it`;
}

function secondFootObjection({ spin, rules }: Walk, index: number): string | null {
  const foot = spin.parts[index]?.foot;
  if (foot === spin.parts[0]?.foot) return 'counts on the second foot only';
  const held = BASIC.filter((basic) =>
    spin.parts.some(
      (part, at) =>
        part.foot === foot &&
        basicOf(part.position) === basic &&
        revolutionsAround(spin.parts, at, 'position') >= rules.revolutionsPerPosition,
    ),
  );
  return held.length === BASIC.length ? null : 'not all three basic positions on the second foot';
}

function itemFor(
  walk: Walk,
  part: SpinPart,
  index: number,
  name: Variation | SpinFeature,
  kind: 'variation' | 'feature',
): SpinItem {
  const rule = walk.rules.features.find((one) => one.name === name);
  return {
    index,
    name,
    kind,
    foot: part.foot,
    gate: walk.rules.gate.some((one) => one === name),
    onceCredited: rule?.limit === 'once-credited',
    credit: part.credit,
  };
}
