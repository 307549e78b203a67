import type { Cell, Line } from './cell.ts';
import { readDeductions, type PrintedDeduction } from './deductions.ts';
import { isColumnHeader, perLine, textOf } from './heading.ts';
import { remembered } from './remembered.ts';
import { LABELS, type Label } from './words.ts';

/** A figure outside the tables, with the label that stands before it on its line. */
export interface Claim {
  readonly value: number;
  readonly decimals: number;
  readonly label: Label | null;
  readonly line: Line;
  readonly cell: Cell;
}

/** What the tables add up to; null where a part is missing. */
export interface Sums {
  readonly elements: number | null;
  readonly components: number | null;
  /** Of the base values, which stands beside the element score on some sheets. */
  readonly bases: number | null;
}

/** A total as read. `closed`: it equals what it is the sum of. */
export interface Total {
  readonly value: number;
  readonly closed: boolean;
  /** Other figures of the sheet that claim to be the same total. */
  readonly rivals: readonly number[];
}

export interface Totals {
  readonly tes: Total | null;
  readonly pcs: Total | null;
  readonly total: Total | null;
  readonly bonus: number | null;
  readonly deductions: {
    readonly value: number;
    readonly items: readonly PrintedDeduction[] | null;
    /** total = tes + pcs + bonus + deductions holds. */
    readonly closed: boolean;
    /** Item lines whose sum is another. */
    readonly unexplained: readonly PrintedDeduction[];
    readonly positive: boolean;
  } | null;
}

/** Figures outside the tables with their labels: words before them, else the column heads above them. */
export function claimsOf(lines: readonly Line[]): readonly Claim[] {
  let heads: readonly Label[] = [];
  return lines.flatMap((line, i) => {
    if (line.cells.length > 60) return [];
    if (isColumnHeader(line)) heads = headLabels(textOf(line));
    const claims = labelledAround(labelledByWords(line), lines, i);
    const points = claims.filter((claim) => claim.decimals > 0);
    if (heads.length < 2 || points.length !== heads.length || points.some((claim) => claim.label !== null))
      return claims;
    return claims.map((claim) => ({
      ...claim,
      label: claim.decimals > 0 ? (heads[points.indexOf(claim)] ?? null) : claim.label,
    }));
  });
}

const labelledByWords = perLine((line): readonly Claim[] => {
  let words: string[] = [];
  let label: Label | null = null;
  return line.cells.flatMap((cell) => {
    if (cell.figure === null) {
      words.push(cell.text);
      return [];
    }
    if (words.length > 0) label = labelOf(words.join(' '));
    words = [];
    return [{ value: cell.figure.value, decimals: cell.figure.decimals, label, line, cell }];
  });
});

/** A label that was wrapped in its cell: its words stand above and below the line of its figures. */
function labelledAround(claims: readonly Claim[], lines: readonly Line[], i: number): readonly Claim[] {
  const line = lines[i];
  if (line === undefined || claims.length === 0 || line.cells.some((cell) => cell.figure === null)) return claims;
  const above = isBelow(lines[i - 1], line) ? fewWords(lines[i - 1]) : null;
  if (above === null) return claims;
  const below = isBelow(line, lines[i + 1]) ? fewWords(lines[i + 1]) : null;
  const label = labelOf([above, below ?? ''].join(' ').trim());
  return label === null ? claims : claims.map((claim) => ({ ...claim, label }));
}

/** Lines outside the tables stand in one list; only those printed right below one another belong together. */
function isBelow(above: Line | undefined, line: Line | undefined): boolean {
  const [a, b] = [above, line].map((one) => Number(/\d+$/.exec(one?.at ?? '')?.[0] ?? NaN));
  return above?.page === line?.page && a !== undefined && b === a + 1;
}

/** A line of at most five words and no figure, which is no row of column heads. */
const fewWords = (line: Line | undefined): string | null =>
  line === undefined || line.cells.length > 5 || isColumnHeader(line) || line.cells.some((cell) => cell.figure !== null)
    ? null
    : textOf(line);

/** The totals that a row of column heads names, from left to right. */
export function headLabels(text: string): Label[] {
  const named = HEADS.flatMap(([pattern, label]) => {
    const at = text.search(pattern);
    return at < 0 ? [] : [{ at, label }];
  });
  return named.sort((a, b) => a.at - b.at).map((one) => one.label);
}

