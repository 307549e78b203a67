import type { Element } from '../notation/index.ts';
import type { Hundredths } from '../rulebook/index.ts';
import { componentPoints } from '../scoring/index.ts';
import { lineOf, type AdviceBasis } from './advice-basis.ts';
import { adviceRule } from './advice-rules.ts';
import { adviceText, isLowerBound } from './advice-words.ts';
import { causeOrder } from './causes.ts';
import type { Line } from './lines.ts';
import { points, signed } from './numbers.ts';
import { factorOf } from './sheet-ledger.ts';
import type { Advice, LedgerEntry } from './types.ts';

/** Said beside every suggestion that means more attempts of a jump. */
const JUMP_CAUTION = 'More attempts of a jump? Decide with coach, parents and, in pain or growth, medical staff.';

/**
 * What would win back most, in points, best first: per element one suggestion, the one that repairing
 * alone brings most. Bonus points and extra elements ask for nothing.
 */
export function adviceFor(basis: AdviceBasis): Advice[] {
  const best = new Map<string, LedgerEntry>();
  for (const entry of basis.entries) {
    if (entry.winBack <= 0 || entry.cause === 'bonus') continue;
    const key = keyOf(entry);
    const other = best.get(key);
    if (other === undefined || entry.winBack > other.winBack) best.set(key, entry);
  }
  const elementFall = basis.entries.some((entry) => entry.cause === 'fall' && entry.no !== null);
  return [...best.values()]
    .filter((entry) => !(elementFall && entry.cause === 'fall' && entry.element === null))
    .sort((a, b) => b.winBack - a.winBack || causeOrder(a.cause) - causeOrder(b.cause))
    .map((entry) => adviceOf(entry, basis));
}

/** One suggestion per element; sheet-level causes stand for themselves. */
const keyOf = (entry: LedgerEntry): string =>
  entry.element === null ? entry.cause : (entry.evidence[0]?.replace(/\.[^.]*$/, '') ?? '');

function adviceOf(entry: LedgerEntry, basis: AdviceBasis): Advice {
  const element = elementOf(entry, basis.lines);
  const rule = adviceRule(entry, element, basis);
  return {
    no: entry.no,
    at: entry.element === null ? null : (entry.evidence[0] ?? null),
    cause: entry.cause,
    text: adviceText(entry, element, basis),
    points: entry.winBack,
    atLeast: isLowerBound(entry),
    rule: rule.text,
    sources: rule.sources,
    beside: element?.kind === 'jump' ? [JUMP_CAUTION, ...componentsBeside(basis)] : [],
  };
}

function elementOf(entry: LedgerEntry, lines: readonly Line[]): Element | null {
  const line = lineOf(entry, lines);
  if (line === null || line.kind === 'unreadable') return null;
  if (line.kind === 'missing') return line.planned.element;
  return line.skated.element;
}

/** What a quarter more in every component would bring here; empty where a factor is not known. */
function componentsBeside({ protocol, rules }: Pick<AdviceBasis, 'protocol' | 'rules'>): string[] {
  const step = rules.values.values.componentMarks.step;
  const list = protocol.components.map((one) => componentPoints(step, factorOf(one, rules)));
  if (list.length === 0 || list.some((one) => one === null)) return [];
  const sum = list.reduce<Hundredths>((total, one) => total + (one ?? 0), 0);
  return [`For scale: ${signed(step)} in all ${String(list.length)} components would bring ${points(sum)}.`];
}
