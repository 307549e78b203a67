import { componentPoints, panelMean, type PanelRule } from '../../scoring/index.ts';
import type { Cell, Line } from './cell.ts';
import { entryOf, isEntry, type Entry } from './row.ts';
import type { Table } from './element-plan.ts';

/** One program component as it stands on the sheet. */
export interface ComponentRow {
  readonly at: string;
  readonly name: string;
  readonly entries: readonly Entry[];
}

export interface ComponentPlan {
  readonly width: number;
  readonly factor: number | null;
  readonly score: number | null;
  /** A column with score times factor. */
  readonly factored: number | null;
  readonly from: number;
  readonly to: number;
  readonly panel: PanelRule | null;
  /** Rows whose score is the mean of their marks. */
  readonly closed: number;
}

const QUARTER = 25;
const SMALL = 500;
const TOP = 1000;

export const isQuarter = (value: number): boolean => value >= QUARTER && value <= TOP && value % QUARTER === 0;

/**
 * A line of three or more marks in quarter steps. Within a block of components a line without a name
 * and one with a spoilt mark are taken too; outside it must be clear.
 */
export function isComponentLine(line: Line, within: boolean): boolean {
  let quarters = 0;
  let decimals = 0;
  let figures = 0;
  let large = 0;
  let small = 0;
  let named = false;
  for (const cell of line.cells) {
    if (cell.kind === 'code') return false;
    if (cell.kind === 'word' && NAME.test(cell.text)) named = true;
    const value = cell.figure?.value;
    if (value === undefined) continue;
    figures++;
    if (value < 0) return false;
    if (isQuarter(value)) quarters++;
    if (cell.figure?.decimals === 0 && value <= SMALL) small++;
    if (cell.figure !== null && cell.figure.decimals > 0) decimals++;
    if (value > TOP) large++;
  }
  if (figures < 3 || decimals === 0 || large > 2) return false;
  if (!named && !within) return false;
  // Small whole numbers are grades: an element row whose code cannot be read.
  if (small >= 3 && decimals <= 4) return false;
  // A line of marks ends in figures that are no quarters: factor, score, factored score.
  return quarters >= Math.max(within ? 1 : 2, figures - 4) && (quarters >= 3 || (within && decimals >= 3));
}

/** A name whose letters cannot be read is one too. */
const NAME = /[\p{L}\ufffd]{2,}/u;

/** Component rows; a line without a name that completes the one before is joined to it. */
export function componentRows(lines: readonly Line[]): ComponentRow[] {
  const rows = lines.map((line): ComponentRow => ({
    at: line.at,
    name: nameOf(line.cells),
    entries: entriesOf(line.cells),
  }));
  const widest = Math.max(0, ...rows.map((row) => row.entries.length));
  const joined: ComponentRow[] = [];
  for (const row of rows) {
    const open = joined.at(-1);
    if (
      open !== undefined &&
      row.name === '' &&
      open.entries.length + row.entries.length <= Math.max(widest, open.entries.length + 4) &&
      open.entries.length < widest + (rows.length > 2 ? 0 : 99)
    ) {
      joined[joined.length - 1] = { ...open, entries: [...open.entries, ...row.entries] };
    } else joined.push(row);
  }
  return joined;
}

const entriesOf = (cells: readonly Cell[]): Entry[] => cells.filter(isEntry).map((cell) => entryOf(cell));

const nameOf = (cells: readonly Cell[]): string =>
  cells
    .filter((cell) => !isEntry(cell) && cell.kind !== 'half')
    .map((cell) => cell.text)
    .join(' ')
    .replace(/[:\s]+$/, '');

/** The best arrangement of the columns, and others that close as much but read other figures. */
export interface ComponentPlans {
  readonly best: ComponentPlan;
  readonly rivals: readonly ComponentPlan[];
}

