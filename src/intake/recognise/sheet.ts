import type { PanelRule, ProtocolForm } from '../../scoring/index.ts';
import type { Line } from './cell.ts';
import { judgeComponents, readComponents, sumOf, type ComponentBlock } from './component-block.ts';
import type { ComponentHints, ComponentPlan } from './component-plan.ts';
import { namedSeason, settleContext } from './context.ts';
import { readElements, type ElementBlock } from './element-block.ts';
import { judgeElements } from './element-verdict.ts';
import type { ElementPlan, Plans } from './element-plan.ts';
import { toPoints } from './figure.ts';
import { isColumnHeader, textOf, type Heading } from './heading.ts';
import { gapsOf } from './gaps.ts';
import { isNumbersOnly } from './row.ts';
import { judgeLoneLetters, lettersOf } from './letters.ts';
import { readPerson } from './person.ts';
import { fromPicture, judgeComponentsPicture, judgeElementsPicture, judgePersonPicture } from './picture.ts';
import type { Given, SheetReading } from './reading.ts';
import type { Season } from './rules-fit.ts';
import type { SheetLines } from './sheet-lines.ts';
import { claimsOf, headLabels, solveTotals, type Totals } from './totals.ts';
import { judgeTotals } from './totals-verdict.ts';
import { confidenceOf, doubt, newVerdict, type Verdict } from './verdict.ts';

export type { SheetLines } from './sheet-lines.ts';

/** What one sheet of a file tells about the next. */
export interface Memory {
  seasons: readonly Season[] | null;
  /** Plans that explained the sheet before in full: tried first. */
  elements: ElementPlan | null;
  components: ComponentPlan | null;
}

const USUAL_PANELS: readonly PanelRule[] = [
  { trimFrom: 5, drop: 1 },
  { trimFrom: Infinity, drop: 1 },
  { trimFrom: 3, drop: 1 },
];

/**
 * A row of totals that was wrapped: the numbers that follow on the next line are put back where the
 * column heads above count as many totals as both lines have together.
 */
function unwrapped(head: readonly Line[]): readonly Line[] {
  const points = (line: Line | undefined): number =>
    line?.cells.filter((cell) => (cell.figure?.decimals ?? 0) > 0).length ?? 0;
  let named = 0;
  const lines: Line[] = [];
  for (let i = 0; i < head.length; i++) {
    const [line, next] = [head[i], head[i + 1]];
    if (line === undefined) continue;
    if (isColumnHeader(line)) named = headLabels(textOf(line)).length;
    const wraps =
      next !== undefined &&
      isNumbersOnly(next) &&
      named >= 2 &&
      points(line) < named &&
      points(line) + points(next) === named;
    lines.push(wraps ? { ...line, cells: [...line.cells, ...next.cells] } : line);
    if (wraps) i++;
  }
  return lines;
}

/** Reads one skater's sheet: tables, totals, person, context, and what of it is held by equations. */
export function readSheetLines(
  printed: SheetLines,
  heading: Heading,
  given: Given,
  seasons: readonly Season[],
  memory: Memory,
): SheetReading {
  const verdict = newVerdict();
  const lines = { ...printed, head: unwrapped(printed.head) };
  const others = lines.items.filter((item) => item.kind === 'other').map((item) => item.line);
  const outside = [...lines.head, ...others];
  const outsideFigures = new Set(
    claimsOf(outside)
      .filter((claim) => claim.decimals > 0)
      .map((claim) => claim.value),
  );
  const hints = {
    panels: USUAL_PANELS,
    judges: null,
    scoreRight: null,
    isPrinted: (sum: number) => outsideFigures.has(sum),
  };
  const first = readComponents(componentLines(lines), hints, memory.components);
  const held =
    first.plan !== null &&
    first.plan.closed > 0 &&
    first.plan.closed >= first.rows.length - 1 &&
    first.rivals.length === 0;
  const judges = held ? first.plan.to - first.plan.from : null;
  const elements = readElements(elementLines(lines), seasonChoice(given, heading, seasons, memory), {
    judges,
    headed: headedJudges(lines),
    before: memory.elements,
  });
  const components = sameJudges(elements, first, lines, hints);
  const factor = components.rows[0]?.factor ?? null;
  remember(memory, elements, components);
  const context = settleContext(
    given,
    heading,
    elements.plan,
    { factor, codes: elements.rows.map(({ row }) => row.codeText) },
    verdict,
  );
  const ruleFactor = factor ?? factorByRules(elements.plan?.seasons[0] ?? null, context.fields);
  const componentSum = components.sum ?? sumOf(components.rows, ruleFactor);
  const used = new Set(elements.rows.flatMap(({ row }) => row.used));
  const totals = solveTotals(
    outside.filter((line) => !used.has(line)),
    { elements: elements.sum, components: componentSum, bases: sumOfBases(elements) },
  );
  const elementForms = judgeElements(withLetters(elements, others), totals.tes?.value ?? null, verdict);
  const componentForms = judgeComponents(
    components,
    totals.pcs === null || componentSum === null ? null : totals.pcs.value === componentSum,
    verdict,
  );
  judgeRivals(elements, verdict);
  judgeLoneLetters(
    elements,
    lines.items.map((item) => item.line),
    verdict,
  );
  judgeTotals(totals, { elements: elements.sum, components: componentSum }, verdict);
  const isPicture = fromPicture([...lines.head, ...lines.items.map((item) => item.line)]);
  const gaps = gapsOf(elements, components, totals, { lines, isPicture }, verdict);
  const person = readPerson(lines.head, totalsSet(totals));
  judgePerson(person, verdict);
  if (isPicture) {
    const inTables = lines.items.map((item) => item.line);
    judgeElementsPicture(elements, totals.tes?.value ?? null, inTables, verdict);
    judgeComponentsPicture(components, totals.pcs !== null && totals.pcs.value === componentSum, verdict);
    judgePersonPicture(person, outside, verdict);
  }
  const protocol: ProtocolForm = {
    ...context.fields,
    ...(person.skater === null ? {} : { skater: person.skater }),
    ...(person.rank === null ? {} : { rank: person.rank }),
    ...(person.startNumber === null ? {} : { startNumber: person.startNumber }),
    ...withoutUnusedJudges(elementForms, componentForms),
    ...totalsForm(totals),
  };
  return {
    protocol,
    doubts: verdict.doubts,
    confidence: confidenceOf(verdict),
    evidence: [...context.evidence, ...gaps.evidence],
    problems: [...gaps.problems],
    from: (lines.head[0] ?? lines.items[0]?.line)?.at ?? '',
  };
}

