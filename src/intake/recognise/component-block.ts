import { componentPoints, panelMean, type ProtocolForm } from '../../scoring/index.ts';
import { UNREADABLE, type Line } from './cell.ts';
import {
  componentRows,
  isQuarter,
  planComponents,
  type ComponentHints,
  type ComponentPlan,
  type ComponentRow,
} from './component-plan.ts';
import { pointsText, toPoints } from './figure.ts';
import type { Entry } from './row.ts';
import { commonest, extentsOf, placed } from './table.ts';
import { doubt, tested, type Verdict } from './verdict.ts';

type ComponentForm = NonNullable<ProtocolForm['components']>[number];

interface ReadComponent {
  readonly row: ComponentRow;
  readonly entries: readonly (Entry | null)[] | null;
  readonly factor: number | null;
  readonly score: number | null;
  readonly marks: readonly (number | null)[];
}

export interface ComponentBlock {
  readonly rows: readonly ReadComponent[];
  readonly plan: ComponentPlan | null;
  readonly rivals: readonly ComponentPlan[];
  /** Sum of the factored scores; null if something is missing. */
  readonly sum: number | null;
}

/** Reads the lines of a component block. */
export function readComponents(
  lines: readonly Line[],
  hints: ComponentHints,
  before: ComponentPlan | null = null,
): ComponentBlock {
  const rows = componentRows(lines);
  const width = commonest(rows.map((row) => row.entries.length));
  const full = rows.filter((row) => row.entries.length === width).map((row) => row.entries);
  const plans = rows.length === 0 ? null : planComponents(full, hints, before);
  const plan = plans?.best ?? null;
  const extents = extentsOf(full);
  const read = rows.map((row): ReadComponent => {
    const entries =
      plan === null
        ? null
        : row.entries.length === width
          ? row.entries
          : extents === null
            ? null
            : placed(row.entries, extents);
    const at = (c: number | null | undefined): number | null => (c == null ? null : (entries?.[c]?.value ?? null));
    const marks =
      plan === null || entries === null ? [] : entries.slice(plan.from, plan.to).map((entry) => entry?.value ?? null);
    return { row, entries, factor: at(plan?.factor), score: at(plan?.score), marks };
  });
  return { rows: read, plan, rivals: plans?.rivals ?? [], sum: sumOf(read, null) };
}

/** Sum of score times factor; `factor` stands in where the sheet prints none. */
export function sumOf(rows: readonly ReadComponent[], factor: number | null): number | null {
  let sum = 0;
  for (const row of rows) {
    const points = componentPoints(row.score, row.factor ?? factor);
    if (points === null) return null;
    sum += points;
  }
  return rows.length === 0 ? null : sum;
}

/** Tests the block and writes its components. */
export function judgeComponents(block: ComponentBlock, pcsCloses: boolean | null, verdict: Verdict): ComponentForm[] {
  const { plan } = block;
  const style = block.rows
    .flatMap((row) => row.entries ?? [])
    .flatMap((entry) => (entry?.value == null ? [] : [entry.decimals]));
  const twoDecimals = style.filter((one) => one === 2).length >= 0.8 * style.length;
  const active = new Set(block.rows.flatMap(({ marks }) => marks.flatMap((mark, j) => (mark === null ? [] : [j]))));
  const factors = block.rows.map((read) => read.factor).filter((one) => one !== null);
  const usual = commonest(factors);
  const loose = isLoose(block);
  return block.rows.map((read, i) => {
    const at = `components[${i}]`;
    if (loose) doubt(verdict, at, read.row.name, [], LOOSE);
    if (read.factor !== null && read.factor !== usual) {
      doubt(
        verdict,
        `${at}.factor`,
        toPoints(read.factor),
        [toPoints(usual)],
        'The other components have another factor.',
      );
    }
    verdict.figures += 2 + read.marks.length;
    if (block.rows.length < FEWEST_ROWS)
      doubt(verdict, at, read.row.name, [], 'Too few rows to be sure of the columns.');
    if (read.entries === null) judgeUnfit(read, at, plan, verdict);
    else judgeRow(read, at, plan, { pcsCloses, twoDecimals, active }, verdict);
    for (const rival of block.rivals.slice(0, 4)) judgeRival(read, rival, at, verdict);
    const name = read.row.name.includes(UNREADABLE) ? '' : read.row.name;
    if (name === '') doubt(verdict, `${at}.name`, null, [], 'No name that can be read was found beside these marks.');
    return {
      name,
      ...(read.factor === null || read.factor <= 0 ? {} : { factor: toPoints(read.factor) }),
      marks: read.marks.map((mark) => (mark === null ? null : toPoints(mark))),
      ...(read.score === null ? {} : { score: toPoints(read.score) }),
    };
  });
}

/** With fewer rows, columns can close by accident. */
const FEWEST_ROWS = 3;
/** One row may be misprinted; where more do not close, those that do may close by accident. */
const FEWEST_OFF = 2;
const LOOSE =
  'In several rows the marks do not give the printed score: a column may be missing, or another way to average was used.';

/** A panel of which nothing is dropped is believed only where every row closes that way. */
const isUsual = ({ panel }: ComponentPlan): boolean => panel !== null && Number.isFinite(panel.trimFrom);

