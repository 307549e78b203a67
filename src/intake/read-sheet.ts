import type { Problem, Result } from '../notation/index.ts';
import type { Library } from '../rulebook/index.ts';
import { rowsOfCsv, separatorOf } from './forms/csv-rows.ts';
import { byteForm, decodeText, NOT_A_SHEET, tooLong, MAX_TEXT } from './forms/decode.ts';
import { linesOfHtml, looksLikeHtml } from './forms/html-lines.ts';
import { looksLikeJson, protocolsOfJson } from './forms/json-protocols.ts';
import { recordRoles, sheetsOfRecords, type ColumnMap } from './forms/records.ts';
import { linesOfText, tokensOfCells } from './forms/text-lines.ts';
import { longRows } from './forms/wide-rows.ts';
import type { Given, SheetReading } from './recognise/reading.ts';
import { createRecogniser } from './recognise/stream.ts';
import type { Token } from './token.ts';

/** A sheet as it came: bytes of a file or text that was pasted. The name helps only in messages. */
export interface SheetInput {
  readonly bytes?: Uint8Array;
  readonly text?: string;
  readonly name?: string;
}

/** Words page by page, e.g. from a PDF file or a photograph; trouble with a page stands in its place. */
export type PageSource = (
  bytes: Uint8Array,
) => AsyncIterable<
  Result<{ readonly page: number; readonly tokens: readonly Token[]; readonly trouble?: Problem | null }>
>;

export interface IntakeOptions {
  readonly library: Library;
  /** What is known beforehand; outranks headings. */
  readonly given?: Given;
  /** Column headings of a table of records. */
  readonly map?: ColumnMap;
  /** Readers for PDF files and pictures; absent: such files are a problem. */
  readonly pdf?: PageSource;
  readonly picture?: PageSource;
  /** Asked between pages and sheets. */
  readonly shouldStop?: () => boolean;
}

/** A sheet that was read, or trouble with a part of the input. */
export type IntakeItem = { readonly sheet: SheetReading } | { readonly problem: Problem };

export type SheetForm = 'pdf' | 'picture' | 'json' | 'html' | 'csv' | 'text' | 'unknown';

/** What an input is; content decides. */
export function sheetForm(input: SheetInput): SheetForm {
  if (input.text !== undefined) return textForm(input.text);
  const form = byteForm(input.bytes ?? new Uint8Array());
  if (form !== 'text') return form;
  const text = decodeText(input.bytes ?? new Uint8Array());
  return text.ok ? textForm(text.value) : 'text';
}

function textForm(text: string): Exclude<SheetForm, 'pdf' | 'picture'> {
  if (looksLikeJson(text)) return 'json';
  if (looksLikeHtml(text)) return 'html';
  return separatorOf(text) === null ? 'text' : 'csv';
}

/**
 * Reads every sheet of an input, one after the other: memory is bounded by one page and one open
 * sheet. Nothing is thrown for what the input holds; troubles are items. An input in which nothing can
 * be read ends with a problem.
 */
export async function* readSheet(
  input: SheetInput,
  options: IntakeOptions,
): AsyncGenerator<IntakeItem, void, undefined> {
  const form = input.text === undefined ? byteForm(input.bytes ?? new Uint8Array()) : 'text';
  if (form === 'pdf' || form === 'picture') {
    yield* readPages(input.bytes ?? new Uint8Array(), form, options);
    return;
  }
  if (form === 'unknown') {
    yield { problem: NOT_A_SHEET };
    return;
  }
  const text =
    input.text === undefined ? decodeText(input.bytes ?? new Uint8Array()) : ({ ok: true, value: input.text } as const);
  if (!text.ok) yield { problem: text.error };
  else yield* readSheetText(text.value, options);
}

async function* readPages(
  bytes: Uint8Array,
  form: 'pdf' | 'picture',
  options: IntakeOptions,
): AsyncGenerator<IntakeItem, void, undefined> {
  const source = options[form];
  if (source === undefined) {
    yield {
      problem: {
        ...NOT_A_SHEET,
        code: 'intake.no-reader',
        found: form === 'pdf' ? 'a PDF file' : 'a picture',
        expected: 'text, a web page or a table',
        advice: 'Copy the text of the sheet and paste it.',
      },
    };
    return;
  }
  const recogniser = createRecogniser(options);
  let read = 0;
  let told = false;
  for await (const page of startedBefore(source(bytes), () => recogniser.prepare())) {
    if (!page.ok) {
      told ||= page.error.at === 'document';
      yield { problem: page.error };
    } else {
      if (page.value.trouble != null) yield { problem: page.value.trouble };
      for (const sheet of recogniser.page(page.value.tokens)) {
        read++;
        yield { sheet };
      }
    }
    if (options.shouldStop?.() === true) return;
  }
  for (const sheet of recogniser.end()) {
    read++;
    yield { sheet };
  }
  // A document that could not be read at all has said why.
  if (read === 0 && !told) yield { problem: NOTHING };
}

