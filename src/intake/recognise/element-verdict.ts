import { formatElement, parseCode, type ParsedCode } from '../../notation/index.ts';
import type { ProtocolForm } from '../../scoring/index.ts';
import type { ElementBlock, ReadRow } from './element-block.ts';
import type { ElementPlan } from './element-plan.ts';
import { pointsText, toPoints } from './figure.ts';
import { fittingValuation, goeVerdict, valuations, type Season, type Valuation } from './rules-fit.ts';
import { commonest } from './table.ts';
import { doubt, tested, type Verdict } from './verdict.ts';

type ElementForm = ProtocolForm['elements'][number];

/** With fewer rows, columns can close by accident. */
const FEWEST_ROWS = 3;

/** Tests a block and writes its elements; `tesCloses`: the printed element score is the sum of the scores. */
export function judgeElements(block: ElementBlock, tes: number | null, verdict: Verdict): ElementForm[] {
  const { plan } = block;
  const season = plan?.seasons[0] ?? null;
  const tesCloses = tes !== null && tes === block.sum;
  const valuesKnown = plan !== null && plan.closed.base >= 0.5 * plan.closed.rows;
  const style = printStyle(block);
  const active = new Set(block.rows.flatMap(({ marks }) => marks.flatMap((mark, j) => (mark === null ? [] : [j]))));
  const grades: boolean[] = [];
  const elements = block.rows.map((read, i) => {
    const at = `elements[${i}]`;
    if (block.rows.length < FEWEST_ROWS)
      doubt(verdict, at, read.row.codeText, [], 'Too few rows to be sure of the columns.');
    judgeCode(read, at, verdict);
    if (read.entries === null) judgeUnfit(read, at, plan, verdict);
    const half = judgeRow(
      read,
      at,
      { plan, season: valuesKnown ? season : null, tes, tesCloses, sum: block.sum, active, grades },
      verdict,
    );
    judgeNumber(block, i, verdict);
    judgePrint(read, at, plan, season, style, verdict);
    return elementForm({ ...read, half });
  });
  const off = grades.filter((one) => !one).length;
  // Where so many rows do not close, those that do may close by accident; a way to average that the
  // rules do not know is believed only where every row closes with it.
  if (plan?.byRule === false ? off > 0 : off >= Math.max(FEWEST_OFF, OFF * grades.length)) {
    block.rows.forEach((read, i) => doubt(verdict, `elements[${i}].marks`, read.marks, [], LOOSE));
  }
  return elements;
}

const FEWEST_OFF = 3;
const OFF = 0.25;
const LOOSE =
  'In several rows the marks do not give the printed grade: a column may be missing, or another way to average was used.';

function judgeCode({ row }: ReadRow, at: string, verdict: Verdict): void {
  verdict.figures++;
  if (row.code !== null) return;
  const parsed = parseCode(row.codeText);
  const why = parsed.ok
    ? 'The code cannot be read.'
    : `Code, ${parsed.error.at}: ${parsed.error.expected} was expected. ${parsed.error.advice}`;
  doubt(verdict, `${at}.code`, row.codeText, [], why);
}

function judgeUnfit({ row }: ReadRow, at: string, plan: ElementPlan | null, verdict: Verdict): void {
  const printed = row.entries.map((entry) => entry.cell.text).join(' ');
  const why =
    plan === null
      ? `No arrangement of the columns makes the figures of this block agree (${row.at}).`
      : `${row.entries.length} figures where full rows have ${plan.width} (${row.at}): which one is missing or too many is not clear.`;
  doubt(verdict, at, printed, [], why);
}

interface Context {
  readonly plan: ElementPlan | null;
  readonly season: Season | null;
  readonly tes: number | null;
  readonly tesCloses: boolean;
  readonly sum: number | null;
  /** Judges who have a mark in some row. */
  readonly active: ReadonlySet<number>;
  /** Whether the marks gave the grade, for each row in which that could be tested. */
  readonly grades: boolean[];
}

/** base + goe = score, base by the rules, goe by the marks. Returns the half mark as best read. */
function judgeRow(read: ReadRow, at: string, context: Context, verdict: Verdict): boolean {
  const { base, goe, score } = read;
  const reading = context.season === null ? null : fittingValuation(context.season, read.row, base);
  const printed = context.season === null ? null : (valuations(context.season, read.row)[0] ?? null);
  const sumCloses = base === null || goe === null || score === null ? null : tested(verdict, base + goe === score);
  const baseCloses = base === null || printed?.base == null ? null : tested(verdict, reading !== null);
  const goeTest = goeOf(read, context, reading ?? printed);
  const goeCloses = goeTest === null ? null : tested(verdict, goeTest.closes);
  if (goeCloses !== null) context.grades.push(goeCloses);
  verdict.figures += [base, goe, score].filter((one) => one !== null).length + read.marks.length;
  if (sumCloses === false)
    judgeSum(
      read,
      at,
      { baseCloses, goeCloses, reading, printed, expected: goeTest?.expected ?? null, context },
      verdict,
    );
  if (baseCloses === false && printed !== null) judgeBase(read, at, printed, context, sumCloses, verdict);
  if (goeCloses === false) judgeGoe(read, at, goeTest?.expected ?? null, context, sumCloses, verdict);
  if (sumCloses !== true && baseCloses !== true && goeCloses !== true && read.entries !== null) {
    doubt(
      verdict,
      at,
      read.row.entries.map((entry) => entry.cell.text).join(' '),
      [],
      `Nothing on the sheet holds the figures of this row (${read.row.at}).`,
    );
  }
  judgeMissing(read, at, context.plan, verdict);
  if (goeCloses === true) judgeEmptyMark(read, at, context, reading ?? printed, verdict);
  if (reading?.halfAssumed !== true) return read.row.half;
  const sign = read.row.half
    ? 'The base value is the one without the second-half factor.'
    : 'No sign for the second half was read, but the base value has its factor in it.';
  doubt(verdict, `${at}.half`, read.row.half, [reading.half], sign);
  return reading.half;
}

