import type { AgeGroup, Category, Segment, Sex } from '../notation/index.ts';
import type { Citation, Hundredths, Unknown } from './basic-types.ts';
import type { ContentRules } from './content-types.ts';
import type { SpinRules, StepRules } from './level-types.ts';

export * from './basic-types.ts';
export * from './content-types.ts';
export * from './level-types.ts';

/** The families of rules, each chosen by its own dates. */
export const RULE_FAMILIES = ['values', 'content', 'levels', 'deductions'] as const;
export type RuleFamily = (typeof RULE_FAMILIES)[number];

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

export interface GoeReduction {
  /** `q`, `<`, `<<`, `e`, `!`, `fall`, … */
  readonly call: string;
  /** Grades to take off, positive: smallest and largest number. */
  readonly min: number;
  readonly max: number;
  readonly citation: Citation;
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
