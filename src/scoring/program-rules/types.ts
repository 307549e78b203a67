import type { Element, Jump } from '../../notation/index.ts';
import type { ContentRules, ValueRules } from '../../rulebook/index.ts';
import type { Segment } from '../../notation/index.ts';

/** Names of the program-wide rules, as they stand in verdicts. */
export const PROGRAM_RULES = [
  'jump-elements',
  'axel',
  'units',
  'combinations',
  'sequences',
  'jumps-per-unit',
  'sequence-axel',
  'max-turns',
  'repeats',
  'repeat-alone',
  'euler',
  'slots',
  'slot-repeat',
  'combination-missing',
  'spins',
  'spin-kinds',
  'spin-codes',
  'steps',
  'choreo',
] as const;
export type ProgramRule = (typeof PROGRAM_RULES)[number];

/** One consequence the panel draws from a program-wide rule, in the order drawn. */
export interface Reason {
  readonly rule: ProgramRule;
  /** Path of the rule inside `ContentRules` (`repeats.maxSame`), or inside `ValueRules` with `values.` before it. */
  readonly path: string;
  /** `no-value`: `*`; `reduced`: `+REP`; `marked`: `+COMBO`; `lowest-grade`: the panel grade is the lowest of the scale. */
  readonly effect: 'no-value' | 'reduced' | 'marked' | 'lowest-grade';
  /** Index of the jump inside its element, from 0; null: the element as a whole. */
  readonly jump: number | null;
}

/** How often a kind of jump was tried so far, and whether always alone. */
export interface Tries {
  readonly times: number;
  readonly alwaysAlone: boolean;
}

/** The rules of one segment, fixed for a whole program. */
export interface ProgramRules {
  readonly content: ContentRules;
  readonly values: ValueRules;
  readonly segment: Segment;
}

/**
 * Everything of the program so far that a later rule can still ask. Immutable. Two programs with the
 * same `stateKey` are called alike from here on.
 */
export interface ProgramState {
  readonly rules: ProgramRules;
  /** Jump elements that took one of the permitted places. */
  readonly jumpElements: number;
  readonly axelDone: boolean;
  /** Lengths of the units (combinations and sequences) so far, longest first. */
  readonly unitLengths: readonly number[];
  readonly combinations: number;
  readonly sequences: number;
  readonly eulers: number;
  /** Tries by kind (`3T`) and, where the season counts families, by family (`T`). */
  readonly tries: Readonly<Record<string, Tries>>;
  /** Kinds whose second execution was credited; families likewise. */
  readonly repeatedKinds: readonly string[];
  readonly repeatedFamilies: readonly string[];
  /** Short program: the jump in the Axel slot, and how many of the other two places are taken by what. */
  readonly slots: { readonly axel: Jump | null; readonly alone: number; readonly combination: number };
  /** Codes without level of the spins that count, sorted. */
  readonly spins: readonly string[];
  readonly steps: number;
  readonly choreo: Readonly<Record<string, number>>;
}

/** What surrounds an element when it is called. */
export interface CallContext {
  /** The element is among those that earn the second-half bonus, see `bonusPlaces`. */
  readonly bonus: boolean;
}

/** An element as the panel calls it inside its program. */
export interface Called {
  /** With `*`, `+REP`, `+COMBO` where the program asks for them. */
  readonly element: Element;
  /** Earns the second-half factor: a jump element on a bonus place. */
  readonly half: boolean;
  /** The panel grade is the lowest of the scale whatever was skated (short program errors). */
  readonly lowestGrade: boolean;
  readonly reasons: readonly Reason[];
  readonly state: ProgramState;
}