function goeOf(
  read: ReadRow,
  context: Context,
  reading: Valuation | null,
): { closes: boolean; expected: number | null } | null {
  const { plan, season } = context;
  if (plan?.panel == null || season === null || reading?.hasValue !== true || plan.from === plan.to) return null;
  const established = season.rulebook.values.averagingEstablished;
  const { verdict, expected } = goeVerdict(reading.row, read.marks, read.goe, plan.panel, established);
  return verdict === 'unknown' ? null : { closes: verdict !== 'off', expected };
}

interface SumState {
  readonly baseCloses: boolean | null;
  readonly goeCloses: boolean | null;
  readonly reading: Valuation | null;
  readonly printed: Valuation | null;
  readonly expected: number | null;
  readonly context: Context;
}

/** base + goe is not the score: what the other equations hold is kept, the rest is in doubt. */
function judgeSum(read: ReadRow, at: string, state: SumState, verdict: Verdict): void {
  const base = read.base ?? 0;
  const goe = read.goe ?? 0;
  const score = read.score ?? 0;
  const why = `${pointsText(base)} + ${pointsText(goe)} is not ${pointsText(score)}.`;
  const { sum, tes } = state.context;
  const closing = sum !== null && tes !== null ? [tes - sum + score] : [];
  const values = (list: readonly (number | null)[]): number[] =>
    list.flatMap((one) => (one === null ? [] : [toPoints(one)]));
  const suspect = {
    base: state.baseCloses !== true,
    goe: state.goeCloses !== true,
    score: !state.context.tesCloses,
  };
  const all = !suspect.base && !suspect.goe && !suspect.score;
  if (suspect.base || all)
    doubt(verdict, `${at}.base`, toPoints(base), values([state.printed?.base ?? null, score - goe]), why);
  if (suspect.goe || all) doubt(verdict, `${at}.goe`, toPoints(goe), values([state.expected, score - base]), why);
  if (suspect.score || all) doubt(verdict, `${at}.score`, toPoints(score), values([base + goe, ...closing]), why);
}

function judgeBase(
  read: ReadRow,
  at: string,
  printed: Valuation,
  context: Context,
  sumCloses: boolean | null,
  verdict: Verdict,
): void {
  const base = toPoints(read.base ?? 0);
  const rule = printed.base === null ? [] : [toPoints(printed.base)];
  const why = `${formatElement(printed.element)} has ${printed.base === null ? 'another value' : pointsText(printed.base)} in ${context.season?.rulebook.season ?? ''}; ${pointsText(read.base ?? 0)} is printed.`;
  if (sumCloses !== true || !context.tesCloses) doubt(verdict, `${at}.base`, base, rule, why);
  // The figures agree among themselves: then it is the code, or a call, that may be misread.
  if (sumCloses === true) doubt(verdict, `${at}.code`, read.row.codeText, [], why);
}

function judgeGoe(
  read: ReadRow,
  at: string,
  expected: number | null,
  context: Context,
  sumCloses: boolean | null,
  verdict: Verdict,
): void {
  const why = `The marks give ${expected === null ? 'another figure' : pointsText(expected)}; ${pointsText(read.goe ?? 0)} is printed.`;
  doubt(verdict, `${at}.marks`, read.marks, [], why);
  if (sumCloses !== true || !context.tesCloses) {
    doubt(verdict, `${at}.goe`, toPoints(read.goe ?? 0), expected === null ? [] : [toPoints(expected)], why);
  }
}

/**
 * A judge who has marks elsewhere has none here, and some mark in this place would close the row too:
 * then the mark may be lost rather than missing.
 */
