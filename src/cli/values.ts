import { LineCounter, parseAllDocuments, type Document } from 'yaml';

import { fail, ok, type Problem, type Result } from '../notation/index.ts';
import type { Io } from './io.ts';
import { LF, linesOf, withoutMark } from './lines.ts';
import { openSource, readRest, type Source } from './source.ts';

/** One value of an input, or the trouble with its line. */
export interface InputValue {
  /** Line of the source where the value begins, from 1. */
  readonly line: number;
  readonly read: Result<unknown>;
}

/** A reader for what is not JSON, e.g. a pasted sheet: bytes in, values out. */
export type OtherReader = (bytes: Buffer, name: string) => AsyncIterable<InputValue> | Promise<readonly InputValue[]>;

/** More than this is not held in memory at once; JSON Lines of any length are streamed. */
const WHOLE_LIMIT = 256 * 1024 * 1024;
/** YAML is for forms written by hand; a longer text is not one, and reading it would take too long. */
const YAML_LIMIT = 128 * 1024;
/** Up to this length keys that stand twice are an error; the search for them is quadratic. */
const YAML_KEYS_LIMIT = 32 * 1024;
/** Forms nest a handful of levels; deeper text would cost the YAML reader its stack, or more. */
const YAML_DEPTH = 32;
const HEAD = 64 * 1024;

/**
 * The values of a file or of standard input, in order. Content decides: JSON, JSON Lines (streamed),
 * an array of values, else what `other` reads (YAML by default). Trouble with a line is a value.
 */
export async function* readValues(name: string, io: Io, other: OtherReader = readYaml): AsyncGenerator<InputValue> {
  const source = await openSource(name, io);
  const head = await firstLine(source);
  if (!isText(head)) {
    yield* await others(head, source, other);
  } else if (parsed(startOf(head)) !== null) {
    yield* jsonLines(rejoined(head, source));
  } else {
    yield* undecided(head, source, other);
  }
}