function sumOfBases({ rows }: ElementBlock): number | null {
  const bases = rows.flatMap(({ base }) => (base === null ? [] : [base]));
  return bases.length < rows.length || rows.length === 0 ? null : bases.reduce((a, b) => a + b, 0);
}

/** How many columns J1, J2 … a row of column heads counts; null without such a row. */
function headedJudges(lines: SheetLines): number | null {
  const all = [...lines.head, ...lines.items.map((item) => item.line)];
  const counts = all.map((line) => line.cells.filter((cell) => JUDGE.test(cell.text)).length);
  const most = Math.max(0, ...counts);
  return most >= 3 ? most : null;
}

const JUDGE = /^(?:j|p|r|t|judge|juge)\.?\d{1,2}$/iu;

const componentLines = (lines: SheetLines): Line[] =>
  lines.items.filter((item) => item.kind === 'component').map((item) => item.line);

/** From the first element line up to the components: element lines and what stands among and under them. */
function elementLines(lines: SheetLines): { line: Line; element: boolean }[] {
  const first = lines.items.findIndex((item) => item.kind === 'element');
  if (first < 0) return [];
  const found: { line: Line; element: boolean }[] = [];
  for (const item of lines.items.slice(first)) {
    if (item.kind === 'component') continue;
    found.push({ line: item.line, element: item.kind === 'element' });
  }
  return found;
}

/** Tries the season that is named, or those of the sheet before; all of them only where these do not fit. */
function seasonChoice(given: Given, heading: Heading, seasons: readonly Season[], memory: Memory) {
  const named = namedSeason(given, heading);
  const likely = named === null ? memory.seasons : seasons.filter((one) => one.rulebook.season === named);
  return (plan: (seasons: readonly Season[]) => Plans | null): Plans | null => {
    const first = likely === null || likely.length === 0 ? null : plan(likely);
    if (first !== null && first.best.closed.base >= (named === null ? 1 : 0.7) * first.best.closed.rows) return first;
    const all = plan(seasons);
    return first !== null && all !== null && first.best.closed.base >= all.best.closed.base - 1 && named !== null
      ? first
      : all;
  };
}

/** The panel of the elements decides where the components alone left it open. */
function sameJudges(
  elements: ElementBlock,
  first: ComponentBlock,
  lines: SheetLines,
  hints: ComponentHints,
): ComponentBlock {
  const judges = elements.plan === null ? 0 : elements.plan.to - elements.plan.from;
  const open = first.plan === null || first.plan.closed < first.rows.length || first.rivals.length > 0;
  const panel = elements.plan?.panel;
  const panels = panel == null ? USUAL_PANELS : [panel, ...USUAL_PANELS];
  const scoreRight = scoreSide(elements);
  return judges > 0 && open ? readComponents(componentLines(lines), { ...hints, panels, judges, scoreRight }) : first;
}

