import type { KeyPoint, Level } from '../notation/index.ts';
import type { StepRules } from '../rulebook/index.ts';

/** The three features beside the turns, in the order in which sheets print their letters. */
export const STEP_FEATURES = ['rotation', 'body', 'clusters'] as const;
export type StepFeature = (typeof STEP_FEATURES)[number];

/** Turn level: what the counted difficult turns alone would allow. */
export type TurnLevel = 0 | 1 | 2 | 3 | 4;
const TURN_LEVELS: readonly TurnLevel[] = [0, 1, 2, 3, 4];

/** One account of what the panel may have credited. */
export interface StepExplanation {
  readonly turnLevel: TurnLevel;
  readonly rotation: boolean;
  readonly body: boolean;
  readonly clusters: boolean;
}

/** What level and letters prove together; the same shape serves spins and step sequences. */
export interface FeedbackReading {
  /** As the sheet means them, without separators: `YYN`, `NU`; null where none were printed. */
  readonly letters: string | null;
  /** False where no account at all fits: then nothing else is claimed. */
  readonly consistent: boolean;
  readonly explanations: readonly StepExplanation[];
  /** Difficult turns counted after the limit per type, over all explanations; null for spins or if nothing fits. */
  readonly turns: { readonly min: number; readonly max: number } | null;
  readonly complexity: 'met' | 'missing' | 'unknown' | null;
  readonly missingPosition: 'camel' | 'sit' | 'upright' | null;
  /** Assumptions and oddities as sentences, to be printed beside the deduction. */
  readonly notes: readonly string[];
  /** Whether what the panel told fits level and letters and was used; null where nothing was told. */
  readonly toldFits: boolean | null;
}

export interface StepFeedback {
  /** null: no level was confirmed. */
  readonly level: Level | null;
  readonly letters: readonly KeyPoint[] | null;
  readonly rules: StepRules;
  /** Credited difficult turns as the panel itself named them: evidence beside level and letters. */
  readonly toldTurns?: { readonly min: number; readonly max: number } | null;
}

/**
 * The level that turn level `turnLevel` and `features` further features (0-3) give:
 * min(T, 1 + k, cap), and Basic without the compulsory turns.
 * Source: inferred from the published feature list (the turns count as one feature and are compulsory).
 * A cap that is not known (null) does not lower anything.
 */
export function levelFrom(turnLevel: TurnLevel, features: number, cap: number | null): Level {
  if (turnLevel === 0) return 'B';
  return asLevel(Math.min(turnLevel, 1 + features, cap ?? 4));
}

/** A whole number as a level: 0 and below is Basic, 4 and above is 4. */
export function asLevel(n: number): Level {
  if (n >= 4) return 4;
  if (n >= 3) return 3;
  if (n >= 2) return 2;
  return n >= 1 ? 1 : 'B';
}

/** Basic as 0, so that levels can be compared. */
export const levelNumber = (level: Level): number => (level === 'B' ? 0 : level);

/** Range of difficult turns that each turn level allows, after the limit per type. */
export function turnRange(turnLevel: TurnLevel, rules: StepRules): { readonly min: number; readonly max: number } {
  const most = rules.maxPerType * rules.countable.length;
  const [one, two, three] = rules.turnCounts;
  const ranges = {
    0: { min: 0, max: one - 1 },
    1: { min: one, max: two - 1 },
    2: { min: two, max: three - 1 },
    // Above the third count without complexity every number up to the most is possible.
    3: { min: three, max: most },
    4: { min: Math.min(rules.complexityCells, most), max: most },
  } as const;
  return ranges[turnLevel];
}

/**
 * Every account of a step sequence's level and letters, by enumerating the five turn levels and the
 * three features (40 cases). Letters that the category does not print are unknown, not N; a cap that
 * is not known may have held any level down. No level (`StSq`): nothing is claimed. A number of turns that
 * the panel told takes away the accounts that it excludes; one that excludes all of them is not used.
 */
