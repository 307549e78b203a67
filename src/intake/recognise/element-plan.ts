import type { PanelRule } from '../../scoring/index.ts';
import { panelRules } from './panels.ts';
import type { Entry, Row } from './row.ts';
import { fittingValuation, goeVerdict, valuations, type Season } from './rules-fit.ts';

/** Which number column of an element block is what. Columns are counted among the numbers of a row. */
export interface ElementPlan {
  /** Numbers in a full row. */
  readonly width: number;
  readonly no: number | null;
  readonly base: number | null;
  readonly goe: number | null;
  readonly score: number | null;
  /** Judges' columns, from (included) and to (excluded); equal: none. */
  readonly from: number;
  readonly to: number;
  /** Seasons whose values fit best, best first; empty: none fits or none is known. */
  readonly seasons: readonly Season[];
  readonly panel: PanelRule | null;
  /** The panel is averaged as the rulebook says. */
  readonly byRule: boolean;
  /** How many equations close: rows with base + goe = score, base by the rules, goe by the marks. */
  readonly closed: { readonly sum: number; readonly base: number; readonly goe: number; readonly rows: number };
}

/** The best plan, and others that close as many equations but read the rows differently. */
export interface Plans {
  readonly best: ElementPlan;
  readonly rivals: readonly ElementPlan[];
}

export type Table = readonly (readonly (Entry | null)[])[];

/** A triple must close in this share of the rows to be believed. */
const BELIEVED = 0.6;
const MAX_MARK = 500;
const MAX_JUDGES = 12;

/**
 * Finds the roles of the columns of full rows, because the arithmetic closes; null if nothing can be
 * said. `places`: where each full row stands among all rows.
 */
export function planElements(
  { rows, table, places }: FullRows,
  seasons: readonly Season[],
  { judges, before }: { readonly judges: number | null; readonly before: ElementPlan | null },
): Plans | null {
  const width = table[0]?.length ?? 0;
  if (width === 0) return null;
  const again = before === null ? null : planAgain(rows, table, before, seasons, judges);
  if (again !== null) return { best: again, rivals: [] };
  const no = numberColumn(table, places, width);
  const trials = triples(table, width, no).flatMap((roles) => plansFor(rows, table, { ...roles, no }, seasons, judges));
  const plans = trials.length > 0 ? trials : partialPlans(rows, table, width, no, seasons, judges);
  if (plans.length === 0) return null;
  const sorted = [...plans].sort((a, b) => strength(b) - strength(a) || order(b) - order(a));
  const [best] = sorted;
  if (best === undefined) return null;
  // A way to average that the rules do not know is no rival to one that they do.
  const rivals = sorted
    .slice(1)
    .filter((one) => strength(one) === strength(best) && (one.byRule || !best.byRule) && differs(one, best, table));
  return { best, rivals };
}

/** Rows that have every figure, and where each stands among all rows. */
export interface FullRows {
  readonly rows: readonly Row[];
  readonly table: Table;
  readonly places: readonly number[];
}

/** The plan of the sheet before, if it explains every row here too; only where the seasons are the same ones. */
function planAgain(
  rows: readonly Row[],
  table: Table,
  before: ElementPlan,
  seasons: readonly Season[],
  judges: number | null,
): ElementPlan | null {
  const [season] = before.seasons;
  if (
    before.width !== table[0]?.length ||
    table.length < 5 ||
    season === undefined ||
    !sameSeasons(seasons, before.seasons)
  )
    return null;
  if (judges !== null && before.to - before.from !== judges) return null;
  const plan = planOf(rows, table, before, { seasons: [season], hits: baseHits(rows, table, before.base, season) });
  const valued = rows.filter((row) => valuations(season, row)[0]?.hasValue === true).length;
  const isFull =
    plan.closed.sum === table.length &&
    plan.closed.base === table.length &&
    plan.closed.goe === valued &&
    plan.panel === before.panel;
  return isFull ? { ...plan, seasons: before.seasons } : null;
}

