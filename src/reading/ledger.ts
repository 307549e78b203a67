import type { ChosenRules, Hundredths } from '../rulebook/index.ts';
import { elementValue, type PanelRule, type Protocol } from '../scoring/index.ts';
import { addedAccount, missingAccount, pairedAccount, type ElementAccount } from './element-ledger.ts';
import { present } from './grades.ts';
import type { ValueContext } from './game.ts';
import { linesOf, type Line, type LedgerBasis } from './lines.ts';
import { componentAccount, componentEntries, sheetEntries } from './sheet-ledger.ts';
import type { Skated } from './sides.ts';
import type { LedgerEntry, Scores } from './types.ts';

export interface Ledger {
  readonly awarded: Scores;
  readonly reference: Scores;
  readonly entries: readonly LedgerEntry[];
  readonly warnings: readonly string[];
  readonly lines: readonly Line[];
}

/**
 * The account of a sheet against its reference, exact: the points of all entries sum to the difference
 * of the totals. What the sheet lacks is left out on both sides.
 */
export function makeLedger(
  protocol: Protocol,
  skated: readonly (Skated | null)[],
  rules: ChosenRules,
  panel: PanelRule,
  basis: LedgerBasis,
): Ledger {
  const context: ValueContext = { rulebook: rules.values, panel };
  const { lines, warnings } = linesOf(skated, rules, basis);
  const accounts = lines.map((line) => ({ line, account: accountOf(line, context) }));
  const there = accounts.flatMap(({ account }) => account ?? []);
  const components = componentAccount(protocol, rules, panel, basis.kind === 'layout' ? basis.layout : null);
  const deductions = protocol.deductions?.total ?? null;
  const falls = skated.filter((one) => one?.fall === true).length;
  const bonus = protocol.bonus ?? 0;
  const tes = (side: 'awarded' | 'reference') => (there.length === 0 ? null : sum(there.map((one) => one[side])));
  return {
    awarded: totals(tes('awarded'), components.awarded, deductions, bonus),
    reference: totals(tes('reference'), components.reference, 0, 0),
    entries: [
      ...there.flatMap((one) => one.entries),
      ...sheetEntries(protocol, rules, falls),
      ...componentEntries(components),
    ],
    warnings: [...warnings, ...accounts.flatMap(({ line, account }) => (account === null ? leftOut(line) : []))],
    lines,
  };
}

const sum = (values: readonly Hundredths[]): Hundredths => values.reduce((total, one) => total + one, 0);

const totals = (tes: Hundredths | null, pcs: Hundredths | null, deductions: Hundredths | null, bonus: Hundredths) => ({
  tes,
  pcs,
  deductions,
  total: (tes ?? 0) + (pcs ?? 0) + (deductions ?? 0) + bonus,
});

function accountOf(line: Line, context: ValueContext): ElementAccount | null {
  switch (line.kind) {
    case 'unreadable':
      return null;
    case 'missing':
      return missingAccount(line.planned, context);
    case 'added':
      return lacksMarks(line.skated, context) ? null : addedAccount(line.skated, line.reference, context);
    case 'both':
      return lacksMarks(line.skated, context) ? null : pairedAccount(line.skated, line.reference, context);
  }
}

/** An element with value and without marks cannot be read; without value none are needed. */
const lacksMarks = (skated: Skated, context: ValueContext): boolean =>
  present(skated.marks).length === 0 && elementValue(context.rulebook, skated.element, { half: skated.half }).hasValue;

function leftOut(line: Line): string {
  const why = 'is left out on both sides';
  if (line.kind === 'unreadable') return `elements[${line.index}]: the code cannot be read, so it ${why}.`;
  if (line.kind === 'missing') return `layout.elements[${line.planned.planned}]: its value is not known, so it ${why}.`;
  const at = `elements[${line.skated.index}]`;
  return present(line.skated.marks).length === 0
    ? `${at}: the sheet has no marks for it, so it ${why}.`
    : `${at}: a value or grade of it is not known, so it ${why}.`;
}
