import type { Hundredths } from '../../rulebook/index.ts';

/** One change of a layout. Places count from 1, in the layout as it stands when the step is taken. */
export type MendStep =
  | {
      readonly kind: 'exchange';
      readonly no: number;
      readonly code: string;
      readonly other: number;
      readonly otherCode: string;
    }
  | { readonly kind: 'change'; readonly no: number; readonly code: string; readonly to: string }
  | { readonly kind: 'take-out'; readonly no: number; readonly code: string }
  | { readonly kind: 'add'; readonly code: string };

/** A way to mend a broken rule: the fewest changes found, and what they do. */
export interface Mend {
  readonly steps: readonly MendStep[];
  /** Codes afterwards, in skating order. */
  readonly codes: readonly string[];
  /** Rules that stay broken; empty: the layout breaks nothing. */
  readonly stillBroken: readonly string[];
  /** Base values as called, second half included: afterwards less before; null where one is not known. */
  readonly change: Hundredths | null;
  /** A jump is added: more attempts a week. */
  readonly addsJump: boolean;
}
