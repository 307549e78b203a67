import type { Line } from './cell.ts';
import { marksOf, planElements, strength, type ElementPlan, type Plans } from './element-plan.ts';
import { rowsOf, type Entry, type Row } from './row.ts';
import type { Season } from './rules-fit.ts';
import { commonest, extentsOf, placed, withLinesBelow } from './table.ts';

/** One element with its figures named. */
export interface ReadRow {
  readonly row: Row;
  /** Entries by column; null: the row does not fit the columns. */
  readonly entries: readonly (Entry | null)[] | null;
  readonly no: number | null;
  readonly base: number | null;
  readonly goe: number | null;
  readonly score: number | null;
  readonly marks: readonly (number | null)[];
  readonly half: boolean;
}

export interface ElementBlock {
  readonly rows: readonly ReadRow[];
  readonly plan: ElementPlan | null;
  readonly rivals: readonly ElementPlan[];
  /** Sum of the printed scores; null if one is missing. */
  readonly sum: number | null;
}

/** What is known from the rest of the sheet. */
export interface ElementHints {
  readonly judges: number | null;
  /** The plan of the sheet before. */
  readonly before: ElementPlan | null;
  /** Judges that a row of column heads counts. */
  readonly headed: number | null;
}

/** Reads an element block: rows, columns, and the figures of each row. */
export function readElements(
  lines: readonly { readonly line: Line; readonly element: boolean }[],
  choose: (plan: (seasons: readonly Season[]) => Plans | null) => Plans | null,
  hints: ElementHints,
): ElementBlock {
  const trials = withLinesBelow(rowsOf(lines)).map((rows) => {
    const width = commonest(rows.map((row) => row.entries.length));
    const fullRows = rows.filter((row) => row.entries.length === width);
    const table = fullRows.map((row) => row.entries);
    const places = fullRows.map((row) => rows.indexOf(row));
    return { rows, table, plans: choose((seasons) => planElements({ rows: fullRows, table, places }, seasons, hints)) };
  });
  const closed = (one: (typeof trials)[number]): number => (one.plans === null ? -1 : strength(one.plans.best));
  const best = trials.reduce<(typeof trials)[number] | null>(
    (a, b) => (a === null || closed(b) > closed(a) ? b : a),
    null,
  );
  const { rows, table, plans } = best ?? { rows: [], table: [], plans: null };
  const plan = plans === null ? null : preferred(plans, hints);
  const rivals =
    plans === null || plan === null
      ? []
      : [plans.best, ...plans.rivals].filter((one) => one !== plan && isOpen(one, plan, hints));
  let extents: ReturnType<typeof extentsOf> | undefined;
  const placing: Placing = (entries) => {
    extents ??= extentsOf(table);
    return extents === null ? null : placed(entries, extents);
  };
  const read = rows.map((row) => readRow(row, plan, placing));
  const scores = read.map((one) => one.score);
  const sum =
    plan?.score == null || scores.includes(null) ? null : scores.reduce<number>((total, one) => total + (one ?? 0), 0);
  return { rows: read, plan, rivals, sum: read.length === 0 ? null : sum };
}

const size = (plan: ElementPlan): number => plan.to - plan.from;

/** Among plans that close equally well: the panel of the components, else as many judges as the column heads count. */
function preferred(plans: Plans, hints: ElementHints): ElementPlan {
  const all = [plans.best, ...plans.rivals];
  const judges = hints.judges ?? hints.headed;
  return all.find((plan) => size(plan) === judges) ?? plans.best;
}

const isOpen = (one: ElementPlan, chosen: ElementPlan, hints: ElementHints): boolean =>
  size(chosen) !== (hints.judges ?? hints.headed) || size(one) === size(chosen);

type Placing = (entries: readonly Entry[]) => readonly (Entry | null)[] | null;

function readRow(row: Row, plan: ElementPlan | null, placing: Placing): ReadRow {
  const entries = plan === null ? null : fit(row.entries, plan, placing);
  const at = (c: number | null | undefined): number | null => (c == null ? null : (entries?.[c]?.value ?? null));
  const no = at(plan?.no);
  return {
    row,
    entries,
    no: no === null || no % 100 !== 0 ? null : no / 100,
    base: at(plan?.base),
    goe: at(plan?.goe),
    score: at(plan?.score),
    marks: plan === null || entries === null ? [] : marksOf(entries, plan),
    half: row.half,
  };
}

/** Entries of one row in the columns of the plan. */
function fit(entries: readonly Entry[], plan: ElementPlan, placing: Placing): readonly (Entry | null)[] | null {
  if (entries.length === plan.width) return entries;
  const byPlace = entries.length < plan.width ? placing(entries) : null;
  if (byPlace !== null) return byPlace;
  if (entries.length === plan.width - (plan.to - plan.from)) return withoutMarks(entries, plan);
  if (entries.length === plan.width + 1) return withoutDash(entries, plan);
  return null;
}

/** A row with nothing in the judges' columns: an element without value. */
const withoutMarks = (entries: readonly Entry[], plan: ElementPlan): readonly (Entry | null)[] => [
  ...entries.slice(0, plan.from),
  ...Array.from({ length: plan.to - plan.from }, () => null),
  ...entries.slice(plan.from),
];

/** A dash too many: the sign of an empty info column. The one whose loss lets the row close. */
function withoutDash(entries: readonly Entry[], plan: ElementPlan): readonly (Entry | null)[] | null {
  for (let i = 0; i < entries.length; i++) {
    if (entries[i]?.value !== null) continue;
    const rest = entries.filter((_, j) => j !== i);
    if (closes(rest, plan) !== false) return rest;
  }
  return null;
}

function closes(entries: readonly (Entry | null)[], plan: ElementPlan): boolean | null {
  const at = (c: number | null): number | null => (c === null ? null : (entries[c]?.value ?? null));
  const [base, goe, score] = [at(plan.base), at(plan.goe), at(plan.score)];
  return base === null || goe === null || score === null ? null : base + goe === score;
}