const sameSeasons = (a: readonly Season[], b: readonly Season[]): boolean =>
  a.length === b.length && a.every((one, i) => one === b[i]);

/** How much of a block closes under a plan. */
export const strength = (plan: ElementPlan): number => 4 * plan.closed.sum + 3 * plan.closed.base + 3 * plan.closed.goe;

/** Among equals: base before goe before score, as most sheets have it, and the wider panel. */
const order = ({ base, goe, score, from, to, byRule }: ElementPlan): number =>
  (byRule ? 4 : 0) +
  (base !== null && goe !== null && base < goe ? 2 : 0) +
  (score !== null && goe !== null && goe < score ? 1 : 0) +
  (to - from) / 100;

/** Two plans that give every row the same figures are one reading. */
function differs(a: ElementPlan, b: ElementPlan, table: Table): boolean {
  const values = (plan: ElementPlan, row: readonly (Entry | null)[]): string =>
    JSON.stringify([
      [plan.base, plan.goe, plan.score].map((at) => (at === null ? null : (row[at]?.value ?? null))),
      row.slice(plan.from, plan.to).map((entry) => entry?.value ?? null),
    ]);
  return table.some((row) => values(a, row) !== values(b, row));
}

const valueAt = (row: readonly (Entry | null)[], column: number | null): number | null =>
  column === null ? null : (row[column]?.value ?? null);

/**
 * The column that counts the elements: 1, 2, 3 … in nearly all rows; or, on a sheet that lacks rows or
 * has them in disorder, whole numbers from 1 on that are all different.
 */
function numberColumn(table: Table, places: readonly number[], width: number): number | null {
  const columns = Array.from({ length: width }, (_, c) => c);
  const counts = (c: number): number =>
    table.filter((row, r) => row[c]?.value === 100 * ((places[r] ?? r) + 1) && row[c].decimals === 0).length;
  const inOrder = columns.find((c) => counts(c) >= Math.max(1, 0.8 * table.length) && (table.length > 2 || c === 0));
  return inOrder ?? columns.find((c) => table.length > 3 && (isNumbering(table, c) || countsUp(table, c))) ?? null;
}

/** Rows of two skaters in one table: the numbers go up by one again and again. */
function countsUp(table: Table, c: number): boolean {
  const value = (r: number): number => table[r]?.[c]?.value ?? NaN;
  const steps = table.filter((row, r) => r > 0 && row[c]?.decimals === 0 && value(r) === value(r - 1) + 100).length;
  return table[0]?.[c]?.value === 100 && steps >= STEPS * (table.length - 1);
}

const STEPS = 0.7;

/** Elements missing at most: numbers run a little beyond the rows. */
const MISSING_ROWS = 8;

function isNumbering(table: Table, c: number): boolean {
  const seen = new Set<number>();
  let odd = 0;
  for (const row of table) {
    const entry = row[c];
    const number = (entry?.value ?? 0) / 100;
    if (
      entry?.value == null ||
      entry.decimals > 0 ||
      number < 1 ||
      number > table.length + MISSING_ROWS ||
      seen.has(number)
    )
      odd++;
    else seen.add(number);
  }
  // One misread number is allowed: it is what has to be seen.
  return odd <= (table.length > 5 ? 1 : 0) && seen.size > 3;
}

const isPointy = (table: Table, c: number): boolean =>
  table.some((row) => (row[c]?.decimals ?? 0) > 0 || Math.abs(row[c]?.value ?? 0) > 1100);

interface Roles {
  readonly no: number | null;
  readonly base: number | null;
  readonly goe: number | null;
  readonly score: number | null;
}

