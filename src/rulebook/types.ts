import type { AgeGroup, BasicPosition, Category, JumpName, Segment, Sex } from '../notation/index.ts';

/** Integer hundredths of a point. 5.90 points are 590. */
export type Hundredths = number;

/**
 * How sure a value is. `published`: the named document was read. `memory`: recalled, inferred or
 * common practice without a document (the citation's source says which). `local`: somebody's overlay.
 */
export type CitationStatus = 'published' | 'memory' | 'local';

export interface Citation {
  /** The document, or the words "from memory", "common practice, no source", "inferred from …". */
  readonly source: string;
  readonly status: CitationStatus;
  /** The season's text was not seen: shown on every figure of such a season. */
  readonly provisional: boolean;
  /**
   * The source itself doubts the value (a weak recollection). A checker answers `unknown: check your
   * chart` for such a value instead of met or broken; a search may still use it, and says so.
   */
  readonly weak?: true;
}

/** The families of rules, each chosen by its own dates. */
export const RULE_FAMILIES = ['values', 'content', 'levels', 'deductions'] as const;
export type RuleFamily = (typeof RULE_FAMILIES)[number];

/** `unknown` is never 0, never a default: whoever meets it says so. */
export type Unknown = null;

export interface GoeScale {
  /** Grade range, e.g. -5..5. */
  readonly min: number;
  readonly max: number;
}

export interface ValueRules {
  readonly goe: GoeScale;
  /** Sequence: factor in percent on the sum (100: full value) and which jumps count. */
  readonly sequence: {
    readonly percent: number;
    readonly count: 'two-highest' | 'all';
    /** Jumps that one sequence may hold; null: not established. */
    readonly maxJumps: number | Unknown;
    /** The second (and any later) jump must be an Axel type. */
    readonly axelAfterFirst: boolean;
  };
  /** `+REP`: percent of the base value that remains. */
  readonly repeatPercent: number;
  /** `x`: percent of the base value (110). */
  readonly secondHalfPercent: number;
  /** Euler: counts among the jumps of its unit; segments where it may stand; times per program. */
  readonly euler: {
    readonly counts: boolean | Unknown;
    readonly segments: readonly Segment[];
    readonly maxPerProgram: number | Unknown;
  };
  /** Panel mean: with `trimFrom` marks or more the highest and the lowest `drop` are left out. */
  readonly panel: { readonly trimFrom: number; readonly drop: number };
  /** The order of averaging is proved for this season; if not, a 0.01 is a `method` finding. */
  readonly averagingEstablished: boolean;
  /** Component marks: lowest, highest, step, in hundredths. */
  readonly componentMarks: { readonly min: Hundredths; readonly max: Hundredths; readonly step: Hundredths };
}

/** One row of the scale of values: base and points per grade. */
export interface ValueRow {
  /** Row code, e.g. `3Lz<`, `3F<e`, `CCoSp3V`, `StSq2`, `ChSq1`. */
  readonly code: string;
  /** null: the value is not known. 0: known to be without value. */
  readonly base: Hundredths | Unknown;
  /** Points per grade, index 0 is the lowest grade (`goe.min`). null: not known. */
  readonly grades: readonly Hundredths[] | Unknown;
  /** Source of the base value; a derived row (`<`, `e`, `V`) names the percentage and its source too. */
  readonly citation: Citation;
  /** Source of the points per grade where it is another one than that of the base value. */
  readonly gradesCitation?: Citation;
}

export interface ComponentRule {
  readonly name: string;
  /** Other spellings met on sheets, lower case. */
  readonly aliases: readonly string[];
}

/** Names that the forms and the ledger use for a kind of deduction. */
export const DEDUCTION_KINDS = [
  'fall',
  'time',
  'costume',
  'illegal',
  'interruption',
  'late-start',
  'music',
  'other',
] as const;
export type DeductionKind = (typeof DEDUCTION_KINDS)[number];

