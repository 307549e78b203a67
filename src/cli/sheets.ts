import { readSheet, sheetForm, type IntakeOptions, type SheetReading } from '../intake/index.ts';
import { fail, ok, type Problem } from '../notation/index.ts';
import { libraryInUse } from './overlays.ts';
import type { InputValue } from './values.ts';

/** Text in which no row of an element was found for so long is no sheet; reading on would only take time. */
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
  // Reading a page or a picture takes its time; text is quick, or it is no sheet.
  const patience = impatient('pdf' in readers ? Infinity : PATIENCE);
  const options = { library: libraryInUse(), ...readers, shouldStop: patience.isOver };
  for await (const item of readSheet({ bytes, name }, options)) {
    if ('problem' in item) yield { line: lineOf(item.problem.at), read: fail(named(item.problem, name)) };
    else {
      const protocol = { ...item.sheet.protocol };
      if (protocol.elements.length > 0) patience.satisfy();
      readings.set(protocol, item.sheet);
      yield { line: lineOf(item.sheet.from), read: ok(protocol) };
    }
  }
  if (patience.isOver()) yield { line: 1, read: fail(noElements(name)) };
}

/**
 * Ends once no element has been found for too long; never ends after the first. The time that this program
 * worked counts, not the clock: on a busy machine a sheet is still a sheet.
 */
function impatient(milliseconds: number): { readonly isOver: () => boolean; readonly satisfy: () => void } {
  const start = process.cpuUsage();
  let satisfied = false;
  return {
    isOver: () => !satisfied && process.cpuUsage(start).user > milliseconds * 1000,
    satisfy: () => {
      satisfied = true;
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

const noElements = (name: string): Problem => ({
  code: 'input.no-elements',
  at: name,
  found: 'no element codes with figures beside them',
  expected: 'the judges’ details of at least one skater near the beginning',
  advice: 'Copy the sheet alone, without the pages around it. Reading was stopped.',
});

/** Readers of PDF files and pictures, loaded only for bytes that are one. */
export async function readersFor(bytes: Uint8Array): Promise<Pick<IntakeOptions, 'pdf' | 'picture'>> {
  const form = sheetForm({ bytes });
  return form === 'pdf' || form === 'picture' ? (await import('../intake/node.ts')).nodeReaders() : {};
}

const named = (problem: Problem, name: string): Problem => (problem.at === 'file' ? { ...problem, at: name } : problem);

const lineOf = (at: string): number => Number(/(?:line|row) (\d+)/.exec(at)?.[1] ?? 1);

/** One sentence about what the reader of the sheet left in doubt; null for JSON and for clear sheets. */
export function doubtWarning(value: unknown): string | null {
  const reading = typeof value === 'object' && value !== null ? readings.get(value) : undefined;
  if (reading === undefined || reading.doubts.length + reading.problems.length === 0) return null;
  const places = reading.doubts.map((doubt) => doubt.at).slice(0, 5);
  const which =
    places.length === 0 ? '' : ` (${places.join(', ')}${reading.doubts.length > places.length ? ', …' : ''})`;
  return `Reading the sheet left ${reading.doubts.length + reading.problems.length} places in doubt${which}; \`edgeledger intake\` shows them.`;
}
