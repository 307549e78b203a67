import type { StepRules } from '../rulebook/index.ts';
import {
  levelNumber,
  STEP_FEATURES,
  type FeedbackReading,
  type StepExplanation,
  type StepFeature,
} from '../levels/index.ts';
import type { Level } from '../notation/index.ts';
import { inWords, listed } from './spoken.ts';

const FEATURE_NAMES: Readonly<Record<StepFeature, string>> = {
  rotation: 'rotations',
  body: 'body movements',
  clusters: 'clusters',
};

/** What held a step sequence at its level, as far as level and letters prove it. */
export interface StepLimit {
  /** Turns alone are enough to explain the level in every account. */
  readonly turns: 'proved' | 'possible' | 'excluded';
  /** A missing feature is needed to explain the level in every account. */
  readonly features: 'proved' | 'possible' | 'excluded';
  /** Features that every account misses. */
  readonly missing: readonly StepFeature[];
}

/** Which limits hold in all, some or none of the explanations; null where none is left. */
export function stepLimit(explanations: readonly StepExplanation[], level: Level): StepLimit | null {
  if (explanations.length === 0) return null;
  const target = levelNumber(level);
  const byTurns = explanations.filter((one) => one.turnLevel === target).length;
  const byFeatures = explanations.filter((one) => target > 0 && target < 4 && 1 + features(one) === target).length;
  const of = (n: number) => (n === explanations.length ? 'proved' : n === 0 ? 'excluded' : 'possible');
  return {
    turns: of(byTurns),
    features: of(byFeatures),
    missing: STEP_FEATURES.filter((feature) => explanations.every((one) => !one[feature])),
  };
}

const features = (one: StepExplanation): number => STEP_FEATURES.filter((feature) => one[feature]).length;

/** `Rotations yes, body movements yes, clusters no.` in the order printed; empty without letters. */
export function lettersInWords(letters: string | null): string {
  if (letters === null) return '';
  const said = Array.from(letters).flatMap((letter, i) => {
    const feature = STEP_FEATURES[i];
    return feature === undefined ? [] : [`${FEATURE_NAMES[feature]} ${letter === 'N' ? 'no' : 'yes'}`];
  });
  const text = said.join(', ');
  return text === '' ? '' : `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

/** `7 or 8 turns were counted.`, `9 to 12 turns were counted.`; empty where nothing is proved. */
export function countedInWords(turns: FeedbackReading['turns']): string {
  if (turns === null) return '';
  if (turns.min === turns.max) return `${turns.min} turns were counted.`;
  if (turns.min === 0) return `${turns.max} turns or fewer were counted.`;
  const range = turns.max === turns.min + 1 ? `${turns.min} or ${turns.max}` : `${turns.min} to ${turns.max}`;
  return `${range} turns were counted.`;
}

/**
 * How many more counted turns bring the next level, if turns were the limit: `One or two more counted
 * turns bring level 3.` Null at level 4 and where turns were not the limit.
 */
export function moreTurns(entry: FeedbackReading, level: Level, rules: StepRules): string | null {
  const next = levelNumber(level) + 1;
  if (next > (rules.cap ?? 4) || entry.turns === null) return null;
  if (stepLimit(entry.explanations, level)?.turns !== 'proved') return null;
  if (next === 4)
    return `${rules.complexityCells} different ones, counting both rotational directions, and all three letters bring level 4.`;
  const needed = rules.turnCounts[next - 1] ?? 0;
  const fewest = needed - entry.turns.max;
  const most = needed - entry.turns.min;
  const count =
    fewest === most ? inWords(most) : `${inWords(fewest)} ${most === fewest + 1 ? 'or' : 'to'} ${inWords(most)}`;
  const text = `${count} more counted turn${most === 1 ? '' : 's'} bring${most === 1 ? 's' : ''} level ${next}.`;
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** What the letters leave to the features, in words; empty where turns alone explain the level. */
export function featureWords(entry: FeedbackReading, level: Level): string {
  const limit = stepLimit(entry.explanations, level);
  if (limit === null || entry.letters === null) return '';
  const missing = limit.missing.map((feature) => FEATURE_NAMES[feature]);
  if (limit.features === 'proved' && limit.turns === 'excluded')
    return `The letters held the level: ${listed(missing, 'or')} would raise it.`;
  if (limit.features === 'proved' && limit.turns === 'possible')
    return `The letters held the level (${listed(missing)}); whether the turns were enough for more stays open.`;
  if (limit.features === 'proved') return `Both the turns and ${listed(missing)} held the level.`;
  if (limit.turns === 'proved' && missing.length > 0)
    return `${listed(missing).replace(/^./, (first) => first.toUpperCase())} alone would not have raised today’s level.`;
  return '';
}
