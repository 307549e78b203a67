import { parseCategory } from '../../../../src/notation/index.ts';
import { typed } from '../../words/typed.ts';
import type { Doubt } from './types.ts';

type Form = Readonly<Record<string, unknown>>;

/** What was said about a doubt; `unsaid`: something else, but not yet what. */
export type Said =
  { readonly as: 'read' } | { readonly as: 'value'; readonly value: unknown } | { readonly as: 'unsaid' };

/** What stands at a place: it decides how a reading is shown, and what may be typed for it. */
export type PlaceKind = 'block' | 'marks' | 'points' | 'whole' | 'half' | 'segment' | 'category' | 'words';

const POINTS = /(?:^|\.)(?:base|goe|score|factor|tes|pcs|total|bonus|deductions)$/;
const WHOLE = /(?:^|\.)(?:no|rank|startNumber)$|^elements\[\d+\]\.marks\[\d+\]$/;

/** The kind of a place in a protocol (`elements[2].goe`). */
export function kindOf(at: string): PlaceKind {
  if (/^(?:elements|components)(?:\[\d+\])?$/.test(at)) return 'block';
  if (at.endsWith('.marks')) return 'marks';
  if (POINTS.test(at) || /^components\[\d+\]\.marks\[\d+\]$/.test(at)) return 'points';
  if (WHOLE.test(at)) return 'whole';
  if (at.endsWith('.half')) return 'half';
  return at === 'segment' || at === 'category' ? at : 'words';
}

const WORDS: Readonly<Record<string, string>> = {
  elements: 'the elements',
  components: 'the components',
  tes: 'element score',
  pcs: 'component score',
  total: 'segment total',
  bonus: 'bonus points',
  skater: 'name of the skater',
  rank: 'place',
  startNumber: 'start number',
  no: 'its number in the list',
  info: 'call',
  feedback: 'letters of the panel',
  half: 'sign of the second half',
  base: 'base value',
  goe: 'grade of execution',
  marks: 'judges’ marks',
};

const JUDGES = 'first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth'.split(' ');

/** `elements[2].marks[2]` → “Element 3, third judge’s mark”. */
export function placeOf(at: string): string {
  const [, row = '', index = '', rest = at] = /^(element|component)s\[(\d+)\]\.?(.*)$/.exec(at) ?? [];
  const judge = /^marks\[(\d+)\]$/.exec(rest)?.[1];
  const place =
    judge === undefined ? (WORDS[rest] ?? rest) : `${JUDGES[Number(judge)] ?? `${Number(judge) + 1}th`} judge’s mark`;
  const words = row === '' ? place : [`${row} ${Number(index) + 1}`, place].filter((w) => w !== '').join(', ');
  return words.replace(/^./, (letter) => letter.toUpperCase());
}

const pathOf = (at: string): readonly string[] => at.match(/[^.[\]]+/g) ?? [];

/** What the form holds at a place: it is kept if the sheet is taken as read. */
export function held(form: Form, at: string): unknown {
  let place: unknown = form;
  for (const key of pathOf(at)) place = (place as Form | null | undefined)?.[key];
  return place ?? null;
}

/** The form with what was said about its doubts in its place; “as read” and whole blocks change nothing. */
export function withSaid(
  form: Form,
  doubts: readonly Doubt[],
  said: (doubt: Doubt) => Said | undefined,
): Record<string, unknown> {
  const copy = structuredClone(form) as Record<string, unknown>;
  // A row of marks before single marks of it.
  const outerFirst = [...doubts].sort((a, b) => pathOf(a.at).length - pathOf(b.at).length);
  for (const doubt of outerFirst) {
    const one = said(doubt);
    if (one?.as !== 'value' || kindOf(doubt.at) === 'block') continue;
    const path = pathOf(doubt.at);
    const last = path.at(-1);
    let place: unknown = copy;
    for (const key of path.slice(0, -1)) place = (place as Form | null | undefined)?.[key];
    if (typeof place === 'object' && place !== null && last !== undefined)
      (place as Record<string, unknown>)[last] = one.value;
  }
  return copy;
}

