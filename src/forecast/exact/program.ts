import type { Element } from '../../notation/index.ts';
import type { ChosenRules, Hundredths } from '../../rulebook/index.ts';

/** One thing that may happen on a planned element: what is skated, how it is marked, whether there is a fall. */
export interface SkatedOutcome {
  readonly p: number;
  /** As skated, with the panel's calls on rotation, edge, level and position; not yet those of the whole program. */
  readonly element: Element;
  /** Panel grade -> probability; sums to 1. */
  readonly grades: readonly { readonly grade: number; readonly p: number }[];
  readonly fall: boolean;
}

/** A planned element with everything that may happen on it. */
export interface ProgramElement {
  /** Place in the layout, from 1. */
  readonly no: number;
  readonly code: string;
  /** Stands on a place that earns the second-half factor. */
  readonly bonus: boolean;
  readonly outcomes: readonly SkatedOutcome[];
}

/** One program component: mean mark, spread of the day, factor. */
export interface ComponentPart {
  readonly name: string;
  /** Mean mark of the panel, e.g. 5.5. */
  readonly mean: number;
  /** Standard deviation in marks; the one normal draw of the day moves all components. */
  readonly sd: number;
  /** Hundredths. */
  readonly factor: Hundredths;
}

/** What is deducted besides falls, in hundredths (0 or negative) with probabilities. */
export interface OtherDeduction {
  readonly points: Hundredths;
  readonly p: number;
}

/** Everything a score distribution is computed from. Nothing else enters. */
export interface ProgramModel {
  readonly rules: ChosenRules;
  readonly elements: readonly ProgramElement[];
  readonly components: readonly ComponentPart[];
  /** Spread of the day factor in grades; 0: elements are independent. */
  readonly formSd: number;
  /** Time, costume and the like; empty with explicit outcomes. */
  readonly otherDeductions: readonly OtherDeduction[];
}

/** Which score is asked: element score, component score, segment total. */
export type ScoreOf = 'tes' | 'pcs' | 'total';
