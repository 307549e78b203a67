import { fail, ok, withoutCalls, type Element, type Result } from '../../notation/index.ts';
import type { ChosenRules } from '../../rulebook/index.ts';
import { audit, elementValue, type Protocol } from '../../scoring/index.ts';
import { earlierProgram, type EarlierProgram } from '../learn/skated.ts';
import { timeOf } from '../model.ts';

/** One protocol as the backtest sees it; points as numbers. */
export interface Line {
  readonly id: string | null;
  readonly skater: string;
  readonly category: string;
  readonly segment: 'short' | 'free';
  readonly season: string | null;
  /** Place in time. */
  readonly when: number;
  readonly tes: number;
  readonly pcs: number;
  readonly deductions: number;
  readonly total: number;
  readonly rules: ChosenRules;
  readonly program: EarlierProgram;
}

const missing = (at: string, expected: string) => ({
  code: 'backtest.missing',
  at,
  found: 'nothing',
  expected,
  advice: 'A line without it cannot be placed among the others and is left out.',
});

interface Figures {
  readonly tes: number;
  readonly pcs: number;
  readonly deductions: number;
  readonly total: number;
}

/** What is missing is recomputed; a part that cannot be is taken as half of what the total leaves. */
function figuresOf(protocol: Protocol, rules: ChosenRules): Figures | null {
  const whole = protocol.total !== null && protocol.tes !== null && protocol.pcs !== null;
  const again = whole ? null : audit(protocol, rules);
  const total = protocol.total ?? again?.total ?? null;
  if (total === null) return null;
  const deductions = protocol.deductions?.total ?? 0;
  const parts = total - deductions;
  const tes = protocol.tes ?? again?.tes ?? null;
  const pcs = protocol.pcs ?? again?.pcs ?? null;
  const half = parts / 2;
  const points = {
    tes: tes ?? (pcs === null ? half : parts - pcs),
    pcs: pcs ?? (tes === null ? half : parts - tes),
  };
  return { tes: points.tes / 100, pcs: points.pcs / 100, deductions: deductions / 100, total: total / 100 };
}

/**
 * Reads a protocol for the backtest. What is forecast is the printed total, else the recomputed one.
 * A skater who is not named is nobody's earlier self.
 */
export function backtestLine(protocol: Protocol, rules: ChosenRules, index: number): Result<Line> {
  const when = timeOf(protocol);
  if (when === null) return fail(missing('order', 'an order or a date'));
  if (protocol.category === null) return fail(missing('category', 'a category such as senior women'));
  if (protocol.segment === null) return fail(missing('segment', 'short or free'));
  const figures = figuresOf(protocol, rules);
  if (figures === null) return fail(missing('total', 'a total, or the codes and marks to compute it from'));
  return ok({
    id: protocol.id,
    skater: protocol.skater ?? `unnamed ${index}`,
    category: protocol.category,
    segment: protocol.segment,
    season: protocol.season,
    when,
    ...figures,
    rules,
    program: earlierProgram(protocol, when, rules),
  });
}

/** The elements of a program as they were meant: without calls. */
export const plansOf = (line: Line): readonly Element[] => line.program.skated.map((s) => withoutCalls(s.element));

/** Base value of the elements of a program as they were meant, in points; unknown values count 0. */
export function plannedBase(line: Line): number {
  const sum = line.program.skated.reduce((total, { element }, i) => {
    const half = line.program.protocol.elements[i]?.half === true;
    return total + (elementValue(line.rules.values, withoutCalls(element), { half }).base ?? 0);
  }, 0);
  return sum / 100;
}