/** The same values; what takes its time to start is started before something else is done. */
async function* startedBefore<T>(source: AsyncIterable<T>, work: () => void): AsyncGenerator<T, void, undefined> {
  const values = source[Symbol.asyncIterator]();
  const first = values.next();
  try {
    work();
    for (let next = await first; next.done !== true; next = await values.next()) yield next.value;
  } finally {
    await values.return?.();
  }
}

/** Reads pasted text, a web page, a table or JSON; synchronous, for the browser and for tests. */
export function* readSheetText(text: string, options: IntakeOptions): Generator<IntakeItem, void, undefined> {
  if (text.length > MAX_TEXT) {
    yield { problem: tooLong(text.length) };
    return;
  }
  let read = 0;
  for (const item of itemsOf(withLines(text.replace(/^\uFEFF/, '')), options)) {
    if ('sheet' in item || item.problem.code.startsWith('protocol')) read++;
    yield item;
    if (options.shouldStop?.() === true) return;
  }
  if (read === 0) yield { problem: NOTHING };
}

const NOTHING: Problem = {
  code: 'intake.nothing',
  at: 'file',
  found: 'no element codes with figures beside them, and no rows of component marks',
  expected: 'the judges’ details of at least one skater',
  advice: 'Copy the whole sheet, element table and components included. docs/intake.md says how to help.',
};

/** Lines may end as old machines ended them, with a carriage return alone. */
const withLines = (text: string): string => (/\r(?!\n)/.test(text) ? text.replace(/\r\n?/g, '\n') : text);

function itemsOf(text: string, options: IntakeOptions): Iterable<IntakeItem> {
  switch (textForm(text)) {
    case 'json':
      return jsonItems(text);
    case 'html':
      return htmlItems(text, options);
    case 'csv':
      return csvItems(text, separatorOf(text) ?? ',', options);
    case 'text':
      return options.map === undefined
        ? lineItems(linesOfText(text), options)
        : csvItems(text, text.includes('\t') ? '\t' : ',', options);
    case 'unknown':
      return [{ problem: NOT_A_SHEET }];
  }
}

function* jsonItems(text: string): Generator<IntakeItem> {
  for (const { at, read } of protocolsOfJson(text)) {
    yield read.ok
      ? { sheet: { protocol: read.value, doubts: [], confidence: 1, evidence: ['form: JSON'], problems: [], from: at } }
      : { problem: read.error };
  }
}

function* htmlItems(text: string, options: IntakeOptions): Generator<IntakeItem> {
  const { lines, trouble } = linesOfHtml(text);
  yield* lineItems(lines, options);
  if (trouble !== null) yield { problem: trouble };
}

function* lineItems(
  lines: Iterable<{ readonly tokens: readonly Token[]; readonly at: string }>,
  options: IntakeOptions,
): Generator<IntakeItem> {
  const recogniser = createRecogniser(options);
  for (const { tokens, at } of lines) for (const sheet of recogniser.line(tokens, at)) yield { sheet };
  for (const sheet of recogniser.end()) yield { sheet };
}

/** What the person says outranks what the records say; what nobody says stays open. */
const bothGiven = (records: Given, person: Given | undefined): Given => ({
  ...records,
  ...Object.fromEntries(Object.entries(person ?? {}).filter(([, value]) => value !== undefined)),
});

/** The heading of a table of records stands among its first rows. */
const HEADING_WITHIN = 6;

/** A table with one row per skater becomes one with a row per element. */
function unfolded(rows: string[][]): string[][] {
  for (const [i, row] of rows.slice(0, HEADING_WITHIN).entries()) {
    const long = longRows(row, rows.slice(i + 1));
    if (long !== null) return long;
  }
  return rows;
}

/** A table of records where a heading row (or a map) says so, else the rows of a sheet. */
function* csvItems(text: string, separator: string, options: IntakeOptions): Generator<IntakeItem> {
  const printed = [...rowsOfCsv(text, separator)];
  const rows = unfolded(printed);
  const start = rows.slice(0, HEADING_WITHIN).findIndex((row) => recordRoles(row, options.map) !== null);
  const roles = start < 0 ? null : recordRoles(rows[start] ?? [], options.map);
  if (roles === null) {
    yield* lineItems(
      rows.map((row, i) => ({ tokens: tokensOfCells(row, i + 1), at: `line ${i + 1}` })),
      options,
    );
    return;
  }
  // A map by column numbers alone may stand over a table without headings.
  const body = /\d[.,]\d/.test((rows[start] ?? []).join(' ')) ? start : start + 1;
  for (const sheet of sheetsOfRecords(rows.slice(body), roles, body + 1)) {
    yield* lineItems(sheet.lines, { ...options, given: bothGiven(sheet.given, options.given) });
  }
}