function judgeEmptyMark(
  read: ReadRow,
  at: string,
  context: Context,
  reading: Valuation | null,
  verdict: Verdict,
): void {
  const { plan, season } = context;
  if (plan?.panel == null || season === null || reading === null) return;
  const { min, max } = season.rulebook.values.goe;
  read.marks.forEach((mark, j) => {
    if (mark !== null || !context.active.has(j)) return;
    const others = Array.from({ length: max - min + 1 }, (_, k) => min + k).filter(
      (grade) => goeOf({ ...read, marks: read.marks.with(j, grade) }, context, reading)?.closes === true,
    );
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

/** A figure that other rows have and this one lacks. */
function judgeMissing(read: ReadRow, at: string, plan: ElementPlan | null, verdict: Verdict): void {
  if (plan === null || read.entries === null) return;
  if (plan.to > plan.from && (read.base ?? 0) > 0 && read.marks.every((mark) => mark === null)) {
    doubt(verdict, `${at}.marks`, [], [], `No marks were found for an element that has a value (${read.row.at}).`);
  }
  for (const name of ['base', 'goe', 'score'] as const) {
    if (plan[name] === null || read[name] !== null || read.entries[plan[name]] != null) continue;
    doubt(verdict, `${at}.${name}`, null, [], `No figure was found in this column (${read.row.at}).`);
    // Then the other figures may stand in wrong columns too.
    doubt(
      verdict,
      at,
      read.row.entries.map((entry) => entry.cell.text).join(' '),
      [],
      `This row is not complete (${read.row.at}).`,
    );
  }
}

function judgeNumber(block: ElementBlock, i: number, verdict: Verdict): void {
  const here = block.rows[i]?.no ?? null;
  const before = i === 0 ? 0 : (block.rows[i - 1]?.no ?? null);
  if (block.plan?.no == null || before === null) return;
  if (here === before + 1) return;
  const why = `Elements are numbered one after the other; ${here === null ? 'no number' : String(here)} follows ${before}.`;
  doubt(verdict, `elements[${i}].no`, here, [i + 1], why);
  const row = block.rows[i]?.row;
  // Lines that were put together in disorder may have been put together wrongly.
  if (row?.joined === true) doubt(verdict, `elements[${i}]`, row.codeText, [], why);
}

interface PrintStyle {
  /** 2 where nearly all points are printed with two decimals; null: no rule. */
  readonly points: number | null;
  /** Decimals of most grades. */
  readonly marks: number;
}

function printStyle(block: ElementBlock): PrintStyle {
  const { plan } = block;
  if (plan === null) return { points: null, marks: 0 };
  const points = block.rows.flatMap(({ entries }) =>
    [plan.base, plan.goe, plan.score].flatMap((c) => (c === null ? [] : (entries?.[c]?.decimals ?? []))),
  );
  const marks = block.rows.flatMap(({ entries }) =>
    (entries ?? []).slice(plan.from, plan.to).flatMap((entry) => (entry?.value == null ? [] : [entry.decimals])),
  );
  return {
    points: points.filter((one) => one === 2).length >= 0.8 * points.length ? 2 : null,
    marks: commonest(marks),
  };
}

/** Figures printed unlike the others, marks that no judge can give, words read from a picture with little confidence. */
function judgePrint(
  read: ReadRow,
  at: string,
  plan: ElementPlan | null,
  season: Season | null,
  style: PrintStyle,
  verdict: Verdict,
): void {
  if (plan === null || read.entries === null) return;
  for (const name of ['base', 'goe', 'score'] as const) {
    const entry = plan[name] === null ? null : read.entries[plan[name]];
    if (entry?.value != null && (entry.maimed || (style.points !== null && entry.decimals !== style.points))) {
      doubt(
        verdict,
        `${at}.${name}`,
        toPoints(entry.value),
        [],
        `Printed “${entry.cell.text}”, unlike the other figures: a digit may be missing.`,
      );
    }
  }
  const { min, max } = season?.rulebook.values.goe ?? { min: -5, max: 5 };
  read.entries.slice(plan.from, plan.to).forEach((entry, j) => {
    if (entry?.value == null) return;
    const grade = entry.value / 100;
    if (!Number.isInteger(grade) || grade < min || grade > max) {
      doubt(verdict, `${at}.marks[${j}]`, entry.cell.text, [], `A grade is a whole number from ${min} to ${max}.`);
    } else if (entry.maimed || entry.decimals !== style.marks) {
      doubt(verdict, `${at}.marks[${j}]`, entry.cell.text, [], 'Printed unlike the other grades.');
    }
  });
}

/** Codes are shared between rows that print the same: each is written once. */
const written = new WeakMap<ParsedCode, string>();

function canonical(code: ParsedCode): string {
  const before = written.get(code);
  if (before !== undefined) return before;
  const text = formatElement(code.element);
  written.set(code, text);
  return text;
}

function elementForm(read: ReadRow): ElementForm {
  const { row } = read;
  const code = row.code === null ? row.codeText : canonical(row.code);
  const info = [...row.calls, ...(row.fall ? ['F'] : [])].join(' ');
  return {
    ...(read.no === null ? {} : { no: read.no }),
    code,
    ...(info === '' ? {} : { info }),
    ...(row.feedback === null ? {} : { feedback: row.feedback }),
    half: read.half,
    ...(read.base === null ? {} : { base: toPoints(read.base) }),
    ...(read.goe === null ? {} : { goe: toPoints(read.goe) }),
    marks: [...read.marks],
    ...(read.score === null ? {} : { score: toPoints(read.score) }),
  };
}
