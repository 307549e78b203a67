import type { Category, Segment } from '../notation/index.ts';
import type { Hundredths } from '../rulebook/index.ts';

/** The ordered planned elements of one program. `layout-form.ts` reads the JSON form into this. */
export interface Layout {
  readonly id: string | null;
  readonly body: string | null;
  readonly season: string | null;
  readonly date: string | null;
  readonly rulebook: string | null;
  readonly category: Category | null;
  readonly segment: Segment | null;
  readonly skater: string | null;
  readonly elements: readonly LayoutElement[];
  /** null: learnt or as awarded; empty: none. */
  readonly components: readonly LayoutComponent[] | null;
  readonly form: { readonly sd: number } | null;
  /** Planned length of the music in seconds, if given. */
  readonly duration: number | null;
  readonly warnings: readonly string[];
}

export interface LayoutElement {
  readonly code: string;
  readonly start: number | null;
  readonly half: boolean | null;
  /** Expected panel grade. */
  readonly grade: number | null;
  readonly outcomes: readonly Outcome[] | null;
  /** How often it comes off as planned in competition, as the coach states it (0 to 1); null or absent: learnt. */
  readonly reliability?: number | null;
  /** Inventory only: times it may be used. */
  readonly max: number | null;
  /** Road of an element into the program; null: not said. */
  readonly stage: Stage | null;
  readonly since: string | null;
  readonly notBefore: string | null;
}

export const STAGES = ['off-ice', 'landed', 'in-run-throughs', 'in-competition'] as const;
export type Stage = (typeof STAGES)[number];

export interface Outcome {
  /** Normalised: outcomes of an element sum to 1. */
  readonly p: number;
  readonly code: string;
  /** Panel grade -> probability, normalised. */
  readonly grades: readonly { readonly grade: number; readonly p: number }[];
  readonly fall: boolean;
}

export interface LayoutComponent {
  readonly name: string;
  readonly factor: Hundredths | null;
  readonly mean: number | null;
  readonly sd: number | null;
}
