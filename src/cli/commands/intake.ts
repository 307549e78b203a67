import { readFile } from 'node:fs/promises';

import type { Command } from 'commander';
import { parse as parseYaml } from 'yaml';

import { readColumnMap, readSheet, type ColumnMap, type Given, type SheetReading } from '../../intake/index.ts';
import { fail, ok, parseSegment } from '../../notation/index.ts';
import { libraryInUse } from '../overlays.ts';
import { isWhole, noElements, patienceFor, readersFor } from '../sheets.ts';
import { readProtocol, writeProtocol } from '../../scoring/index.ts';
import { answerEach, type Answer } from '../answer-each.ts';
import { UsageError, type Io } from '../io.ts';
import type { InputValue } from '../values.ts';

interface Options {
  readonly json?: boolean;
  readonly map?: string;
  readonly season?: string;
  readonly category?: string;
  readonly segment?: string;
  readonly body?: string;
}

/** `edgeledger intake FILE`: what the sheets print, figure by figure, and what of it is in doubt. */
export function register(program: Command, io: Io): void {
  program
    .command('intake')
    .description('read published sheets (text, PDF, web page, table) into protocols')
    .argument('<file>', 'a file, or - for standard input')
    .option('--map <file>', 'JSON or YAML: column heading -> role, for a table of records')
    .option('--season <season>', 'e.g. 2023/24; outranks the heading')
    .option('--category <category>', 'e.g. "novice women"; outranks the heading')
    .option('--segment <segment>', 'short or free; outranks the heading')
    .option('--body <body>', 'issuing body')
    .option('--json', 'one protocol per line')
    .action(async (file: string, options: Options) => {
      const map = options.map === undefined ? undefined : await columnMap(options.map);
      const given = givenOf(options);
      const other = (bytes: Uint8Array, name: string): AsyncIterable<InputValue> =>
        sheetValues(bytes, name, given, map);
      await answerEach(io, file, { json: options.json === true, other }, (value) =>
        isSheet(value) ? ok(answerOf(value)) : fromJson(value),
      );
    });
}

function givenOf({ season, category, segment, body }: Options): Given {
  const read = segment === undefined ? undefined : parseSegment(segment);
  if (read?.ok === false)
    throw new UsageError(`--segment: found ${read.error.found}; expected ${read.error.expected}.`);
  return { season, category, segment: read?.value, body };
}

async function columnMap(file: string): Promise<ColumnMap> {
  const text = await readFile(file, 'utf8').catch(() => {
    throw new UsageError(`${file}: the map cannot be opened; check the path.`);
  });
  const value = yamlOrNull(text);
  const map = readColumnMap(value);
  if (!map.ok)
    throw new UsageError(
      `${file}, ${map.error.at}: found ${map.error.found}; expected ${map.error.expected}. ${map.error.advice}`,
    );
  return map.value;
}

function yamlOrNull(text: string): unknown {
  try {
    return parseYaml(text) as unknown;
  } catch {
    return null;
  }
}

/** Sheets that this command read itself, to tell them from protocols that came as JSON. */
const sheets = new WeakSet<object>();
const isSheet = (value: unknown): value is SheetReading =>
  typeof value === 'object' && value !== null && sheets.has(value);

async function* sheetValues(
  bytes: Uint8Array,
  name: string,
  given: Given,
  map: ColumnMap | undefined,
): AsyncGenerator<InputValue> {
  const readers = await readersFor(bytes);
  const patience = patienceFor(readers);
  const base = { library: libraryInUse(), given, ...readers, shouldStop: patience.isOver };
  const options = { ...base, ...(map === undefined ? {} : { map }) };
  for await (const item of readSheet({ bytes, name }, options)) {
    if ('problem' in item)
      yield {
        line: lineOf(item.problem.at),
        read: fail({ ...item.problem, at: item.problem.at === 'file' ? name : item.problem.at }),
      };
    else {
      // Rows under a map are records; they need no totals.
      if (map !== undefined || isWhole(item.sheet.protocol)) patience.satisfy();
      sheets.add(item.sheet);
      yield { line: lineOf(item.sheet.from), read: ok(item.sheet) };
    }
  }
  if (patience.isOver()) yield { line: 1, read: fail(noElements(name)) };
}

const lineOf = (at: string): number => Number(/(?:line|row) (\d+)/.exec(at)?.[1] ?? 1);

/** A protocol that already has the form: checked and given back. */
function fromJson(value: unknown) {
  const read = readProtocol(value);
  if (!read.ok) return read;
  const reading: SheetReading = {
    protocol: writeProtocol(read.value),
    doubts: [],
    confidence: 1,
    evidence: ['form: JSON'],
    problems: [],
    from: '',
  };
  return ok(answerOf(reading));
}

function answerOf(reading: SheetReading): Answer {
  const { protocol, doubts, confidence, evidence, problems } = reading;
  return {
    json: { ...protocol, doubts, confidence, evidence, ...(problems.length === 0 ? {} : { problems }) },
    text: () => textOf(reading),
    act: doubts.length > 0 || problems.length > 0,
  };
}

/** For people: who, what, and only what needs a look. */
function textOf({ protocol, doubts, confidence, from }: SheetReading): string {
  const who = [protocol.skater ?? 'no name', protocol.category, protocol.segment, protocol.season].filter(
    (one) => one != null && one !== '',
  );
  const head = `${who.join(', ')}: ${protocol.elements.length} elements, total ${protocol.total?.toFixed(2) ?? 'not found'} (${from === '' ? 'as given' : from})`;
  const state =
    doubts.length === 0
      ? '  Every figure was read; what can be checked agrees.'
      : `  ${doubts.length} to look at (confidence ${confidence.toFixed(2)}):`;
  const lines = doubts.map((one) => {
    const others =
      one.alternatives.length === 0 ? '' : `; or ${one.alternatives.map((value) => JSON.stringify(value)).join(', ')}`;
    return `  - ${one.at}: read ${JSON.stringify(one.read)}${others}. ${one.why}`;
  });
  return [head, state, ...lines].join('\n');
}