/** Is the score of the elements right of the judges? null where arrangements that close disagree. */
function scoreSide({ plan, rivals }: ElementBlock): boolean | null {
  const sides = [...(plan === null ? [] : [plan]), ...rivals].map(({ score, to }) => score !== null && score >= to);
  const [side] = sides;
  return side === undefined || plan?.score === null || sides.includes(!side) ? null : side;
}

function remember(memory: Memory, elements: ElementBlock, components: ComponentBlock): void {
  const { plan } = elements;
  const isHeld = plan !== null && plan.closed.base >= 0.9 * plan.closed.rows;
  if (isHeld) memory.seasons = plan.seasons;
  memory.elements = isHeld && elements.rivals.length === 0 ? plan : null;
  memory.components =
    components.rivals.length === 0 && components.plan?.closed === components.rows.length ? components.plan : null;
}

function factorByRules(season: Season | null, fields: { category?: unknown; segment?: unknown }): number | null {
  const { category, segment } = fields;
  const known = season?.rulebook.categories.find((one) => one === category);
  return season === null || known === undefined || (segment !== 'short' && segment !== 'free')
    ? null
    : season.rulebook.components(known, segment).factor;
}

function withLetters(elements: ElementBlock, others: readonly Line[]): ElementBlock {
  const letters = lettersOf(elements.rows, others);
  if (letters.size === 0) return elements;
  return {
    ...elements,
    rows: elements.rows.map((read, i) => ({
      ...read,
      row: { ...read.row, feedback: read.row.feedback ?? letters.get(i) ?? null },
    })),
  };
}

/** Another arrangement of the columns closes as well: every figure that it reads differently is in doubt. */
function judgeRivals({ rows, rivals }: ElementBlock, verdict: Verdict): void {
  for (const rival of rivals.slice(0, 4)) {
    rows.forEach((read, i) => {
      const marks = (read.entries ?? [])
        .slice(rival.from, rival.to)
        .map((entry) => (entry?.value == null ? null : entry.value / 100));
      if (JSON.stringify(marks) !== JSON.stringify(read.marks)) {
        doubt(
          verdict,
          `elements[${i}].marks`,
          read.marks,
          [marks],
          'Another choice of the judges’ columns closes as well.',
        );
      }
      for (const name of ['base', 'goe', 'score'] as const) {
        const c = rival[name];
        const other = c === null ? null : (read.entries?.[c]?.value ?? null);
        if (other !== read[name] && other !== null && read[name] !== null) {
          doubt(
            verdict,
            `elements[${i}].${name}`,
            toPoints(read[name]),
            [toPoints(other)],
            'Another order of the columns closes as well.',
          );
        }
      }
    });
  }
}

function judgePerson(person: ReturnType<typeof readPerson>, verdict: Verdict): void {
  verdict.figures += 3;
  for (const name of person.doubts) {
    const why =
      name === 'skater'
        ? 'No label or column says that this is the name.'
        : 'No label or column says which number this is.';
    const other = name === 'rank' ? person.startNumber : name === 'startNumber' ? person.rank : null;
    doubt(verdict, name, person[name], other === null ? [] : [other], why);
  }
  if (person.startNumber === 0) doubt(verdict, 'startNumber', 0, [], 'Start numbers begin at 1.');
}

const totalsSet = (totals: Totals): ReadonlySet<number> =>
  new Set([totals.tes, totals.pcs, totals.total].flatMap((one) => (one === null ? [] : [one.value])));

/** Judges' columns at the end that no judge used are no part of the panel. */
function withoutUnusedJudges(
  elements: ProtocolForm['elements'],
  components: NonNullable<ProtocolForm['components']>,
): Pick<ProtocolForm, 'elements' | 'components'> {
  const lists = [...elements, ...components].map((one) => one.marks ?? []);
  const used = Math.max(0, ...lists.map((marks) => marks.findLastIndex((mark) => mark !== null) + 1));
  const cut = <T extends { marks?: (number | null)[] | null | undefined }>(one: T): T => ({
    ...one,
    marks: (one.marks ?? []).slice(0, used),
  });
  return { elements: elements.map(cut), components: components.map(cut) };
}

function totalsForm(totals: Totals): Pick<ProtocolForm, 'deductions' | 'bonus' | 'tes' | 'pcs' | 'total'> {
  const { deductions } = totals;
  const items = deductions?.items?.map((item) => ({
    reason: item.reason,
    ...(item.count === null ? {} : { count: item.count }),
    points: toPoints(item.points),
  }));
  return {
    ...(deductions === null ? {} : { deductions: items ?? toPoints(deductions.value) }),
    ...(totals.bonus === null ? {} : { bonus: toPoints(totals.bonus) }),
    ...(totals.tes === null ? {} : { tes: toPoints(totals.tes.value) }),
    ...(totals.pcs === null ? {} : { pcs: toPoints(totals.pcs.value) }),
    ...(totals.total === null ? {} : { total: toPoints(totals.total.value) }),
  };
}
