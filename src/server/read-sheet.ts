import { describeProblem } from '../notation/index.ts';
import { readSheet, type SheetReading } from '../intake/index.ts';
import { nodeReaders } from '../intake/node.ts';
import { shippedLibrary } from '../rulebook/index.ts';
import type { SheetReader } from './context.ts';

/** Reads a sheet with the intake room; stops between pages when the coach presses Stop. */
export const sheetReader: SheetReader = async (bytes, name, progress, signal) => {
  const protocols: { form: object; doubts: readonly object[]; confidence: number }[] = [];
  const problems: string[] = [];
  const options = { library: shippedLibrary(), ...nodeReaders(), shouldStop: () => signal.aborted };
  for await (const item of readSheet({ bytes, name }, options)) {
    if ('problem' in item) problems.push(describeProblem(item.problem));
    else {
      protocols.push(answerOf(item.sheet));
      problems.push(...item.sheet.problems.map(describeProblem));
    }
    progress(null, `Reading ${name}: ${protocols.length} ${protocols.length === 1 ? 'skater' : 'skaters'} so far.`);
    if (signal.aborted) throw new Error('Stopped. Nothing was kept.');
  }
  return { protocols, problems };
};

const answerOf = ({ protocol, doubts, confidence }: SheetReading) => ({ form: protocol, doubts, confidence });
