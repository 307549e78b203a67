import type { Level } from '../../notation/index.ts';
import type { Counts } from './rates.ts';
import type { First, JumpClass, Second, Severity } from './status.ts';

/** Spins and sequences that share rates of levels. */
export const LEVEL_FAMILIES = [
  'combination spin',
  'change-foot spin',
  'flying spin',
  'spin',
  'steps',
  'choreo',
] as const;
export type LevelFamily = (typeof LEVEL_FAMILIES)[number];

/** A level as counted: `none` is no level confirmed. */
export type LevelName = 'none' | `${Level}`;
export const LEVEL_NAMES: readonly LevelName[] = ['none', 'B', '1', '2', '3', '4'];

/** Number, mean and spread of grades, in shares of the scale. */
export interface GradeFigures {
  readonly n: number;
  readonly mean: number;
  readonly sd: number;
}

/** What earlier programs of a field say of tries in general; everything estimated, nothing assumed silently. */
export interface Priors {
  /** Where they come from, in words that a reader can check. */
  readonly source: string;
  readonly programs: number;
  readonly first: Readonly<Record<JumpClass, Counts<First>>>;
  /** By class of the second jump. */
  readonly second: Readonly<Record<JumpClass, Counts<Second>>>;
  /** Flips and Lutzes without call, unclear, wrong edge. */
  readonly edge: Counts<'none' | '!' | 'e'>;
  /** Falls among tries, by class of the first jump. */
  readonly fall: Readonly<Record<JumpClass, Counts<'fall' | 'stood'>>>;
  readonly jumpGrade: Readonly<Record<JumpClass, Readonly<Record<Severity, GradeFigures>>>>;
  readonly levels: Readonly<Record<LevelFamily, Counts<LevelName>>>;
  readonly reduced: Counts<'V' | 'full'>;
  readonly levelGrade: Readonly<Record<LevelFamily, GradeFigures>>;
  /** Spread between skaters of their usual grade, in shares of the scale. */
  readonly skaterGradeSd: number;
  /** Component marks by category and segment (`senior women free`): mean, spread between skaters and within one. */
  readonly components: Readonly<
    Record<string, { readonly n: number; readonly mean: number; readonly between: number; readonly within: number }>
  >;
  /** Programs with a deduction besides falls. */
  readonly otherDeduction: Counts<'some' | 'none'>;
  /** Spread of the day factor: of the day itself, and of not knowing her level after half a program. */
  readonly form: { readonly day: number; readonly level: number };
}
