import type { Hundredths } from '../../rulebook/index.ts';
import type { RuleCitation, SegmentRules } from '../segment-rules.ts';
import type { Planned } from '../planned.ts';
import type { Walk } from '../walk.ts';

export type VerdictStatus = 'met' | 'broken' | 'unknown';

/** What one rule says of a layout. */
export interface Verdict {
  readonly rule: string;
  readonly citation: RuleCitation;
  readonly status: VerdictStatus;
  /** `unknown` because the source is a weak recollection: what the rule as recollected says of the layout. */
  readonly asFarAsKnown?: 'met' | 'broken';
  /** Positions (from 1) of the elements concerned; empty: the program as a whole. */
  readonly elements: readonly number[];
  /** The rule and its consequence in plain words. */
  readonly message: string;
  /** Points lost on the day if everything is skated as planned; 0 where nothing is lost, null where it cannot be told. */
  readonly cost: Hundredths | null;
}

/** Everything that a rule may look at. */
export interface CheckFacts {
  readonly rules: SegmentRules;
  readonly planned: readonly Planned[];
  readonly walk: Walk;
  /** Length of the music in seconds, if planned. */
  readonly duration: number | null;
}

/** The answer of `check`. */
export interface CheckResult {
  readonly id: string | null;
  /** Rulebook that the values come from. */
  readonly rulebook: string;
  /** true: nothing is broken; null: nothing is broken and something is unknown. */
  readonly legal: boolean | null;
  readonly verdicts: readonly Verdict[];
  /** Sum of base values as the panel would call them, without and with the second-half factor; null: a value is not known. */
  readonly base: Hundredths | null;
  readonly withBonus: Hundredths | null;
  readonly warnings: readonly string[];
}
