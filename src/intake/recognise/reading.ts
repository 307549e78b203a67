import type { Problem } from '../../notation/index.ts';
import type { ProtocolForm } from '../../scoring/index.ts';

/** A figure or word that the sheet leaves open. The protocol holds the best reading of it. */
export interface Doubt {
  /** Path into the protocol: `elements[2].goe`. */
  readonly at: string;
  /** What is printed, as it was read; null: nothing was found. */
  readonly read: unknown;
  readonly alternatives: readonly unknown[];
  readonly why: string;
}

/** One skater's sheet as read. */
export interface SheetReading {
  readonly protocol: ProtocolForm;
  readonly doubts: readonly Doubt[];
  /** 0..1: 1 when every figure is held by an equation that closes. */
  readonly confidence: number;
  /** What season, category, segment and columns were recognised from. */
  readonly evidence: readonly string[];
  readonly problems: readonly Problem[];
  /** Where the sheet stands in its source. */
  readonly from: string;
}

/** What is known beforehand, from the person or from the file; it outranks what headings say. */
export interface Given {
  readonly season?: string | undefined;
  readonly category?: string | undefined;
  readonly segment?: 'short' | 'free' | undefined;
  readonly body?: string | undefined;
  readonly competition?: string | undefined;
  readonly date?: string | undefined;
  readonly rulebook?: string | undefined;
}
