import { CAUSES, CAUSE_NAMES } from './causes.ts';
import { entryDetail } from './entry-words.ts';
import { letterLines } from './letter-words.ts';
import { capital } from './spoken.ts';
import { noteOf } from './skater-words.ts';
import { amount, dateInWords, points, signed } from './numbers.ts';
import { hanging, padEnd, padStart, seen, wrap, type Ink } from './text.ts';
import type { Advice, LedgerEntry, Reading, ReadingFinding } from './types.ts';

/** Suggestions and findings beyond these are in the JSON answer. */
const MOST_ADVICE = 6;
const MOST_FINDINGS = 12;
const POINTS_WIDTH = 8;

/** The coach's reading: sentence, sheet, what came on top, what is missing by cause, letters, training. */
export function printCoach(reading: Reading, width: number, ink: Ink): string[] {
  const sections = [
    headLines(reading, width, ink),
    sheetLines(reading, width, ink),
    sideLines(reading, width, ink, 'won'),
    sideLines(reading, width, ink, 'lost'),
    wrap('Judges do not publish reasons for a grade.', width),
    letters(reading, width, ink),
    training(reading, width, ink),
    listSection('Questions for the panel’s critique', reading.questions, width, ink),
    fieldSection(reading, width, ink),
    assumptions(reading, width, ink),
    release(width),
  ];
  return sections
    .filter((section) => section.length > 0)
    .flatMap((section, i) => (i === 0 ? section : ['', ...section]));
}

const sum = (entries: readonly LedgerEntry[]): number => entries.reduce((total, one) => total + one.points, 0);
const wonOf = (reading: Reading) => reading.ledger.filter((entry) => entry.points > 0);
const lostOf = (reading: Reading) => reading.ledger.filter((entry) => entry.points <= 0);

function headLines(reading: Reading, width: number, ink: Ink): string[] {
  const { head } = reading;
  const program = head.segment === 'free' ? 'free skate' : 'short program';
  const title = [head.skater ?? reading.id ?? 'Protocol', program, head.competition].filter((one) => one !== null);
  const facts = [
    head.date === null ? null : dateInWords(head.date),
    head.category,
    head.season,
    head.judges > 0 ? `${head.judges} judges` : null,
  ];
  const awarded = points(reading.awarded.total);
  return [
    ...wrap(title.join(', '), width).map(ink.strong),
    ...wrap(facts.filter((one) => one !== null).join(' · '), width).map(ink.quiet),
    '',
    `${ink.strong(awarded)} awarded`,
    ...(reading.findings.some((one) => one.kind === 'calculation') ? [] : ['═'.repeat(seen(awarded))]),
    ...wrap(compared(reading), width),
  ];
}

function compared(reading: Reading): string {
  const reference = points(reading.reference.total);
  const sides = `${amount(sum(wonOf(reading)))} came on top, ${amount(sum(lostOf(reading)))}`;
  switch (reading.reference.kind) {
    case 'layout':
      return `The planned layout, with its planned levels and grades (where it has none, the usual of earlier programs), comes to ${reference}. The difference is ${signed(reading.difference)}: ${sides} is missing.`;
    case 'usual':
      return `The same elements at their usual levels and grades, from earlier programs, come to ${reference}. The difference is ${signed(reading.difference)}: ${sides} is missing.`;
    case 'clean':
      return `The same elements as attempted, without calls, at the category’s highest levels and grade 0, come to ${reference}. ${sides} is room to grow.`;
  }
}

function sheetLines(reading: Reading, width: number, ink: Ink): string[] {
  const { findings, checked } = reading;
  if (findings.length === 0 && checked === 0)
    return wrap('The sheet prints no figures to compare.', width).map(ink.quiet);
  if (findings.length === 0)
    return wrap(
      `The sheet: all ${checked} printed figures agree with the recomputed ones; no input slip found.`,
      width,
    ).map(ink.quiet);
  const own = findings.filter((one) => one.follows === undefined);
  const shown = own.slice(0, MOST_FINDINGS).flatMap((one) => findingLines(one, reading, width));
  const rest = own.length - MOST_FINDINGS;
  return [
    ink.strong('The sheet'),
    ...shown,
    ...(rest > 0 ? [`  … and ${rest} more (--json lists all).`] : []),
    ...(findings.some((one) => one.kind === 'calculation') ? hanging('  ', HOW_TO_ASK, width) : []),
  ];
}

const HOW_TO_ASK =
  'Please ask the referee to check these figures, as soon as possible, politely. Calls, levels and grades stand and cannot be protested. Your event’s announcement and your federation’s current rulebook decide who may ask, how, by when and for what fee.';

const KINDS: Readonly<Record<ReadingFinding['kind'], string>> = {
  calculation: 'figures do not agree',
  method: 'method not certain',
  slip: 'possible input slip',
  rule: 'rule',
  unreadable: 'not readable',
  letters: 'letters',
};

