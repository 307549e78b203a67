import type { BasicPosition, Segment } from '../notation/index.ts';
import type { Unknown } from './basic-types.ts';

/** Shapes of the level rules: step sequences and spins. */

export type TurnType = 'rocker' | 'counter' | 'bracket' | 'loop' | 'twizzle' | 'choctaw' | 'three' | 'mohawk';

export interface StepRules {
  /** Counted difficult turns for turn levels 1, 2, 3 (after `maxPerType`). */
  readonly turnCounts: readonly [number, number, number];
  readonly maxPerType: number;
  /** Different (type, rotational direction) pairs for turn level 4. */
  readonly complexityCells: number;
  readonly countable: readonly TurnType[];
  readonly clusterTypes: readonly TurnType[];
  /**
   * `different`: each triple has two types or more and the two triples differ;
   * `any`: each triple has two types or more; `five-types`: all five types over both triples.
   */
  readonly clusterRule: 'different' | 'any' | 'five-types';
  /** Rotation and body movement: share of the pattern, as an exact fraction. */
  readonly share: { readonly of: number; readonly parts: number };
  /** Turns (entry edge + type) that the two clusters must contain between them, e.g. `RFO rocker` or `FO rocker`. */
  readonly prescribed: readonly { readonly turn: TurnType; readonly edge: string }[];
  /** Fewer counted turns than this and the sequence is below Basic. null: not established. */
  readonly minimumForBasic: number | Unknown;
  /** Highest level that counts in this category. */
  readonly cap: number | Unknown;
  /** Letters printed for this category, in order. */
  readonly letters: readonly ('rotation' | 'body' | 'clusters')[];
}

/** Names of the spin features in forms and rulebooks; difficult variations are counted apart. */
export const SPIN_FEATURES = [
  'change-of-foot-by-jump',
  'jump-same-foot',
  'change-of-position',
  'difficult-entrance',
  'difficult-exit',
  'change-of-edge',
  'both-directions',
  'increase-of-speed',
  'eight-revolutions',
  'difficult-flying-entry',
  'difficult-blade',
  'back-sideways',
  'biellmann',
  'all-positions-second-foot',
] as const;
export type SpinFeature = (typeof SPIN_FEATURES)[number];

export interface SpinFeatureRule {
  readonly name: SpinFeature;
  readonly limit: 'once-attempted' | 'once-credited' | 'unlimited';
}

/** Where a spin feature may stand; `varied-…` only in a difficult variation, `biellmann` the variation UB. */
export const SPIN_PLACES = [
  'camel',
  'sit',
  'upright',
  'layback',
  'non-basic',
  'varied-camel',
  'varied-sit',
  'varied-upright',
  'biellmann',
] as const;
export type SpinPlace = (typeof SPIN_PLACES)[number];

export interface SpinFeatureCondition {
  readonly on: readonly SpinPlace[];
  /** Revolutions that it needs in its position; null: not stated. */
  readonly revolutions: number | Unknown;
  /** false: the number is not from a text of the rules; falling short of it is a note, not a refusal. */
  readonly firm: boolean;
}

export interface SpinRules {
  readonly features: readonly SpinFeatureRule[];
  /** Features that are bound to a position; a feature not named here may stand anywhere. */
  readonly conditions: Readonly<Partial<Record<SpinFeature, SpinFeatureCondition>>>;
  /** Level 4 needs one of these (2022/23-2023/24); empty: no gate. */
  readonly gate: readonly SpinFeature[];
  /** Difficult variations credited per spin; null: no limit. */
  readonly maxVariations: number | Unknown;
  /** A feature performed in a variation whose category was used before is not credited (from 2024/25). */
  readonly usedVariationVoidsFeature: boolean;
  readonly maxFeaturesPerFoot: number;
  readonly revolutionsPerPosition: number;
  readonly minRevolutions: number;
  readonly minRevolutionsPerFoot: number;
  /** What a change-foot spin short of revolutions on one foot gets, by segment. */
  readonly shortFoot: Readonly<Record<Segment, 'V' | 'no-value'>>;
  /** Biellmann after layback in the short program: revolutions in layback before it. */
  readonly biellmannAfter: number | Unknown;
  readonly cap: number | Unknown;
  readonly positionLetters: readonly BasicPosition[];
}
