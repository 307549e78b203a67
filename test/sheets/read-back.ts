import { readSheet, type SheetReading } from '../../src/intake/index.ts';
import { nodeReaders } from '../../src/intake/node.ts';
import { shippedLibrary } from '../../src/rulebook/index.ts';
import { compareReading, type Comparison, noComparison } from './compare.ts';
import type { Form } from './forms.ts';
import { printedProtocol } from './printed.ts';
import type { SheetProtocol } from './protocols.ts';

export interface ReadBack extends Comparison {
  /** Sheets found; more or fewer than were printed is a silent error too. */
  sheets: number;
  doubts: number;
  problems: string[];
}

/** Reads a book of this form and holds every figure against what was printed. */
export async function readBack(bytes: Uint8Array, protocols: readonly SheetProtocol[], form: Form): Promise<ReadBack> {
  const result: ReadBack = { ...noComparison(), sheets: 0, doubts: 0, problems: [] };
  for await (const item of readSheet({ bytes }, { library: shippedLibrary(), ...nodeReaders() })) {
    if ('problem' in item) result.problems.push(`${item.problem.code} at ${item.problem.at}`);
    else count(result, item.sheet, protocols[result.sheets], form);
  }
  // A book that was not read to its end says so by a problem.
  if (result.sheets !== protocols.length && result.problems.length === 0)
    result.silent.push(`${protocols.length} sheets read as ${result.sheets}`);
  return result;
}

function count(result: ReadBack, reading: SheetReading, protocol: SheetProtocol | undefined, form: Form): void {
  result.sheets += 1;
  result.doubts += reading.doubts.length;
  if (protocol === undefined) return;
  const one = compareReading(printedProtocol(protocol, form), reading);
  result.right += one.right;
  result.doubted += one.doubted;
  result.silent.push(...one.silent.map((error) => `${protocol.id}: ${error}`));
}
