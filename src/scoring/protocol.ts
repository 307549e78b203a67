import type { Category, Segment } from '../notation/index.ts';
import type { Hundredths } from '../rulebook/index.ts';

/**
 * One skater's protocol of one segment, as printed. Points are integer hundredths; what a sheet does
 * not print is null, never 0. `protocol-form.ts` turns the JSON form (points as numbers) into this.
 */
export interface Protocol {
  readonly id: string | null;
  readonly body: string | null;
  readonly season: string | null;
  readonly rulebook: string | null;
  readonly competition: string | null;
  readonly date: string | null;
  readonly order: number | null;
  readonly category: Category | null;
  readonly segment: Segment | null;
  readonly skater: string | null;
  readonly rank: number | null;
  readonly startNumber: number | null;
  readonly elements: readonly ProtocolElement[];
  readonly components: readonly ProtocolComponent[];
  readonly deductions: Deductions | null;
  readonly bonus: Hundredths | null;
  readonly tes: Hundredths | null;
  readonly pcs: Hundredths | null;
  readonly total: Hundredths | null;
  /** What reading the form had to change or assume, e.g. a positive deduction read as its negative. */
  readonly warnings: readonly string[];
}

export interface ProtocolElement {
  readonly no: number | null;
  /** The code column as printed. */
  readonly code: string;
  readonly info: string;
  readonly feedback: string | null;
  readonly half: boolean;
  /** Seconds into the music. */
  readonly start: number | null;
  readonly base: Hundredths | null;
  readonly goe: Hundredths | null;
  /** Panel order; null where a judge has none. Whole grades. */
  readonly marks: readonly (number | null)[];
  readonly score: Hundredths | null;
}

export interface ProtocolComponent {
  readonly name: string;
  /** Hundredths: 2.67 is 267. */
  readonly factor: Hundredths | null;
  /** Hundredths: 6.25 is 625. */
  readonly marks: readonly (Hundredths | null)[];
  readonly score: Hundredths | null;
}

export interface Deductions {
  /** Never above 0. */
  readonly total: Hundredths;
  /** null where the sheet prints only the sum. */
  readonly items: readonly DeductionItem[] | null;
}

export interface DeductionItem {
  readonly reason: string;
  readonly count: number | null;
  /** Of the whole line, never above 0. */
  readonly points: Hundredths;
}