/** Every (base, goe, score) that closes in nearly all rows. */
function triples(table: Table, width: number, no: number | null): Roles[] {
  const pointy = Array.from({ length: width }, (_, c) => c !== no && isPointy(table, c));
  const found: (Roles & { closed: number; plain: number })[] = [];
  for (let score = 0; score < width; score++) {
    if (pointy[score] !== true) continue;
    for (let base = 0; base < width; base++) {
      if (base === score || pointy[base] !== true) continue;
      for (let goe = 0; goe < width; goe++) {
        if (goe === score || goe === base || goe === no) continue;
        const closed = closures(table, base, goe, score);
        if (closed > 0) found.push({ no, base, goe, score, closed, plain: pointy[goe] === true ? 1 : 0 });
      }
    }
  }
  const best = Math.max(0, ...found.map((one) => one.closed));
  const kept = found.filter((one) => one.closed >= best - 1 || one.closed === best);
  const clear = kept.filter((one) => one.plain === 1);
  return clear.length > 0 ? clear : kept;
}

/** Rows that close; 0 as soon as too many do not. */
function closures(table: Table, base: number, goe: number, score: number): number {
  let closed = 0;
  let open = 0;
  const allowed = Math.floor((1 - BELIEVED) * table.length);
  for (const row of table) {
    const b = row[base]?.value ?? null;
    const g = row[goe]?.value ?? null;
    const s = row[score]?.value ?? null;
    if (b === null || g === null || s === null) continue;
    if (b < 0 || b + g !== s) {
      open++;
      if (open > allowed) return 0;
    } else closed++;
  }
  return closed;
}

interface Roster extends Roles {
  readonly from: number;
  readonly to: number;
}

function plansFor(
  rows: readonly Row[],
  table: Table,
  roles: Roles,
  seasons: readonly Season[],
  judges: number | null,
): ElementPlan[] {
  const fitting = bestSeasons(rows, table, roles.base, seasons);
  return panels(table, roles, judges).flatMap((marks) => planOf(rows, table, { ...roles, ...marks }, fitting));
}

function planOf(rows: readonly Row[], table: Table, roles: Roster, fitting: Fitting): ElementPlan {
  const { base, goe, score } = roles;
  const sum = table.filter((row) => {
    const [b, g, s] = [valueAt(row, base), valueAt(row, goe), valueAt(row, score)];
    return b !== null && g !== null && s !== null && b + g === s;
  }).length;
  const tried = fitting.seasons.flatMap((season) =>
    panelRules(season.rulebook, roles.to - roles.from).map((panel) => ({
      season,
      panel,
      hits: goeHits(rows, table, roles, season, panel),
    })),
  );
  const most = Math.max(0, ...tried.map((one) => one.hits));
  const first = tried.find((one) => one.hits === most);
  return {
    width: table[0]?.length ?? 0,
    ...roles,
    seasons: tried
      .filter((one) => one.hits === most && one.panel.trimFrom === first?.panel.trimFrom)
      .map((one) => one.season),
    panel: first?.panel ?? null,
    byRule: first?.panel === first?.season.rulebook.values.panel,
    closed: { sum, base: fitting.hits, goe: most, rows: table.length },
  };
}

interface Fitting {
  readonly seasons: readonly Season[];
  readonly hits: number;
}

/** Seasons whose values give most of the printed base values; all of them where there is no base column. */
function bestSeasons(rows: readonly Row[], table: Table, base: number | null, seasons: readonly Season[]): Fitting {
  if (base === null) return { seasons, hits: 0 };
  let best: Season[] = [];
  let hits = 0;
  for (const season of seasons) {
    const here = baseHits(rows, table, base, season);
    if (here > hits) best = [];
    if (here >= hits) best.push(season);
    hits = Math.max(hits, here);
  }
  return { seasons: best, hits };
}

const baseHits = (rows: readonly Row[], table: Table, base: number | null, season: Season): number =>
  rows.filter((row, r) => fittingValuation(season, row, valueAt(table[r] ?? [], base)) !== null).length;

