import { readSheet, sheetForm, type IntakeOptions, type SheetReading } from '../intake/index.ts';
import { fail, ok, type Problem } from '../notation/index.ts';
import { libraryInUse } from './overlays.ts';
import type { InputValue } from './values.ts';

const readings = new WeakMap<object, SheetReading>();

/**
 * Reads protocols from what is not JSON: every form of sheet that `intake` knows. Readers of PDF files
 * and pictures are heavy and are loaded only when bytes that are no text arrive.
 */
export async function* readSheets(bytes: Buffer, name: string): AsyncGenerator<InputValue> {
  const readers = await readersFor(bytes);
  for await (const item of readSheet({ bytes, name }, { library: libraryInUse(), ...readers })) {
    if ('problem' in item) yield { line: lineOf(item.problem.at), read: fail(named(item.problem, name)) };
    else {
      const protocol = { ...item.sheet.protocol };
      readings.set(protocol, item.sheet);
      yield { line: lineOf(item.sheet.from), read: ok(protocol) };
    }
  }
}

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
