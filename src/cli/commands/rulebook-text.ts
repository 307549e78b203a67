import type { Citation, Difference, Rulebook, RowDifference, ValueRow } from '../../rulebook/index.ts';
import type { Io } from '../io.ts';
import { quiet, strong, wrapped } from '../style.ts';
import { citedValues, type CitedValue } from './rulebook-form.ts';

/** What `rulebook …` prints for people: values first, their source below them. */

type Screen = Pick<Io, 'colour' | 'width'>;

export const listText = (books: readonly Rulebook[]): string => books.map(listLine).join('\n');

const listLine = (book: Rulebook): string =>
  `${book.id.padEnd(16)} ${book.title.padEnd(24)} ${book.valid.values.from} to ${book.valid.values.to}` +
  (book.provisional ? '  provisional' : '');

/** The mark in words: a reader must not have to know what `memory` means. */
function markOf({ status, provisional, weak }: Citation): string {
  const words = { published: 'published', memory: 'not from a document', local: 'your own' }[status];
  return [words, ...(weak ? ['doubtful'] : []), ...(provisional ? ['provisional'] : [])].join(', ');
}

const sourceText = (citation: Citation, screen: Screen): string =>
  quiet(wrapped(`[${markOf(citation)}] ${citation.source}`, screen.width, '      '), screen);

function valueText(value: unknown): string {
  if (value === null) return 'not known';
  if (Array.isArray(value)) return value.length === 0 ? 'none' : value.map(itemText).join(', ');
  if (typeof value === 'object') return Object.keys(value).length === 0 ? 'nothing said' : itemText(value);
  return typeof value === 'string' ? value : JSON.stringify(value);
}

const itemText = (item: unknown): string =>
  typeof item === 'object' && item !== null && !Array.isArray(item)
    ? Object.entries(item)
        .map(([key, part]) => `${key} ${valueText(part)}`)
        .join(' ')
    : Array.isArray(item)
      ? item.map(itemText).join('+')
      : String(item);

const sameSource = (a: Citation, b: Citation): boolean => a.source === b.source && a.status === b.status;

/** Values in a row that have one source share its line. */
function citedText(values: readonly CitedValue[], screen: Screen): string {
  const lines: string[] = [];
  for (const [i, { path, value, citation }] of values.entries()) {
    lines.push(wrapped(`${path}: ${valueText(value)}`, screen.width, '  ', '    '));
    const next = values[i + 1];
    if (!next || !sameSource(next.citation, citation)) lines.push(sourceText(citation, screen));
  }
  return lines.join('\n');
}

const family = (path: string): string => path.split('.', 1)[0] ?? path;

/** A rulebook, family by family; the scale of values row by row only on request. */
export function rulebookText(book: Rulebook, at: string | undefined, rows: boolean, screen: Screen): string {
  const values = citedValues(book, at).filter(({ path }) => at !== undefined || !/^scale\.(rows|table)\./.test(path));
  if (values.length === 0) return `${book.id} states nothing at ${at ?? 'all'}.`;
  const families = [...new Set(values.map(({ path }) => family(path)))];
  const codes = book.rowCodes();
  return [
    strong(`${book.title} (${book.id})`, screen),
    `  inherits from: ${book.extends.length === 0 ? 'nothing' : book.extends.join(', ')}`,
    ...(book.provisional ? ['  provisional: the text of this season was not seen, every figure may differ'] : []),
    ...families.flatMap((name) => [
      '',
      strong(name, screen),
      citedText(
        values.filter(({ path }) => family(path) === name),
        screen,
      ),
    ]),
    ...(at === undefined
      ? ['', rows ? rowsText(book, screen) : `${codes.length} rows of values: --rows prints them.`]
      : []),
  ].join('\n');
}

const points = (hundredths: number): string => (hundredths / 100).toFixed(2);

const rowText = (row: ValueRow | null): string => {
  if (!row) return 'no such row';
  if (row.base === null) return 'not known';
  const [lowest, highest] = [row.grades?.at(0), row.grades?.at(-1)];
  const grades =
    lowest === undefined || highest === undefined ? '' : ` (grades ${points(lowest)} to +${points(highest)})`;
  return `${points(row.base)}${grades}`;
};

const rowsText = (book: Rulebook, screen: Screen): string =>
  [
    strong('rows', screen),
    ...book
      .rowCodes()
      .flatMap((code) => book.row(code) ?? [])
      .flatMap((row) => [`  ${row.code}: ${rowText(row)}`, sourceText(row.citation, screen)]),
  ].join('\n');

function changeText({ path, before, after }: Difference, screen: Screen): string {
  const said = (side: Difference['before']): string => (side ? valueText(side.value) : 'not stated');
  const line = wrapped(`${path}: ${said(before)} -> ${said(after)}`, screen.width, '  ', '    ');
  const source = after ?? before;
  return source ? `${line}\n${sourceText(source.citation, screen)}` : line;
}

/** Changes of rules with the source of the new value, then the rows of values that differ. */
export function changesText(
  before: Rulebook,
  after: Rulebook,
  changes: readonly Difference[],
  rows: readonly RowDifference[],
  screen: Screen,
): string {
  const rules = changes.filter(({ path }) => !/^scale\.(rows|table)(\.|$)/.test(path));
  const families = [...new Set(rules.map(({ path }) => family(path)))];
  const counts = `${rules.length} values and ${rows.length} rows of the scale of values differ.`;
  return [
    strong(
      before.id === after.id
        ? `${after.title}: shipped, and with your own files`
        : `From ${before.title} to ${after.title}`,
      screen,
    ),
    rules.length + rows.length === 0 ? 'Nothing changes.' : counts,
    ...families.flatMap((name) => [
      '',
      strong(name, screen),
      ...rules.filter(({ path }) => family(path) === name).map((change) => changeText(change, screen)),
    ]),
    ...(rows.length === 0 ? [] : ['', strong('rows', screen)]),
    ...rows.map((row) =>
      wrapped(`${row.code}: ${rowText(row.before)} -> ${rowText(row.after)}`, screen.width, '  ', '    '),
    ),
    ...(after.provisional ? ['', `${after.id} is provisional: its text was not seen, every figure may differ.`] : []),
  ].join('\n');
}
