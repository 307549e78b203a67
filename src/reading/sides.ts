import type { Element, Feedback } from '../notation/index.ts';
import type { Fraction } from './fraction.ts';

/** One element as it stands on the sheet, read. */
export interface Skated {
  /** Place in the protocol, from 0. */
  readonly index: number;
  /** Printed number; where the sheet has none, the place from 1. */
  readonly no: number;
  /** As printed. */
  readonly code: string;
  readonly element: Element;
  readonly half: boolean;
  readonly fall: boolean;
  readonly feedback: Feedback | null;
  /** The info column says something. */
  readonly hasInfo: boolean;
  /** The field that carries the letters; null without letters. */
  readonly lettersIn: 'feedback' | 'code' | 'info' | null;
  readonly marks: readonly (number | null)[];
}

/** The same element as the reference has it. */
export interface Reference {
  readonly element: Element;
  /** Panel grade. */
  readonly grade: Fraction;
  /** Credited second half; null: as printed. */
  readonly half: boolean | null;
  /** Position in the layout, from 0; null where the reference is made from the sheet. */
  readonly planned: number | null;
}