/** What only adds another wrong figure is told with that one. */
function findingLines(finding: ReadingFinding, reading: Reading, width: number): string[] {
  const index = /^elements\[(\d+)\]/.exec(finding.at)?.[1];
  const note = index === undefined ? undefined : reading.program.find((one) => one.index === Number(index));
  const after = reading.findings.filter((one) => one.follows === finding.at).map((one) => one.at);
  const follows = after.length === 0 ? '' : ` It goes on into ${after.join(', ')}.`;
  const place = note === undefined ? finding.at : `no. ${note.no ?? ''}, ${note.called}`;
  return hanging('  – ', `${capital(KINDS[finding.kind])}, ${place}: ${finding.message}${follows}`, width);
}

/** One side of the account, cause by cause in the fixed order, each with its sum. */
function sideLines(reading: Reading, width: number, ink: Ink, side: 'won' | 'lost'): string[] {
  const entries = side === 'won' ? wonOf(reading) : lostOf(reading);
  if (entries.length === 0) return side === 'won' ? ['What came on top: nothing beyond the reference today.'] : [];
  const missing = reading.reference.kind === 'clean' ? 'Room to grow, by cause' : 'What is missing, by cause';
  const title = side === 'won' ? 'What came on top' : missing;
  const tint = ink[side];
  return [
    twoEnds(ink.strong(title), tint(signed(sum(entries))), width),
    ...CAUSES.flatMap((cause) => {
      const own = entries.filter((entry) => entry.cause === cause);
      if (own.length === 0) return [];
      const head = twoEnds(`  ${CAUSE_NAMES[cause]}`, tint(signed(sum(own))), width);
      return [head, ...own.flatMap((entry) => entryLines(entry, reading, width, tint))];
    }),
  ];
}

const twoEnds = (left: string, right: string, width: number): string =>
  `${padEnd(left, width - seen(right) - 1)} ${right}`;

function entryLines(entry: LedgerEntry, reading: Reading, width: number, tint: (text: string) => string): string[] {
  const no = entry.no === null ? '' : String(entry.no);
  const name =
    entry.element === null ? 'whole program' : (noteOf(entry.evidence, reading.program)?.called ?? entry.element);
  const figure = padStart(signed(entry.points), POINTS_WIDTH);
  const lead = `  ${padStart(no, 4)}  ${padEnd(name, 16)} `;
  return hanging(`${lead}${tint(figure)}  `, entryDetail(entry, reading), width);
}

function letters(reading: Reading, width: number, ink: Ink): string[] {
  const told = reading.feedback.flatMap((entry) => letterLines(entry, width));
  return told.length === 0 ? [] : [ink.strong('What the letters say'), ...told];
}

function training(reading: Reading, width: number, ink: Ink): string[] {
  const { advice } = reading;
  if (advice.length === 0) return [];
  const beside = [...new Set(advice.flatMap((one) => one.beside))];
  const rest = advice.length - MOST_ADVICE;
  return [
    ink.strong('What to train, by what repairing it alone would bring'),
    ...advice.slice(0, MOST_ADVICE).flatMap((one) => adviceLines(one, width, ink)),
    ...(rest > 0 ? [`  … and ${rest} more of less weight (--json lists all).`] : []),
    ...wrap('Each number is what repairing that one alone would bring. They do not add up.', width),
    ...beside.flatMap((text) => wrap(text, width)),
  ];
}

function adviceLines(advice: Advice, width: number, ink: Ink): string[] {
  const lead = padStart(signed(advice.points), POINTS_WIDTH + 1);
  const indent = ' '.repeat(seen(lead) + 2);
  const where = advice.no === null ? '' : `${advice.no}: `;
  const least = advice.atLeast ? 'At least. ' : '';
  return [
    ...hanging(`${ink.won(lead)}  `, `${where}${least}${advice.text}`, width),
    ...hanging(indent, `Rule: ${advice.rule}${published(advice)}`, width).map(ink.quiet),
  ];
}

/** Published sources stand beside the rule; the rest is told by its mark, and in full by --json. */
function published({ sources }: Advice): string {
  const read = sources.filter((one) => one.status === 'published').map((one) => one.source);
  return read.length === 0 ? '' : ` (${[...new Set(read)].join('; ')})`;
}

const listSection = (title: string, items: readonly string[], width: number, ink: Ink): string[] =>
  items.length === 0 ? [] : [ink.strong(title), ...items.flatMap((item) => hanging('  – ', item, width))];

function fieldSection(reading: Reading, width: number, ink: Ink): string[] {
  const lines = reading.field.map((line) => line.text);
  if (lines.length === 0) return reading.spread === '' ? [] : wrap(reading.spread, width);
  return [...listSection('In this field, anonymous', lines, width, ink), ...wrap(reading.spread, width)];
}

function assumptions(reading: Reading, width: number, ink: Ink): string[] {
  const read = `Read with ${reading.head.rulebook}.`;
  const marks =
    'Marks: ᵐ from memory or common practice · ᵖ provisional · ʸ your own entry; none: published and read, or printed on the sheet. Every source in full: --json.';
  return [
    ...listSection('How it was read', [read, ...reading.warnings], width, ink),
    ...wrap(marks, width).map(ink.quiet),
  ];
}

const release = (width: number): string[] =>
  wrap(
    'For you alone: nothing goes to skater or family until you release it. Suggested: at the next lesson. The skater’s page: --for skater.',
    width,
  );