export interface DeductionRules {
  /** Points (negative) of the 1st, 2nd … fall; the last entry repeats. null: not known. */
  readonly falls: readonly Hundredths[] | Unknown;
  /** Too long or too short: points (negative) per started `perSeconds`, beyond the tolerance. */
  readonly time: { readonly points: Hundredths; readonly perSeconds: number } | Unknown;
  /** Single amounts (negative) by kind; a kind that is not listed is not known. */
  readonly amounts: Readonly<Partial<Record<DeductionKind, Hundredths>>>;
  /** Interruption by its length in seconds (`over` exclusive, `upTo` inclusive, null: no upper end). */
  readonly interruption?:
    | {
        readonly steps: readonly { readonly over: number; readonly upTo: number | null; readonly points: Hundredths }[];
        /** Once per program, with permission to go on within three minutes. */
        readonly withAllowance: Hundredths | Unknown;
      }
    | Unknown;
}

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

export interface GoeReduction {
  /** `q`, `<`, `<<`, `e`, `!`, `fall`, … */
  readonly call: string;
  /** Grades to take off, positive: smallest and largest number. */
  readonly min: number;
  readonly max: number;
  readonly citation: Citation;
}

/** What a program must and may contain; every field null where it is not established. */
export interface ContentRules {
  readonly jumpElements: { readonly min: number | Unknown; readonly max: number | Unknown };
  readonly axelRequired: boolean | Unknown;
  /** Combinations and sequences together. */
  readonly maxUnits: number | Unknown;
  readonly maxCombinations: number | Unknown;
  readonly maxSequences: number | Unknown;
  /** A combination with an Euler leaves no room for a sequence (ISU novice groups from 2024/25). */
  readonly eulerExcludesSequence: boolean | Unknown;
  /** An Euler may stand in a unit here; null: as `values.euler.segments` says. */
  readonly eulerAllowed: boolean | Unknown;
  /** How many units may have how many jumps, longest first, e.g. [3, 2, 2]. */
  readonly jumpsPerUnit: readonly number[] | Unknown;
  readonly maxTurns: number | Unknown;
  /** Highest turns inside a combination or sequence (a quintuple jump stands alone); null: as `maxTurns`. */
  readonly maxTurnsInUnit: number | Unknown;
  /** Highest turns of an Axel (2 where 2A is the limit). */
  readonly maxAxelTurns: number | Unknown;
  readonly repeats: RepeatRules | Unknown;
  /** Short program: the jump slots. null in a free skate. */
  readonly slots: readonly SlotRule[] | null;
  readonly spins: {
    readonly min: number | Unknown;
    readonly max: number | Unknown;
    /** Spins of these kinds, each at most (free) or exactly (short) once. */
    readonly kinds: readonly SpinKindRule[];
    readonly sameCodeForbidden: boolean | Unknown;
  };
  readonly steps: { readonly min: number | Unknown; readonly max: number | Unknown };
  readonly choreo: {
    readonly min: number | Unknown;
    readonly max: number | Unknown;
    readonly forms: readonly ('ChSq' | 'ChSp' | 'ChSt')[];
  };
  /** Second-half bonus: how many of the last jump elements; `all`: every one in the second half; 0: none. */
  readonly bonusLast: number | 'all' | Unknown;
  readonly duration: {
    readonly seconds: number | Unknown;
    readonly tolerance: number | Unknown;
    /** National charts give maxima only: then too short cannot be judged. */
    readonly maximumOnly: boolean;
  };
  /** Bonus points exist (true), do not (false), or nobody knows (null). */
  readonly bonusPoints: boolean | Unknown;
}

export interface RepeatRules {
  /**
   * From how many turns a kind (name and turns) is high. An Axel counts its extra half turn: with 2.5
   * the 2A is high, with 3 it is not.
   */
  readonly highTurnsFrom: number;
  /** High kinds that may be done twice. */
  readonly highKindsTwice: number | Unknown;
  /** Of these, kinds with four or more turns. */
  readonly quadKindsTwice: number | Unknown;
  /** Same for kinds below `highTurnsFrom` (doubles, 2A included). null: no limit on kinds. */
  readonly lowKindsTwice: number | Unknown;
  /** Executions of one kind at most. */
  readonly maxSame: number | Unknown;
  /** Kinds by family whatever the rotation (Canada): at most this many families repeated. */
  readonly familiesTwice: number | Unknown;
  /** Executions of one family whatever the turns; null: no limit. */
  readonly maxPerFamily: number | Unknown;
  /** Two solo executions: the second gets `+REP`. Applies to kinds with this many turns or more. */
  readonly repFromTurns: number | Unknown;
  /** Intermediate and basic novice: one single and one double kind, once each. */
  readonly singleKindsTwice: number | Unknown;
  /** Kinds with fewer turns than this are free of the limits. */
  readonly freeBelowTurns: number;
}