function isLoose({ rows, plan }: ComponentBlock): boolean {
  if (plan?.panel == null || plan.score === null) return false;
  const off = rows.filter((read) => read.score !== null).length - plan.closed;
  return off >= (isUsual(plan) ? FEWEST_OFF : 1);
}

const UNLIKE = 'Printed unlike the other figures: a digit may be missing.';
/** So far from the middle of the panel a mark may be a misreading that the trimming hides. */
const FAR = 350;

function oddMark(entry: Entry, middle: number, twoDecimals: boolean): string | null {
  const value = entry.value ?? 0;
  if (!isQuarter(value)) return 'A component mark runs from 0.25 to 10.00 in quarter steps.';
  if (entry.maimed || (twoDecimals && entry.decimals !== 2)) return UNLIKE;
  return Math.abs(value - middle) >= FAR
    ? 'Far from the marks of the other judges; the trimming would hide a misreading.'
    : null;
}

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

/** As for elements: a lost mark looks like a missing one where another mark closes the row too. */
function judgeEmptyMark(
  read: ReadComponent,
  at: string,
  plan: ComponentPlan,
  active: ReadonlySet<number>,
  verdict: Verdict,
): void {
  read.marks.forEach((mark, j) => {
    if (mark !== null || !active.has(j) || plan.panel === null) return;
    const { panel } = plan;
    const others = QUARTERS.filter((one) => panelMean(read.marks.with(j, one), panel) === read.score).map(toPoints);
    if (others.length > 0)
      doubt(
        verdict,
        `${at}.marks[${j}]`,
        null,
        others,
        'No mark of this judge was found, and with one of these the row closes as well.',
      );
  });
}

const QUARTERS = Array.from({ length: 40 }, (_, i) => 25 * (i + 1));

/** Another arrangement of the columns closes as well. */
function judgeRival(read: ReadComponent, rival: ComponentPlan, at: string, verdict: Verdict): void {
  const other = (read.entries ?? [])
    .slice(rival.from, rival.to)
    .map((entry) => (entry?.value == null ? null : toPoints(entry.value)));
  const why = 'Another choice of the columns closes as well.';
  const marks = read.marks.map((mark) => (mark === null ? null : toPoints(mark)));
  if (JSON.stringify(other) !== JSON.stringify(marks)) doubt(verdict, `${at}.marks`, marks, [other], why);
  for (const name of ['factor', 'score'] as const) {
    const c = rival[name];
    const value = c === null ? null : (read.entries?.[c]?.value ?? null);
    if (value !== read[name])
      doubt(
        verdict,
        `${at}.${name}`,
        read[name] === null ? null : toPoints(read[name]),
        value === null ? [] : [toPoints(value)],
        why,
      );
  }
}

function judgeUnfit({ row }: ReadComponent, at: string, plan: ComponentPlan | null, verdict: Verdict): void {
  const printed = row.entries.map((entry) => entry.cell.text).join(' ');
  const why =
    plan === null
      ? 'No arrangement of the columns makes the figures of this block agree.'
      : `${row.entries.length} figures where full rows have ${plan.width} (${row.at}).`;
  doubt(verdict, at, printed, [], why);
}

interface Whole {
  readonly pcsCloses: boolean | null;
  readonly twoDecimals: boolean;
  /** Judges who have a mark in some row. */
  readonly active: ReadonlySet<number>;
}

function judgeRow(read: ReadComponent, at: string, plan: ComponentPlan | null, whole: Whole, verdict: Verdict): void {
  const { pcsCloses, twoDecimals, active } = whole;
  if (plan === null) return;
  const mean = plan.panel === null ? null : panelMean(read.marks, plan.panel);
  if (read.score === null) {
    if (plan.score !== null)
      doubt(
        verdict,
        `${at}.score`,
        null,
        mean === null ? [] : [toPoints(mean)],
        `No score was found (${read.row.at}).`,
      );
  } else if (mean !== null && !tested(verdict, mean === read.score)) {
    const why = `The marks give ${pointsText(mean)}; ${pointsText(read.score)} is printed.`;
    doubt(
      verdict,
      `${at}.marks`,
      read.marks.map((mark) => (mark === null ? null : toPoints(mark))),
      [],
      why,
    );
    if (pcsCloses !== true) doubt(verdict, `${at}.score`, toPoints(read.score), [toPoints(mean)], why);
  }
  if (mean !== null && mean === read.score) judgeEmptyMark(read, at, plan, active, verdict);
  const middle = median(read.marks.filter((mark) => mark !== null));
  (read.entries ?? []).slice(plan.from, plan.to).forEach((entry, j) => {
    if (entry?.value == null) return;
    const why = oddMark(entry, middle, twoDecimals);
    if (why !== null) doubt(verdict, `${at}.marks[${j}]`, entry.cell.text, [], why);
  });
  for (const name of ['factor', 'score'] as const) {
    const entry = plan[name] === null ? null : read.entries?.[plan[name]];
    if (entry?.value != null && (entry.maimed || (twoDecimals && entry.decimals !== 2))) {
      doubt(verdict, `${at}.${name}`, toPoints(entry.value), [], UNLIKE);
    }
  }
  if (read.factor === null && plan.factor !== null)
    doubt(verdict, `${at}.factor`, null, [], 'No factor was found in this row.');
}