export function explainSteps({ level, letters, rules, toldTurns }: StepFeedback): FeedbackReading {
  const known = knownFeatures(letters);
  const printed = level === null ? [] : allCases().filter((one) => agrees(one, known) && gives(one, level, rules.cap));
  const told = toldTurns ?? null;
  const fitting = told === null ? [] : printed.filter((one) => overlap(turnRange(one.turnLevel, rules), told) !== null);
  const toldFits = told === null ? null : fitting.length > 0;
  const explanations = toldFits === true ? fitting : printed;
  const turns = rangeOver(explanations, rules);
  return {
    letters: letters === null || letters.length === 0 ? null : letters.join(''),
    consistent: level === null || printed.length > 0,
    explanations,
    turns: toldFits === true && turns !== null && told !== null ? overlap(turns, told) : turns,
    complexity: explanations.length === 0 ? null : complexityOf(explanations),
    missingPosition: null,
    notes: notesOn(level, letters, rules),
    toldFits,
  };
}

interface Range {
  readonly min: number;
  readonly max: number;
}

/** What two ranges have in common; null for nothing. */
function overlap(a: Range, b: Range): Range | null {
  const both = { min: Math.max(a.min, b.min), max: Math.min(a.max, b.max) };
  return both.min <= both.max ? both : null;
}

/** Letter by letter: true met, false not met; a feature without a letter stays open. */
function knownFeatures(letters: readonly KeyPoint[] | null): ReadonlyMap<StepFeature, boolean> {
  const known = new Map<StepFeature, boolean>();
  STEP_FEATURES.forEach((feature, place) => {
    const letter = letters?.[place];
    if (letter !== undefined) known.set(feature, letter !== 'N');
  });
  return known;
}

function allCases(): StepExplanation[] {
  const both = [true, false];
  return TURN_LEVELS.flatMap((turnLevel) =>
    both.flatMap((rotation) =>
      both.flatMap((body) => both.map((clusters) => ({ turnLevel, rotation, body, clusters }))),
    ),
  );
}

const agrees = (one: StepExplanation, known: ReadonlyMap<StepFeature, boolean>): boolean =>
  [...known].every(([feature, met]) => one[feature] === met);

function gives(one: StepExplanation, level: Level, cap: number | null): boolean {
  const features = STEP_FEATURES.filter((feature) => one[feature]).length;
  const computed = levelFrom(one.turnLevel, features, cap);
  if (cap !== null || level === 'B') return computed === level;
  return levelNumber(computed) >= levelNumber(level);
}

function rangeOver(explanations: readonly StepExplanation[], rules: StepRules): FeedbackReading['turns'] {
  if (explanations.length === 0) return null;
  const ranges = explanations.map((one) => turnRange(one.turnLevel, rules));
  return {
    min: Math.min(...ranges.map((range) => range.min)),
    max: Math.max(...ranges.map((range) => range.max)),
  };
}

function complexityOf(explanations: readonly StepExplanation[]): 'met' | 'missing' | 'unknown' {
  const met = explanations.filter((one) => one.turnLevel === 4).length;
  if (met === explanations.length) return 'met';
  return met === 0 ? 'missing' : 'unknown';
}

function notesOn(level: Level | null, letters: readonly KeyPoint[] | null, rules: StepRules): string[] {
  const notes: string[] = [];
  const printed = letters?.length ?? 0;
  if (level === null) notes.push('No level was confirmed, so the letters prove nothing about the turns.');
  if (rules.cap === null)
    notes.push('The highest level of this category is not known; it may have held the level down.');
  if (letters?.includes('T') === true)
    notes.push('T is known from ice dance (met, with a timing fault); here it is read as met.');
  if (printed > 0 && printed !== rules.letters.length)
    notes.push(
      `${printed} ${printed === 1 ? 'letter is' : 'letters are'} printed, this category usually prints ${rules.letters.length}.`,
    );
  if (printed > 0) notes.push('Order of the letters (rotation, body movements, clusters): common practice, no source.');
  return notes;
}