const HEADS: readonly (readonly [RegExp, Label])[] = [
  [/segment|gesamt|(?<!\p{L})tss(?!\p{L})|合計|得点/iu, 'total'],
  [/element|technical|(?<!\p{L})tes(?!\p{L})|élément|技術/iu, 'tes'],
  [/component|komponent|composant|(?<!\p{L})(?:pcs|tcs)(?!\p{L})|構成/iu, 'pcs'],
  [/deduct|abz|déduct|(?<!\p{L})ded(?!\p{L})|減点/iu, 'deductions'],
  [/bonus/iu, 'bonus'],
];

/** What a line says about deductions. */
export const deductionsIn = perLine((line) => readDeductions(textOf(line)));

export const labelOf = remembered(
  (words): Label | null => LABELS.find(([pattern]) => pattern.test(words))?.[1] ?? null,
);

/** Finds the totals of one skater: those that close come first, labels second. */
export function solveTotals(lines: readonly Line[], sums: Sums): Totals {
  const claims = claimsOf(lines);
  const points = claims.filter((claim) => claim.decimals > 0 || claim.label !== null);
  const tes = sumTotal(points, sums.elements, 'tes', sums.bases);
  const pcs = sumTotal(points, sums.components, 'pcs');
  const bonus = bonusOf(points);
  const printed = lines.map(deductionsIn);
  const items = printed.flatMap((one) => one.items);
  const totals = printed.flatMap((one) => one.totals);
  const filled = tes !== null && pcs !== null ? { tes, pcs } : fromTriple(points, tes, pcs);
  const total = solveTotal(points, filled, bonus ?? 0, { items, totals });
  return { ...filled, bonus, total: total.total, deductions: total.deductions };
}

/** Only a figure that is labelled as bonus is one. */
function bonusOf(points: readonly Claim[]): number | null {
  return points.find((claim) => claim.label === 'bonus' && claim.decimals > 0)?.value ?? null;
}

/**
 * The printed figure that equals the sum, on a line that does not name another total; else the labelled
 * one. Labelled figures that say something else are rivals. `other` is a sum that may stand under the same label.
 */
function sumTotal(
  points: readonly Claim[],
  sum: number | null,
  label: Label,
  other: number | null = null,
): Total | null {
  const named = points.filter((claim) => claim.label === label && claim.decimals > 0);
  const equals = points.filter((claim) => claim.value === sum && sum !== 0 && claim.decimals > 0);
  const equal =
    equals.find((claim) => claim.label === label || claim.label === null) ?? equals.find(isOneOfSeveralTotals(points));
  if (equal !== undefined) {
    const lines = new Set(points.filter((claim) => claim.value === sum).map((claim) => claim.line));
    return {
      value: equal.value,
      closed: true,
      rivals: [...new Set(named.filter((one) => !lines.has(one.line)).map((one) => one.value))],
    };
  }
  // A line with label, base sum and element score, in any order: what is the other sum is not this one; of
  // the rest a figure that is nearly the sum goes first, then the last of the line.
  const lines = new Set(named.map((claim) => claim.line));
  const beside = points.filter(
    (claim) => lines.has(claim.line) && claim.decimals > 0 && (claim.label === label || claim.label === null),
  );
  const own = (named.some((claim) => claim.value === other) ? beside : named).filter((claim) => claim.value !== other);
  const rest = own.length > 0 ? own : named;
  const last = (rest.findLast((claim) => sum !== null && looksAlike(claim.value, sum)) ?? rest.at(-1))?.value;
  return last === undefined
    ? null
    : {
        value: last,
        closed: last === sum,
        rivals: rivalsOf(
          rest.map((one) => one.value),
          last,
        ),
      };
}

/**
 * In a language whose words for the parts are not known every total is called "total". A figure under
 * that word is a part if another, larger one stands under it too, or under a word that is not known.
 */
const isOneOfSeveralTotals =
  (points: readonly Claim[]) =>
  (claim: Claim): boolean =>
    claim.label === 'total' &&
    points.some((other) => (other.label === 'total' || other.label === null) && other.value > claim.value);

/** Labels are only words: a figure far from the total it claims to be is something else. */
const rivalsOf = (labelled: readonly number[], value: number): number[] => [
  ...new Set(labelled.filter((one) => one !== value && looksAlike(one, value))),
];

/** The same figure with one digit lost, added, changed, or two changed places. */
export function looksAlike(a: number, b: number): boolean {
  const [x, y] = [String(Math.abs(a)), String(Math.abs(b))];
  if (x.length === y.length) {
    const off = Array.from(x).filter((sign, i) => sign !== y[i]).length;
    return off <= 1 || (off === 2 && sorted(x) === sorted(y));
  }
  const [long, short] = x.length > y.length ? [x, y] : [y, x];
  return (
    long.length - short.length === 1 && Array.from(long).some((_, i) => long.slice(0, i) + long.slice(i + 1) === short)
  );
}