function goeHits(rows: readonly Row[], table: Table, roles: Roster, season: Season, panel: PanelRule): number {
  if (roles.goe === null || roles.from === roles.to) return 0;
  const established = season.rulebook.values.averagingEstablished;
  return rows.filter((row, r) => {
    const entries = table[r] ?? [];
    const base = valueAt(entries, roles.base);
    const [first] = valuations(season, row);
    const reading = fittingValuation(season, row, base) ?? first;
    if (reading?.hasValue !== true) return false;
    const verdict = goeVerdict(
      reading.row,
      marksOf(entries, roles),
      valueAt(entries, roles.goe),
      panel,
      established,
    ).verdict;
    return verdict === 'exact' || verdict === 'method';
  }).length;
}

/** Whole grades of the judges' columns; a printed figure that is no whole grade counts as none here. */
export const marksOf = (
  entries: readonly (Entry | null)[],
  { from, to }: { from: number; to: number },
): (number | null)[] =>
  entries.slice(from, to).map((entry) => (entry?.value == null || entry.value % 100 !== 0 ? null : entry.value / 100));

/** Runs of columns that can be the judges': within each longest run, itself and without one or two at its ends. */
function panels(table: Table, roles: Roles, judges: number | null): { from: number; to: number }[] {
  const taken = new Set([roles.no, roles.base, roles.goe, roles.score]);
  const width = table[0]?.length ?? 0;
  const runs: { from: number; to: number }[] = [];
  for (let from = 0; from < width; from++) {
    if (taken.has(from) || !isMarkColumn(table, from)) continue;
    let to = from;
    while (to < width && !taken.has(to) && isMarkColumn(table, to)) to++;
    for (const [left, right] of TRIMS) {
      if (to - right - (from + left) >= 1 && to - right - (from + left) <= MAX_JUDGES)
        runs.push({ from: from + left, to: to - right });
    }
    from = to;
  }
  const fitting = judges === null ? [] : runs.filter((run) => run.to - run.from === judges);
  const kept = fitting.length > 0 ? fitting : runs;
  return kept.length > 0 ? kept : [{ from: 0, to: 0 }];
}

// At most one column at each end is something else: a referee, an undetected number.
const TRIMS = [
  [0, 0],
  [0, 1],
  [1, 0],
] as const;

/** Nearly all cells are whole grades or signs for a missing one. */
function isMarkColumn(table: Table, c: number): boolean {
  const fits = table.filter((row) => {
    const entry = row[c];
    const value = entry?.value ?? null;
    return value === null || (value % 100 === 0 && Math.abs(value) <= MAX_MARK);
  }).length;
  return fits >= 0.75 * table.length;
}

/** A sheet without one of base, goe, score: each column that is there is found by what it must equal. */
function partialPlans(
  rows: readonly Row[],
  table: Table,
  width: number,
  no: number | null,
  seasons: readonly Season[],
  judges: number | null,
): ElementPlan[] {
  const open = Array.from({ length: width }, (_, c) => c).filter((c) => c !== no && isPointy(table, c));
  const none = { no, base: null, goe: null, score: null };
  const base = best(open, (c) => bestSeasons(rows, table, c, seasons).hits, 0.5 * table.length);
  const rest = open.filter((c) => c !== base);
  const plans: ElementPlan[] = [];
  for (const goe of [null, ...rest]) {
    const score = rest.filter((c) => c !== goe).at(-1) ?? null;
    plans.push(...plansFor(rows, table, { ...none, base, goe, score }, seasons, judges));
  }
  const most = Math.max(0, ...plans.map((plan) => plan.closed.goe));
  return plans.filter((plan) => plan.closed.goe === most && (plan.goe === null) === (most === 0));
}

function best(columns: readonly number[], hits: (c: number) => number, least: number): number | null {
  let found: number | null = null;
  let most = least;
  for (const c of columns) {
    const here = hits(c);
    if (here > most) [found, most] = [c, here];
  }
  return found;
}