/** The other readings, as the place wants them: a picture offers words where the form wants figures. */
export function otherReadings(form: Form, { at, read, alternatives }: Doubt): readonly unknown[] {
  const kind = kindOf(at);
  const now = held(form, at);
  if (kind === 'half') return [now !== true];
  if (kind === 'segment') return ['short', 'free'].filter((one) => one !== now);
  if (kind === 'block') return [];
  const fitting = alternatives.flatMap((one): unknown[] => {
    if (typeof one !== 'string') return [one];
    // Of a code in several words only the word in doubt is another.
    const whole =
      kind === 'words' && typeof now === 'string' && typeof read === 'string' && read !== '' && now.includes(read);
    const given = valueFrom(kind, whole ? now.replace(read, one) : one);
    return given.ok ? [given.value] : [];
  });
  const shownOnce = new Map(fitting.map((one) => [JSON.stringify(one), one]));
  shownOnce.delete(JSON.stringify(now));
  return [...shownOnce.values()];
}

/** Nothing but the picture is unclear there. */
const UNCLEAR = 'It is not clear in the picture, and no equation holds it.';
const NEEDED: readonly string[] = ['segment', 'category', 'season'];

/**
 * Whether it has to be settled before the sheet is kept: where two readings stand against each other, or
 * where what the whole reading rests on was not found.
 */
export function isChoice(form: Form, doubt: Doubt): boolean {
  if (kindOf(doubt.at) === 'block' || doubt.why === UNCLEAR) return false;
  if (NEEDED.includes(doubt.at) && held(form, doubt.at) === null) return true;
  return doubt.alternatives.length > 0 && otherReadings(form, doubt).length > 0;
}

type Typed = { readonly ok: true; readonly value: unknown } | { readonly ok: false; readonly why: string };
const no = (why: string): Typed => ({ ok: false, why });
const NOTHING = /^[-–—−]$/;

/** What a person typed for a place, as the form wants it: numbers with comma or point, “-” where nothing is printed. */
export function valueFrom(kind: PlaceKind, text: string, at = ''): Typed {
  const given = text.trim();
  if (given === '') return no('');
  if (kind === 'marks') return marksFrom(given, at);
  if (kind === 'points' || kind === 'whole') {
    if (NOTHING.test(given)) return { ok: true, value: null };
    const number = typed(given.replace(/^\+/, ''));
    if (number === null) return no('A number, please, such as 4,75 or 4.75.');
    if (kind === 'whole' && !Number.isInteger(number)) return no('A whole number, please.');
    if (at === 'rank' && number < 1) return no('Places begin at 1.');
    if (Math.abs(number * 100 - Math.round(number * 100)) > 1e-6) return no('At most two decimals.');
    return { ok: true, value: at === 'deductions' && number > 0 ? -number : number };
  }
  if (kind === 'category') {
    const category = parseCategory(given);
    return category.ok
      ? { ok: true, value: category.value }
      : no('An age group and women or men, such as junior women.');
  }
  if (at === 'season' && !/^\d{4}\/\d{2}$/.test(given)) return no('A season, please, such as 2025/26.');
  return { ok: true, value: given };
}

function marksFrom(given: string, at: string): Typed {
  const kind = at.startsWith('elements') ? 'whole' : 'points';
  const marks = given.split(/[\s;|]+/).map((one) => valueFrom(kind, one));
  const values = marks.flatMap((one) => (one.ok ? [one.value] : []));
  return values.length === marks.length
    ? { ok: true, value: values }
    : no(`One ${kind === 'whole' ? 'whole grade' : 'mark'} for each judge, with blanks between them.`);
}

/** What goes into the field, in a word or two. */
export const hintOf = (kind: PlaceKind): string =>
  ({
    marks: 'one for each judge, blanks between; - for none',
    points: 'a number; - where nothing is printed',
    whole: 'a whole number; - where nothing is printed',
    category: 'such as junior women',
    words: 'as it is printed',
    half: '',
    segment: '',
    block: '',
  })[kind];

/** A reading as words. */
export function shown(kind: PlaceKind, value: unknown): string {
  if (kind === 'half') return value === true ? 'with the sign' : 'without the sign';
  if (kind === 'segment' && typeof value === 'string') return value === 'short' ? 'short program' : 'free skate';
  if (value === null || value === undefined || value === '') return 'nothing printed';
  if (Array.isArray(value)) {
    const decimals = value.some((one) => typeof one === 'number' && !Number.isInteger(one)) ? 2 : 0;
    if (value.length === 0) return 'nothing printed';
    if (value.every((one) => one === null || typeof one === 'number'))
      return value.map((one) => (one === null ? '–' : figure(one as number, decimals))).join('  ');
    return 'a list';
  }
  if (typeof value === 'number') return figure(value, kind === 'points' ? 2 : 0);
  return typeof value === 'string' ? value : JSON.stringify(value);
}

/** As the sheet prints it: with a point and a real minus. */
const figure = (value: number, decimals: number): string => value.toFixed(decimals).replace(/^-/, '−');
