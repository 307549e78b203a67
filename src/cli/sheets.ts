import { readSheet, sheetForm, type IntakeOptions, type SheetReading } from '../intake/index.ts';
import { fail, ok, type Problem } from '../notation/index.ts';
import { libraryInUse } from './overlays.ts';
import type { InputValue } from './values.ts';

/** Text in which no skater with components or totals came for so long is no sheet; reading on would only take time. */
const PATIENCE = 1000;

const readings = new WeakMap<object, SheetReading>();

/**
 * Reads protocols from what is not JSON: every form of sheet that `intake` knows. Readers of PDF files
 * and pictures are heavy and are loaded only when bytes that are no text arrive.
 */
export async function* readSheets(bytes: Buffer, name: string): AsyncGenerator<InputValue> {
  // What is whole JSON, or has a whole line of it, was read as such before it came here.
  if (sheetForm({ bytes }) === 'json') {
    yield { line: 1, read: fail(brokenJson(name)) };
    return;
  }
  const readers = await readersFor(bytes);
  const patience = patienceFor(readers);
  const options = { library: libraryInUse(), ...readers, shouldStop: patience.isOver };
  for await (const item of readSheet({ bytes, name }, options)) {
    if ('problem' in item) yield { line: lineOf(item.problem.at), read: fail(named(item.problem, name)) };
    else {
      const protocol = { ...item.sheet.protocol };
      if (isWhole(protocol)) patience.satisfy();
      readings.set(protocol, item.sheet);
      yield { line: lineOf(item.sheet.from), read: ok(protocol) };
    }
  }
  if (patience.isOver()) yield { line: 1, read: fail(noElements(name)) };
}

/** Reading a page or a picture takes its time; text is quick, or it is no sheet. */
export const patienceFor = (readers: object): Patience => impatient('pdf' in readers ? Infinity : PATIENCE);

/** More than loose rows: something says what they add up to. */
export const isWhole = ({ elements, components, total, tes }: SheetReading['protocol']): boolean =>
  elements.length > 0 && ((components?.length ?? 0) > 0 || total != null || tes != null);

interface Patience {
  readonly isOver: () => boolean;
  readonly satisfy: () => void;
}

/**
 * Ends once no whole sheet has come for too long, at the beginning or after another. The time that this
 * program worked counts, not the clock: on a busy machine a sheet is still a sheet.
 */
function impatient(milliseconds: number): Patience {
  let since = process.cpuUsage();
  return {
    isOver: () => process.cpuUsage(since).user > milliseconds * 1000,
    satisfy: () => {
      since = process.cpuUsage();
    },
  };
}

const brokenJson = (name: string): Problem => ({
  code: 'input.json',
  at: name,
  found: 'text that begins like JSON and is none, as a whole or line by line',
  expected: 'JSON or JSON Lines',
  advice: 'The file may have been cut off; fetch or write it again.',
});

export const noElements = (name: string): Problem => ({
  code: 'input.no-elements',
  at: name,
  found: 'a long stretch without a skater’s elements and what they add up to',
  expected: 'the judges’ details of one skater after another',
  advice: 'Copy the sheet alone, without the pages around it. Reading was stopped.',
});

/** Readers of PDF files and pictures, loaded only for bytes that are one. */
export async function readersFor(bytes: Uint8Array): Promise<Pick<IntakeOptions, 'pdf' | 'picture'>> {
  const form = sheetForm({ bytes });
  return form === 'pdf' || form === 'picture' ? (await import('../intake/node.ts')).nodeReaders() : {};
}

const named = (problem: Problem, name: string): Problem => (problem.at === 'file' ? { ...problem, at: name } : problem);

const lineOf = (at: string): number => Number(/(?:line|row) (\d+)/.exec(at)?.[1] ?? 1);

/** What the reader of a sheet left open. */
export interface ReadingDoubt {
  /** One sentence for people. */
  readonly warning: string;
  /** Whether figures are in doubt or were not read, not only the heading. */
  readonly figures: boolean;
}

/** What the reader of the sheet left in doubt; null for JSON and for clear sheets. */
export function readingDoubt(value: unknown): ReadingDoubt | null {
  const reading = typeof value === 'object' && value !== null ? readings.get(value) : undefined;
  if (reading === undefined || reading.doubts.length + reading.problems.length === 0) return null;
  const places = reading.doubts.map((doubt) => doubt.at).slice(0, 5);
  const which =
    places.length === 0 ? '' : ` (${places.join(', ')}${reading.doubts.length > places.length ? ', …' : ''})`;
  const count = reading.doubts.length + reading.problems.length;
  return {
    warning: `Reading the sheet left ${count} place${count === 1 ? '' : 's'} in doubt${which}; \`edgeledger intake\` shows ${count === 1 ? 'it' : 'them'}.`,
    figures: reading.problems.length > 0 || reading.doubts.some(({ at }) => FIGURES.test(at)),
  };
}

const FIGURES = /^(?:elements|components|tes|pcs|total|deductions|bonus)/;
