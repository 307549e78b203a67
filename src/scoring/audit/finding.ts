import type { Element, Feedback } from '../../notation/index.ts';
import type { Hundredths } from '../../rulebook/index.ts';
import type { PanelRule } from '../panel.ts';

/**
 * `calculation`: a printed figure differs · `method`: by 0.01, and it closes under the other order of
 * averaging where the season's order is not established · `slip`: possible input slip · `rule`: against
 * the season's scales · `unreadable`. Calls, levels and grades are field of play and never a finding.
 */
export const FINDING_KINDS = ['calculation', 'method', 'slip', 'rule', 'unreadable'] as const;
export type FindingKind = (typeof FINDING_KINDS)[number];

/** Points as a number, a code, a mark in the half column. */
export type Figure = number | string | boolean | null;

export interface Finding {
  readonly kind: FindingKind;
  /** Path into the protocol as given, indexes from 0. */
  readonly at: string;
  readonly published: Figure;
  readonly expected: Figure;
  readonly message: string;
  /** This figure is wrong only because it rightly adds a wrong one: the place of that one. */
  readonly follows?: string;
  /** The one well-known slip that gives exactly the printed figure. */
  readonly slip?: string;
  /** The expected figure rests on a value of the coach's own overlay, of this title: nothing to ask a referee about. */
  readonly ownValue?: string;
  /** Of a call that fits several jumps: the codes it can mean. */
  readonly alternatives?: readonly string[];
}

/** What codes, calls, marks, factors and deductions give for one element. */
export interface AuditedElement {
  readonly no: number | null;
  readonly base: Hundredths | null;
  readonly goe: Hundredths | null;
  readonly score: Hundredths | null;
  /** The element as called, info column included; null: the code cannot be read. */
  readonly element: Element | null;
  readonly half: boolean;
  readonly fall: boolean;
  readonly feedback: Feedback | null;
}

export interface AuditedComponent {
  readonly name: string;
  /** Panel mean before the factor. */
  readonly score: Hundredths | null;
  /** The printed factor, else the rulebook's. */
  readonly factor: Hundredths | null;
}

export interface Audit {
  readonly id: string | null;
  readonly rulebook: string;
  readonly elements: readonly AuditedElement[];
  readonly components: readonly AuditedComponent[];
  readonly tes: Hundredths | null;
  readonly pcs: Hundredths | null;
  readonly deductions: Hundredths | null;
  readonly total: Hundredths | null;
  /** The way of averaging that this sheet was read with. */
  readonly panel: PanelRule;
  readonly findings: readonly Finding[];
  readonly warnings: readonly string[];
}