/** What helps to choose among arrangements that close equally many rows. */
export interface ComponentHints {
  readonly panels: readonly PanelRule[];
  /** Judges' columns of the elements, where known. */
  readonly judges: number | null;
  /** Does the score of the elements stand to the right of the judges? Both tables of a sheet are set alike. */
  readonly scoreRight: boolean | null;
  /** Is this sum printed somewhere on the sheet? */
  readonly isPrinted: (sum: number) => boolean;
}

/**
 * Finds the columns of component rows, because each score is the mean of its marks. One equation a row
 * is not enough (a factor of 1.00 can pass for the lowest mark), so the printed component score, an
 * equal factor in all rows and the panel of the elements count too.
 */
export function planComponents(
  table: Table,
  hints: ComponentHints,
  before: ComponentPlan | null = null,
): ComponentPlans | null {
  const width = table[0]?.length ?? 0;
  if (before !== null && before.width === width && fitsAgain(table, before, hints)) return { best: before, rivals: [] };
  const runs = runsOf(table, width);
  const ranked: { plan: ComponentPlan; rank: number }[] = [];
  for (const panel of hints.panels) {
    for (const run of runs)
      for (const plan of plansOfRun(table, width, run, panel)) ranked.push({ plan, rank: rankOf(plan, table, hints) });
    // The usual way to average explains every row: no other way is tried.
    if (
      ranked.some(
        ({ plan }) => plan.closed === table.length && sumCloses(table, plan, hints) && hasOneFactor(table, plan),
      )
    )
      break;
  }
  ranked.sort((a, b) => b.rank - a.rank || size(b.plan) - size(a.plan));
  const [first] = ranked;
  if (first === undefined) return null;
  const rivals = ranked.filter((one) => one.rank === first.rank && differs(one.plan, first.plan, table));
  return { best: first.plan, rivals: rivals.map((one) => one.plan) };
}

/** The plan of the sheet before explains everything here too. */
function fitsAgain(table: Table, plan: ComponentPlan, hints: ComponentHints): boolean {
  const { score, panel } = plan;
  if (score === null || panel === null || table.length < 3) return false;
  const closes = table.every((row) => row[score]?.value != null && row[score].value === meanOf(row, plan, panel));
  return closes && hasOneFactor(table, plan) && sumCloses(table, plan, hints);
}

const meanOf = (
  row: readonly (Entry | null)[],
  { from, to }: { from: number; to: number },
  panel: PanelRule,
): number | null =>
  panelMean(
    row.slice(from, to).map((one) => one?.value ?? null),
    panel,
  );

const rankOf = (plan: ComponentPlan, table: Table, hints: ComponentHints): number =>
  100 * plan.closed +
  50 * Number(plan.panel === hints.panels[0]) -
  UNEXPLAINED * unexplained(table, plan) +
  60 * Number(sumCloses(table, plan, hints)) +
  40 * Number(hasOneFactor(table, plan)) +
  SAME_PANEL * Number(plan.to - plan.from === hints.judges) +
  10 * Number(hints.scoreRight !== null && plan.score !== null && hints.scoreRight === plan.score >= plan.to);

/** The panel of the elements outweighs a column of marks that happen to be equal and so pass for a factor. */
const SAME_PANEL = 45;

/** A column of figures that stays without a role speaks against a plan (a referee's is one). */
const UNEXPLAINED = 60;

function unexplained(table: Table, plan: ComponentPlan): number {
  const roles = new Set([plan.factor, plan.score, plan.factored]);
  let count = 0;
  for (let c = 0; c < plan.width; c++) {
    const inRun = c >= plan.from && c < plan.to;
    if (!inRun && !roles.has(c) && table.some((row) => row[c]?.value != null)) count++;
  }
  return count;
}

const size = (plan: ComponentPlan): number => plan.to - plan.from + (plan.factored === null ? 0 : 0.5);

