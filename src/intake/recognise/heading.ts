import { parseSeason, seasonFrom, type AgeGroup, type Segment, type Sex } from '../../notation/index.ts';
import type { Line } from './cell.ts';
import { remembered } from './remembered.ts';
import { AGE_WORDS, COLUMN_WORDS, EVENT_WORDS, LABELS, PAGE_WORDS, SEGMENT_WORDS, SEX_WORDS } from './words.ts';

/** What headings say; each with the words that said it. */
export interface Heading {
  readonly competition?: string;
  readonly date?: string;
  readonly season?: string;
  readonly ageGroup?: AgeGroup;
  readonly sex?: Sex;
  readonly segment?: Segment;
  /** The line that named the season. */
  readonly seasonLine?: string;
  /** What the sheet's own heading does not say, though its line with the season is another than before. */
  readonly carried?: readonly ('ageGroup' | 'sex' | 'segment')[];
  readonly evidence: readonly string[];
}

export const NO_HEADING: Heading = { evidence: [] };

/** Remembers what was found out about a line: several questions are asked of the same one. */
export function perLine<T>(find: (line: Line) => T): (line: Line) => T {
  const known = new WeakMap<Line, { readonly found: T }>();
  return (line) => {
    const before = known.get(line);
    if (before !== undefined) return before.found;
    const found = find(line);
    known.set(line, { found });
    return found;
  };
}

/** The words of a line with one blank between them. */
export const textOf = perLine((line) => line.cells.map((cell) => cell.text).join(' '));

export const hasPoints = (line: Line): boolean =>
  line.cells.some((cell) => cell.figure !== null && cell.figure.decimals > 0);

const LONGEST = 240;

/** A line with the name of a segment: two of age group, sex and segment. */
export const namesSegment = perLine((line) => {
  if (line.cells.length > 20 || hasPoints(line)) return false;
  const { sex, ageGroup, segment } = wordsIn(textOf(line).slice(0, LONGEST));
  return [sex, ageGroup, segment].filter((one) => one !== null).length >= 2;
});

interface HeadingWords {
  readonly sex: Sex | null;
  readonly ageGroup: AgeGroup | null;
  readonly segment: Segment | null;
}

const wordsIn = remembered((text): HeadingWords => ({
  sex: oneOf(SEX_WORDS, text),
  ageGroup: firstOf(AGE_WORDS, text),
  segment: oneOf(SEGMENT_WORDS, text),
}));

/** A line that names columns: several words known as headings, hardly anything else. */
export const isColumnHeader = perLine((line) => {
  if (line.cells.length < 2 || hasPoints(line)) return false;
  const words = line.cells.filter((cell) => cell.kind !== 'figure' && cell.kind !== 'dash');
  const named = words.filter((cell) => COLUMN_WORDS.test(cell.text.replace(/[():]/g, ''))).length;
  return named >= 2 && named >= 0.5 * words.length;
});

/** A line that can only be the title of an event: a word for one, and no figure but a year. */
export const namesEvent = perLine((line) => {
  if (line.cells.length > 12 || line.cells.some((cell) => cell.figure !== null && !isYear(cell.figure.value)))
    return false;
  return EVENT_WORDS.test(textOf(line).slice(0, LONGEST)) && couldName(line, textOf(line)) && !isColumnHeader(line);
});

const isYear = (value: number): boolean => value >= 190_000 && value < 210_000;

/**
 * Adds what the lines above a skater's tables say. The title of another event right above the name of a
 * segment begins anew: nothing of the event before is carried over to it.
 */
export function readHeadings(before: Heading, lines: readonly Line[]): Heading {
  const title = lines.findLast((line, i) => {
    const next = lines[i + 1];
    return next !== undefined && namesSegment(next) && !namesSegment(line) && namesEvent(line);
  });
  const isNew = title !== undefined && before.competition !== undefined && textOf(title) !== before.competition;
  const start: Heading = isNew ? { ...NO_HEADING, competition: textOf(title) } : before;
  return withCarried(lines.reduce(readHeading, start), start, lines);
}

/**
 * Where the line with the season changes its words, the category is expected in them: what it does not
 * say was taken over from the sheet before, perhaps because its word is not known.
 */
function withCarried(after: Heading, before: Heading, lines: readonly Line[]): Heading {
  const isOther = before.seasonLine !== undefined && after.seasonLine !== before.seasonLine;
  const open = isOther ? CATEGORY.filter((name) => before[name] !== undefined) : (before.carried ?? []);
  if (open.length === 0) return after;
  const own = lines.reduce(readHeading, NO_HEADING);
  return { ...after, carried: open.filter((name) => own[name] === undefined) };
}

const CATEGORY = ['ageGroup', 'sex', 'segment'] as const;

