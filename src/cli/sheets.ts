import { readSheet, type SheetReading } from '../intake/index.ts';
import { fail, ok, type Problem } from '../notation/index.ts';
import { libraryInUse } from './overlays.ts';
import type { InputValue } from './values.ts';

const readings = new WeakMap<object, SheetReading>();

/**
 * Reads protocols from what is not JSON: every form of sheet that `intake` knows. Readers of PDF files
 * and pictures are heavy and are loaded only when bytes that are no text arrive.
 */
export async function* readSheets(bytes: Buffer, name: string): AsyncGenerator<InputValue> {
  const text = !bytes.subarray(0, 1024).includes(0) && bytes.subarray(0, 5).toString('latin1') !== '%PDF-';
  const readers = text ? {} : (await import('../intake/node.ts')).nodeReaders();
  for await (const item of readSheet({ bytes, name }, { library: libraryInUse(), ...readers })) {
    if ('problem' in item) yield { line: lineOf(item.problem.at), read: fail(named(item.problem, name)) };
    else {
      const protocol = { ...item.sheet.protocol };
      readings.set(protocol, item.sheet);
      yield { line: lineOf(item.sheet.from), read: ok(protocol) };
    }
  }
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