function sumCloses(table: Table, plan: ComponentPlan, hints: ComponentHints): boolean {
  if (plan.score === null || plan.factor === null) return false;
  let sum = 0;
  for (const row of table)
    sum += componentPoints(row[plan.score]?.value ?? null, row[plan.factor]?.value ?? null) ?? NaN;
  return hints.isPrinted(sum);
}

const hasOneFactor = (table: Table, { factor }: ComponentPlan): boolean =>
  factor !== null &&
  table.every((row) => row[factor]?.value === table[0]?.[factor]?.value && (row[factor]?.value ?? 0) < HIGH);

/** So high is no factor: marks of a judge that happen to be equal. */
const HIGH = 400;

function differs(a: ComponentPlan, b: ComponentPlan, table: Table): boolean {
  const values = (plan: ComponentPlan): string =>
    JSON.stringify(
      table.map((row) =>
        [row.slice(plan.from, plan.to), ...[plan.factor, plan.score].map((c) => (c === null ? null : row[c]))].map(
          (one) => (Array.isArray(one) ? one.map((entry) => entry?.value) : one?.value),
        ),
      ),
    );
  return values(a) !== values(b);
}

function runsOf(table: Table, width: number): { from: number; to: number }[] {
  const runs: { from: number; to: number }[] = [];
  for (let from = 0; from < width; from++) {
    if (!isMarks(table, from)) continue;
    let to = from;
    while (to < width && isMarks(table, to)) to++;
    for (let left = 0; left <= 2; left++) {
      for (let right = 0; right <= 2; right++) {
        if (to - right - from - left >= 1) runs.push({ from: from + left, to: to - right });
      }
    }
    from = to;
  }
  return runs;
}

/** Most cells are marks in quarter steps, or signs for a missing one; in small tables one may be spoilt. */
function isMarks(table: Table, c: number): boolean {
  const fits = table.filter((row) => row[c]?.value == null || isQuarter(row[c].value)).length;
  return fits >= Math.min(table.length - 1, 0.75 * table.length) && fits > 0;
}

function plansOfRun(table: Table, width: number, run: { from: number; to: number }, panel: PanelRule): ComponentPlan[] {
  const others = Array.from({ length: width }, (_, c) => c).filter((c) => c < run.from || c >= run.to);
  if (others.length > MAX_OTHERS) return [];
  const means = table.map((row) => meanOf(row, run, panel));
  const closedAt = (c: number): number =>
    table.filter((row, r) => row[c]?.value != null && row[c].value === means[r]).length;
  const scores = others.map((score) => ({ score, closed: closedAt(score) })).filter((one) => one.closed > 0);
  const tried: { score: number | null; closed: number }[] =
    scores.length > 0 ? scores : [{ score: null, closed: 0 }, ...others.map((score) => ({ score, closed: 0 }))];
  return tried.map(({ score, closed }) => {
    const { factor, factored } = factorColumns(
      table,
      others.filter((c) => c !== score),
      score,
    );
    return { width, factor, factored, score, ...run, panel, closed };
  });
}

/** Factor, score, factored score, a referee and one column more: what can stand beside the judges. */
const MAX_OTHERS = 5;

/** The factor: a column whose product with the score is another column, else one that is everywhere the same. */
function factorColumns(
  table: Table,
  open: readonly number[],
  score: number | null,
): { factor: number | null; factored: number | null } {
  for (const factor of open) {
    for (const factored of open) {
      if (factor === factored || score === null) continue;
      const fits = table.every(
        (row) => componentPoints(row[score]?.value ?? null, row[factor]?.value ?? null) === row[factored]?.value,
      );
      if (fits) return { factor, factored };
    }
  }
  const same = open.find((c) => {
    const values = table.map((row) => row[c]?.value ?? null);
    return (
      values.every((one) => one !== null && one >= 0 && one <= TOP) &&
      2 * values.filter((one) => one === values[0]).length > values.length
    );
  });
  return { factor: same ?? open.find((c) => table.every((row) => (row[c]?.value ?? 0) > 0)) ?? null, factored: null };
}
