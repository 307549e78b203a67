import type { JumpName } from '../notation/index.ts';
import type { Unknown } from './basic-types.ts';

/** Shapes of the rules on the contents of a program. */

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