/** Adds what one more heading line says. A later heading replaces an earlier one field by field. */
export function readHeading(before: Heading, line: Line): Heading {
  const text = textOf(line).slice(0, LONGEST);
  if (line.cells.length > 40) return before;
  const found: { -readonly [K in keyof Heading]?: Heading[K] } = {};
  const season = YEAR.test(text) ? seasonIn(text) : null;
  if (season !== null) [found.season, found.seasonLine] = [season, text];
  const date = YEAR.test(text) ? dateIn(text) : null;
  if (date !== null) found.date = date;
  if (isColumnHeader(line) && !namesSegment(line)) return merged(before, found, text);
  const { sex, ageGroup, segment } = wordsIn(text);
  if (sex !== null && (ageGroup !== null || segment !== null || before.sex === undefined)) found.sex = sex;
  if (ageGroup !== null && (sex !== null || before.ageGroup === undefined)) found.ageGroup = ageGroup;
  if (segment !== null && (sex !== null || before.segment === undefined || line.cells.length <= 6))
    found.segment = segment;
  if (before.competition === undefined && couldName(line, text) && !tellsRank(line)) {
    const dated = found.date !== undefined && Object.keys(found).length === 1 && EVENT_WORDS.test(text);
    if (Object.keys(found).length === 0) found.competition = text;
    else if (dated) found.competition = titleOf(text);
  }
  const labelled = /^(?:competition|event|wettbewerb|compétition|kilpailu)\s*:\s*(.+)$/iu.exec(text);
  if (labelled?.[1] !== undefined) found.competition = labelled[1];
  return merged(before, found, text);
}

/** A line with a label of rank or start number and its number is a skater's, not an event's. */
const tellsRank = (line: Line): boolean =>
  line.cells.some(
    (cell, i) =>
      line.cells[i + 1]?.figure?.decimals === 0 &&
      LABELS.some(([pattern, label]) => (label === 'rank' || label === 'startNumber') && pattern.test(cell.text)),
  );

/** The title before place and date: `Harbour Cup 2025 · Elm Bay, 18.01.2025`. */
const titleOf = (text: string): string => (text.split(/\s[·|•–—-]\s|[,;]/u)[0] ?? text).trim();

/** Without one of these there is neither a season nor a date. */
const YEAR = /(?:19|20)\d\d/;

function merged(before: Heading, found: Partial<Heading>, text: string): Heading {
  const names = Object.keys(found).filter((name) => name !== 'seasonLine');
  if (names.length === 0) return before;
  return {
    ...before,
    ...found,
    evidence: [...before.evidence.slice(-8), `${names.join(', ')}: “${text.slice(0, 80)}”`],
  };
}

const couldName = (line: Line, text: string): boolean =>
  !PAGE_WORDS.test(text) &&
  !text.includes(':') &&
  !(line.cells.length === 1 && LABELS.some(([pattern]) => pattern.test(text))) &&
  /\p{L}{3,}/u.test(text) &&
  !hasPoints(line);

function oneOf<T>(words: readonly (readonly [RegExp, T])[], text: string): T | null {
  const found = words.filter(([pattern]) => pattern.test(text));
  const [only] = found;
  return found.length === 1 && only !== undefined ? only[1] : null;
}

const firstOf = <T>(words: readonly (readonly [RegExp, T])[], text: string): T | null =>
  words.find(([pattern]) => pattern.test(text))?.[1] ?? null;

function seasonIn(text: string): string | null {
  const match = /(?:^|[^0-9/.-])((?:19|20)\d\d)\s?[/\-\u2013]\s?((?:20)?\d\d)(?![0-9/.-])/.exec(text);
  if (match === null) return null;
  const season = parseSeason(`${match[1] ?? ''}/${match[2] ?? ''}`);
  return season.ok ? season.value : null;
}

const MONTHS = 'jan feb mar apr may jun jul aug sep oct nov dec'.split(' ');

/** A date in ISO form: `14.10.2023`, `2023-10-14`, `14 October 2023`, `October 14, 2023`. `3/4/2023` is unclear: none. */
export function dateIn(text: string): string | null {
  const iso = /(?:^|\D)(20\d\d)-(\d\d)-(\d\d)(?!\d)/.exec(text);
  if (iso !== null) return isoDate(iso[1], iso[2], iso[3]);
  const dotted = /(?:^|\D)(\d{1,2})\.\s?(\d{1,2})\.\s?(20\d\d)(?!\d)/.exec(text);
  if (dotted !== null) return isoDate(dotted[3], dotted[2], dotted[1]);
  const named = /(?:^|\D)(\d{1,2})\.?\s(\p{L}{3})\p{L}{0,7}\.?,?\s(20\d\d)/u.exec(text);
  if (named !== null) return isoDate(named[3], monthOf(named[2]), named[1]);
  const american = /(\p{L}{3})\p{L}{0,7}\.?\s(\d{1,2}),?\s(20\d\d)/u.exec(text);
  return american === null ? null : isoDate(american[3], monthOf(american[1]), american[2]);
}

const monthOf = (name = ''): string => String(MONTHS.indexOf(name.toLowerCase()) + 1);

function isoDate(year = '', month = '', day = ''): string | null {
  const m = Number(month);
  const d = Number(day);
  return m >= 1 && m <= 12 && d >= 1 && d <= 31 ? `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}` : null;
}

/** The season of a day: values change on 1 July. */
export const seasonOfDate = (date: string): string =>
  seasonFrom(Number(date.slice(5, 7)) >= 7 ? Number(date.slice(0, 4)) : Number(date.slice(0, 4)) - 1);
