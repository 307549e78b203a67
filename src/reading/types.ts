import type { BasicPosition, Category, Element, Level, Segment } from '../notation/index.ts';
import type { Citation, Hundredths } from '../rulebook/index.ts';
import type { Finding } from '../scoring/index.ts';
import type { FeedbackReading } from '../levels/index.ts';
import type { Cause } from './causes.ts';
import type { ContentChange } from './content-change.ts';

/** What the sheet is compared with: the planned layout, her own medians, or the element as attempted. */
export const REFERENCE_KINDS = ['layout', 'usual', 'clean'] as const;
export type ReferenceKind = (typeof REFERENCE_KINDS)[number];

/** Who reads the answer. */
export const VOICES = ['coach', 'skater'] as const;
export type Voice = (typeof VOICES)[number];

/** Sums of one side; null where the sheet lacks the part. `total` is the sum of what is there. */
export interface Scores {
  readonly tes: Hundredths | null;
  readonly pcs: Hundredths | null;
  readonly deductions: Hundredths | null;
  readonly total: Hundredths;
}

/** Grades that a call obliges: what was booked to it, and what the season's list asks for. */
export interface ObligedGrades {
  /** Grades, 0 or more; may be fractional. */
  readonly booked: number;
  /** null: the season's list is not known. */
  readonly min: number | null;
  readonly max: number | null;
}

/** One line of the account: what one cause on one element brought (positive) or cost (negative). */
export interface LedgerEntry {
  /** Printed number, the position in the layout for an element that was not skated; null: whole sheet. */
  readonly no: number | null;
  readonly element: string | null;
  readonly cause: Cause;
  readonly points: Hundredths;
  /** What repairing this cause alone would bring; these need not add up. */
  readonly winBack: Hundredths;
  /** Paths into the protocol (or `layout.…`) that carry it. */
  readonly evidence: readonly string[];
  readonly fieldOfPlay: boolean;
  readonly grades?: ObligedGrades;
}

/** What the letters of one element prove. */
export interface FeedbackEntry extends FeedbackReading {
  readonly no: number | null;
  /** Place in the protocol, from 0. */
  readonly index: number;
  /** Where the letters stand, else the code. */
  readonly at: string;
  readonly code: string;
  /** What follows from it, as sentences: how many more turns, which feature. */
  readonly conclusions: readonly string[];
  /** What the deduction rests on, each with its mark. */
  readonly assumptions: readonly string[];
  /** What the panel said about this element, and whether it narrowed the deduction above. */
  readonly told: readonly ToldEvidence[];
}

/** A finding of the audit, or one of the reading's own (`letters`: feedback that cannot be). */
export type ReadingFinding = Omit<Finding, 'kind'> & { readonly kind: Finding['kind'] | 'letters' };

export interface Advice {
  readonly no: number | null;
  /** Place of the element it speaks of (`elements[3].code`); null for the whole sheet. */
  readonly at: string | null;
  readonly cause: Cause;
  readonly text: string;
  /** What repairing the cause alone would bring. */
  readonly points: Hundredths;
  /** The price is a lower bound. */
  readonly atLeast: boolean;
  /** The rule behind it; figures carry their mark of trust. */
  readonly rule: string;
  /** Where its figures come from. */
  readonly sources: readonly Citation[];
  /** What stands beside it: a caution, or what components would bring. */
  readonly beside: readonly string[];
}

/** Her place among the event's other skaters, anonymous; made of ten skaters or more. */
export interface FieldLine {
  /** `step sequence`, `spins`, `combination spin`, `jumps`, `components`. */
  readonly family: string;
  readonly measure: 'level' | 'grade' | 'mark' | 'V';
  readonly skaters: number;
  /** How many of the field had more than she, and how many as much. */
  readonly above: number;
  readonly equal: number;
  readonly text: string;
}

/** What the reading says about the sheet itself, for the heading of a print. */
export interface ReadingHead {
  readonly skater: string | null;
  readonly competition: string | null;
  readonly date: string | null;
  readonly season: string;
  readonly category: Category;
  readonly segment: Segment;
  readonly rulebook: string;
  readonly judges: number;
  /** The rules are provisional: every figure of such a season carries the mark p. */
  readonly provisional: boolean;
}

/** One element of the program as skated beside its reference, for sentences and drawings. */
export interface ProgramNote {
  /** Place in the protocol, from 0; null: planned and not skated. */
  readonly index: number | null;
  /** Place in the layout, from 0; null without a layout or where it was not planned. */
  readonly planned: number | null;
  readonly no: number | null;
  readonly code: string;
  /** The code with all calls, wherever the sheet has them: `3Lz<+3T F`. */
  readonly called: string;
  readonly kind: Element['kind'];
  /** In words, without signs: `triple Lutz and double toe loop`. */
  readonly name: string;
  /** The jump that a call sits on, else its first; the name itself for other elements. */
  readonly mainName: string;
  /** What was planned, in words, where it was another element. */
  readonly plannedName: string | null;
  /** How it differs from the planned element; null where it does not, or was not planned or not skated. */
  readonly change: ContentChange | null;
  /** The panel's mean grade; null without marks. */
  readonly grade: number | null;
  readonly referenceGrade: number;
  readonly level: Level | null;
  readonly referenceLevel: Level | null;
  /** Seconds into the music, where the sheet or the layout says. */
  readonly start: number | null;
}

/** A protocol, explained. Points are integer hundredths; `readingForm` gives the JSON form. */
export interface Reading {
  readonly id: string | null;
  readonly head: ReadingHead;
  readonly awarded: Scores;
  readonly reference: Scores & { readonly kind: ReferenceKind };
  readonly difference: Hundredths;
  readonly ledger: readonly LedgerEntry[];
  readonly feedback: readonly FeedbackEntry[];
  readonly findings: readonly ReadingFinding[];
  readonly advice: readonly Advice[];
  readonly questions: readonly string[];
  readonly field: readonly FieldLine[];
  /** How far the judges lay apart, as one sentence; empty where nothing can be said. */
  readonly spread: string;
  readonly program: readonly ProgramNote[];
  /** Printed figures that were compared with recomputed ones. */
  readonly checked: number;
  readonly warnings: readonly string[];
}

/** What somebody heard from the panel itself about one element, used as evidence beside the letters. */
export interface ToldByPanel {
  /** Printed number of the element. */
  readonly no: number;
  readonly text: string;
  /** Difficult turns credited in a step sequence, 0 to 12, or from fewest to most. */
  readonly turns?: number | { readonly min: number; readonly max: number } | null | undefined;
  /** The basic position that was missing in a spin with V. */
  readonly missingPosition?: BasicPosition | null | undefined;
}

export interface ToldEvidence extends ToldByPanel {
  /** False: words alone, or it does not fit level and letters and is left out. */
  readonly used: boolean;
}
