import { describeProblem } from '../../../src/notation/index.ts';
import { readKept, toldIn, type KeptReading } from '../../../src/reading/index.ts';
import { audit, type Audit } from '../../../src/scoring/index.ts';
import type { LayoutRecord, Note, ProtocolRecord, RecordOf } from './api.ts';
import { rules } from './rules.ts';

/** A reading with every figure recomputed beside it: what the numbers on the page are made of. */
type ReadAndAudited = KeptReading & { readonly ok: true; readonly audited: Audit };

export type ReadingOf = ReadAndAudited | { readonly ok: false; readonly why: string };

/** What stands beside a kept protocol when it is read. */
export interface Beside {
  /** Issuing body of the skater, where the sheet names none. */
  readonly body: string | null;
  readonly layouts: readonly LayoutRecord[];
  readonly others: readonly ProtocolRecord[];
  readonly fields: readonly RecordOf<'fields'>[];
  readonly notes: readonly Note[];
}

/** Reads a kept protocol in the browser, as the server reads it for a printed page. */
export function readingOf(record: ProtocolRecord, { notes, ...beside }: Beside): ReadingOf {
  const made = readKept(record, { library: rules(), ...beside, told: toldIn(notes, record.id) });
  if (!made.ok) return { ok: false, why: describeProblem(made.error) };
  return { ok: true, ...made.value, audited: audit(made.value.protocol, made.value.rules) };
}