/** Chunks up to the end of the first line that is not blank, at least `HEAD` bytes where there are so many. */
async function firstLine(source: Source): Promise<Uint8Array[]> {
  const head: Uint8Array[] = [];
  let size = 0;
  let start = '';
  while (size < HEAD || (size < WHOLE_LIMIT && /^[[{][^\n]*$/.test(start))) {
    const next = await source.chunks.next();
    if (next.done === true) break;
    head.push(next.value);
    size += next.value.length;
    // Only whether the first line has ended is asked: of later chunks the presence of a line end is enough.
    if (start.length < HEAD) start = headText(head).trimStart();
    else if (next.value.includes(LF)) break;
  }
  return head;
}

const headText = (head: readonly Uint8Array[]): string => withoutMark(Buffer.concat(head).toString('utf8'));

/** The first line that is not blank. */
function startOf(head: readonly Uint8Array[]): string {
  const text = headText(head).trimStart();
  const end = text.indexOf('\n');
  return (end < 0 ? text : text.slice(0, end)).trim();
}

/** Text has no zero bytes and hardly any bytes that are no UTF-8. */
function isText(head: readonly Uint8Array[]): boolean {
  const start = Buffer.concat(head).subarray(0, HEAD);
  if (start.includes(0) || start.subarray(0, 5).toString('latin1') === '%PDF-') return false;
  const strange = start.toString('utf8').match(/[\uFFFD\u0001-\u0008\u000E-\u001A\u001C-\u001F]/g)?.length ?? 0;
  return strange * 50 <= start.length;
}

async function* rejoined(head: readonly Uint8Array[], source: Source): AsyncGenerator<Uint8Array> {
  yield* head;
  for (let next = await source.chunks.next(); next.done !== true; next = await source.chunks.next()) yield next.value;
}

async function* jsonLines(chunks: AsyncIterable<Uint8Array>): AsyncGenerator<InputValue> {
  for await (const { line, text } of linesOf(chunks)) yield* valuesOfLine(text, line);
}

/** An array at the top stands for its values; each keeps the line of the array. */
function valuesOfLine(text: string, line: number): readonly InputValue[] {
  const value = parsed(text);
  if (value === null) return [{ line, read: fail(jsonProblem(text, line)) }];
  return spreadOut(value.value, line);
}

const spreadOut = (value: unknown, line: number): readonly InputValue[] =>
  Array.isArray(value) ? value.map((one: unknown) => ({ line, read: ok(one) })) : [{ line, read: ok(value) }];

/** The value of a JSON object or array; null for anything else. */
function parsed(text: string): { readonly value: unknown } | null {
  if (!/^[[{]/.test(text)) return null;
  try {
    return { value: JSON.parse(text) as unknown };
  } catch {
    return null;
  }
}

function jsonProblem(text: string, line: number): Problem {
  return {
    code: 'input.json',
    at: `line ${line}`,
    found: text.length > 60 ? `${text.slice(0, 60)}…` : text,
    expected: 'one JSON object',
    advice: 'Correct this line; the others are read.',
  };
}

/** The first line alone is no JSON: a document over several lines, lines with a bad first one, or another form. */
async function* undecided(head: readonly Uint8Array[], source: Source, other: OtherReader): AsyncGenerator<InputValue> {
  const bytes = await readRest(head, source, WHOLE_LIMIT);
  const text = withoutMark(bytes?.toString('utf8') ?? '');
  const whole = parsed(text.trim());
  if (bytes === null) yield tooLong(source.name);
  else if (whole !== null) yield* spreadOut(whole.value, 1);
  else if (hasJsonLine(text)) yield* jsonLines(rejoined([bytes], { ...source, chunks: emptyChunks() }));
  else yield* await other(bytes, source.name);
}

// eslint-disable-next-line @typescript-eslint/require-await
async function* emptyChunks(): AsyncGenerator<Uint8Array> {
  yield* [];
}

/** Some line is a JSON object with fields of its own: the text is JSON Lines with bad lines in it. */
function hasJsonLine(text: string): boolean {
  for (const [line] of text.matchAll(/^[ \t]*\{"?.*\}[ \t]*\r?$/gm)) if (parsed(line.trim()) !== null) return true;
  return false;
}

async function others(
  head: readonly Uint8Array[],
  source: Source,
  other: OtherReader,
): Promise<AsyncIterable<InputValue> | readonly InputValue[]> {
  const bytes = await readRest(head, source, WHOLE_LIMIT);
  return bytes === null ? [tooLong(source.name)] : other(bytes, source.name);
}

const tooLong = (name: string): InputValue => ({
  line: 1,
  read: fail({
    code: 'input.too-long',
    at: name,
    found: 'more than 256 MB that is not JSON Lines',
    expected: 'one value per line, or a shorter file',
    advice: 'Split the file.',
  }),
});

/** YAML documents as values; what is not text, or too long for a form written by hand, is a problem. */
// eslint-disable-next-line @typescript-eslint/require-await
export async function readYaml(bytes: Buffer, name: string): Promise<readonly InputValue[]> {
  const text = withoutMark(bytes.toString('utf8'));
  if (text.trim() === '') return [];
  if (!isText([bytes]) || bytes.length > YAML_LIMIT || nestsDeeply(text))
    return [{ line: 1, read: fail(unreadable(name)) }];
  const counter = new LineCounter();
  try {
    const documents = parseAllDocuments(text, {
      lineCounter: counter,
      prettyErrors: false,
      uniqueKeys: bytes.length <= YAML_KEYS_LIMIT,
    });
    return Array.isArray(documents) ? documents.flatMap((document) => valuesOfDocument(document, counter)) : [];
  } catch {
    // Nesting beyond all measure, or aliases that would blow up.
    return [{ line: 1, read: fail(unreadable(name)) }];
  }
}

function nestsDeeply(text: string): boolean {
  let depth = 0;
  let deepest = 0;
  for (let i = 0; i < text.length; i += 1) {
    const sign = text.charAt(i);
    if (sign === '[' || sign === '{') deepest = Math.max(deepest, (depth += 1));
    else if (sign === ']' || sign === '}') depth = Math.max(0, depth - 1);
  }
  return deepest > YAML_DEPTH || COMPACT_NESTING.test(text);
}

/** `- - - - …`: lists in lists on one line. */
const COMPACT_NESTING = new RegExp(`^[ \\t]*(?:[-?:&!*][^ \\t\\n]*[ \\t]+){${YAML_DEPTH}}`, 'm');

function valuesOfDocument(document: Document.Parsed, counter: LineCounter): readonly InputValue[] {
  const { line } = counter.linePos(document.contents?.range[0] ?? document.range[0]);
  const [error] = document.errors;
  if (error !== undefined) return [{ line, read: fail(yamlProblem(error.message, counter.linePos(error.pos[0]))) }];
  return spreadOut(document.toJS(), line);
}

const yamlProblem = (message: string, at: { readonly line: number; readonly col: number }): Problem => ({
  code: 'input.yaml',
  at: `line ${at.line}, column ${at.col}`,
  found: message.split('\n')[0]?.slice(0, 80) ?? '',
  expected: 'JSON, JSON Lines or YAML',
  advice: 'Correct this place.',
});

const unreadable = (name: string): Problem => ({
  code: 'input.unreadable',
  at: name,
  found: 'content that is neither JSON nor YAML',
  expected: 'JSON, JSON Lines or YAML',
  advice: 'Check that this is the right file.',
});