export interface SlotRule {
  readonly slot: 'axel' | 'solo' | 'combination';
  /** Jumps that fit: by name (null: any but the Axel unless listed) and turns. */
  readonly names: readonly JumpName[] | Unknown;
  readonly turns: readonly number[];
  /** Combination: allowed pairs of turns, order-free, e.g. [[2,3],[3,3]]. */
  readonly pairs: readonly (readonly [number, number])[] | null;
  /** Names allowed for the second jump of the combination; null: any. */
  readonly secondNames: readonly JumpName[] | null;
}

export interface SpinKindRule {
  readonly kind: 'combination' | 'flying' | 'one-position' | 'layback-or-one-position';
  /** Codes without level that fit, e.g. `['LSp','SSp','CSp']`. */
  readonly codes: readonly string[];
  readonly revolutions: number | Unknown;
}

/** One sentence of the rules on protests and corrections. */
export interface ProtestRule {
  readonly matter: string;
  /** true: may be protested or corrected; false: stands. */
  readonly open: boolean;
  /** Time limit in words; null: none stated. */
  readonly limit: string | Unknown;
  readonly text: string;
  readonly citation: Citation;
}

/** A rulebook after inheritance: plain values, and the citation of each by path. */
export interface Rulebook {
  readonly id: string;
  readonly body: string;
  readonly season: string;
  readonly title: string;
  readonly provisional: boolean;
  /** Ids of the rulebooks that this one inherits from; later ones win. */
  readonly extends: readonly string[];
  /** First and last day (ISO) by family. */
  readonly valid: Readonly<Record<RuleFamily, { readonly from: string; readonly to: string }>>;
  /** Categories that this body knows. */
  readonly categories: readonly Category[];
  /** Citation of the value at a path of the merged document (`values.signs.<`), nearest enclosing. */
  citation(path: string): Citation;
  /** The merged document, for `rulebook show` and `diff`. */
  readonly document: unknown;
  /** What may be protested, and how long; texts for people. */
  readonly protests: readonly ProtestRule[];

  readonly values: ValueRules;
  /** Looks up a row of the scale of values; undefined: no such element in this season. */
  row(code: string): ValueRow | undefined;
  /** Canonical codes of all rows, those of unknown value included. */
  rowCodes(): readonly string[];
  components(
    category: Category,
    segment: Segment,
  ): {
    readonly list: readonly ComponentRule[];
    /** Factor in hundredths (2.67 = 267); null: not known, read it from the sheet. */
    readonly factor: Hundredths | Unknown;
  };
  deductions(category: Category, segment: Segment): DeductionRules;
  steps(category: Category): StepRules;
  spins(category: Category): SpinRules;
  /** Grade reductions that a call obliges; empty where the season's list is not known. */
  reductions(): readonly GoeReduction[];
  /** undefined: this segment does not exist in the category, or the category is unknown. */
  content(category: Category, segment: Segment): ContentRules | undefined;
  ages(
    category: Category,
  ): { readonly min: number | Unknown; readonly under: number | Unknown; readonly on: string } | undefined;
}

/** What chooses the rules; every field optional because sheets are silent. */
export interface RuleQuery {
  readonly rulebook?: string | undefined;
  readonly body?: string | undefined;
  readonly season?: string | undefined;
  readonly date?: string | undefined;
  readonly category?: string | undefined;
  readonly segment?: Segment | undefined;
}

/** The rules that apply, family by family, with what had to be assumed. */
export interface ChosenRules {
  /** Id named in answers: that of the `values` family. */
  readonly id: string;
  readonly values: Rulebook;
  readonly content: Rulebook;
  readonly levels: Rulebook;
  readonly deductions: Rulebook;
  readonly category: Category;
  readonly ageGroup: AgeGroup;
  readonly sex: Sex;
  readonly segment: Segment;
  readonly warnings: readonly string[];
}
