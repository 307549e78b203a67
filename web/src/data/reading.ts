import { describeProblem } from '../../../src/notation/index.ts';
import { readKept, type KeptReading, type ToldByPanel } from '../../../src/reading/index.ts';
import type { LayoutRecord, Note, ProtocolRecord, RecordOf } from './api.ts';
import { rules } from './rules.ts';

export type ReadingOf = (KeptReading & { readonly ok: true }) | { readonly ok: false; readonly why: string };

/** What stands beside a kept protocol when it is read. */
export interface Beside {
  readonly layouts: readonly LayoutRecord[];
  readonly others: readonly ProtocolRecord[];
  readonly fields: readonly RecordOf<'fields'>[];
  readonly told: readonly ToldByPanel[];
}

/** Reads a kept protocol in the browser, as the server reads it for a printed page. */
export function readingOf(record: ProtocolRecord, beside: Beside): ReadingOf {
  const made = readKept(record, { library: rules(), ...beside });
  return made.ok ? { ok: true, ...made.value } : { ok: false, why: describeProblem(made.error) };
}