const sorted = (text: string): string => Array.from(text).sort().join('');

interface Parts {
  readonly tes: Total | null;
  readonly pcs: Total | null;
}

/** One line with total, element and component score that close among themselves stands in for a missing one. */
function fromTriple(points: readonly Claim[], tes: Total | null, pcs: Total | null): Parts {
  const lines = new Map<Line, number[]>();
  for (const claim of points)
    if (claim.decimals > 0) lines.set(claim.line, [...(lines.get(claim.line) ?? []), claim.value]);
  for (const values of lines.values()) {
    for (const total of values) {
      for (const [i, a] of values.entries()) {
        for (const b of values.slice(i + 1)) {
          const rest = total - a - b;
          if (
            total <= a ||
            total <= b ||
            a <= 0 ||
            b <= 0 ||
            rest > 0 ||
            !values.some((one) => Math.abs(one) === -rest)
          )
            continue;
          if (tes === null && pcs === null) return { tes: open(a), pcs: open(b) };
          if (tes === null && pcs !== null && (a === pcs.value || b === pcs.value))
            return { tes: open(a === pcs.value ? b : a), pcs };
          if (pcs === null && tes !== null && (a === tes.value || b === tes.value))
            return { tes, pcs: open(a === tes.value ? b : a) };
        }
      }
    }
  }
  return { tes, pcs };
}

const open = (value: number): Total => ({ value, closed: false, rivals: [] });

interface Printed {
  readonly items: readonly PrintedDeduction[];
  readonly totals: readonly number[];
}

function solveTotal(
  points: readonly Claim[],
  parts: Parts,
  bonus: number,
  printed: Printed,
): Pick<Totals, 'total' | 'deductions'> {
  const labelled = points.filter((claim) => claim.label === 'total' && claim.decimals > 0).map((claim) => claim.value);
  const sumOfItems = printed.items.reduce((sum, item) => sum + item.points, 0);
  if (parts.tes === null || parts.pcs === null) {
    const value = labelled.at(-1);
    return { total: value === undefined ? null : open(value), deductions: deductionsOf(printed, null, false) };
  }
  const before = parts.tes.value + parts.pcs.value + bonus;
  const least = Math.max(parts.tes.value, parts.pcs.value);
  const figures = points.filter((one) => one.decimals > 0).map((one) => one.value);
  const offered = new Set([0, sumOfItems, ...printed.totals, ...figures.map((one) => -Math.abs(one))]);
  // Deductions that are labelled must be the ones that close; only without them may others, or none, do it.
  const told = new Set([...printed.totals, ...(printed.items.length > 0 ? [sumOfItems] : [])]);
  const values = figures.filter((one) => one > least && one >= before - MOST_DEDUCTED);
  for (const allowed of told.size > 0 ? [told, offered] : [offered]) {
    const value = values.find((one) => allowed.has(one - before));
    if (value === undefined) continue;
    const due = value - before;
    const total: Total = { value, closed: true, rivals: rivalsOf(labelled, value) };
    const isPrinted = due !== 0 || told.size > 0 || hasZero(points);
    return { total, deductions: isPrinted ? deductionsOf(printed, due, true) : null };
  }
  const value = labelled.at(-1) ?? values.at(-1);
  return { total: value === undefined ? null : open(value), deductions: deductionsOf(printed, null, false) };
}

/** More is never deducted from one program, in hundredths; it only bounds what may pass for a deduction. */
const MOST_DEDUCTED = 2500;

/** `0.00` among the totals: no deductions, printed. */
const hasZero = (points: readonly Claim[]): boolean => points.some((claim) => claim.value === 0 && claim.decimals > 0);

function deductionsOf(printed: Printed, due: number | null, closed: boolean): Totals['deductions'] {
  const sum = printed.items.reduce((total, item) => total + item.points, 0);
  const value = due ?? printed.totals.at(-1) ?? (printed.items.length > 0 ? sum : null);
  if (value === null) return null;
  const itemised = printed.items.length > 0 && sum === value;
  return {
    value,
    items: itemised ? printed.items : null,
    closed,
    unexplained: itemised ? [] : printed.items,
    positive: printed.items.some((item) => item.positive),
  };
}
