import { describeProblem } from '../../../src/notation/index.ts';
import { fieldOf, read, type Reading } from '../../../src/reading/index.ts';
import type { ChosenRules } from '../../../src/rulebook/index.ts';
import { readLayout, readProtocol, type Protocol } from '../../../src/scoring/index.ts';
import type { LayoutRecord, ProtocolRecord, RecordOf } from './api.ts';
import { rules } from './rules.ts';
import { chooseRules } from '../../../src/rulebook/index.ts';

export type ReadingOf =
  | { readonly ok: true; readonly reading: Reading; readonly protocol: Protocol; readonly rules: ChosenRules }
  | { readonly ok: false; readonly why: string };

/**
 * Reads a kept protocol in the browser, from the same pure rooms as the command line: against her
 * layout of that segment where there is one, else against her own earlier protocols.
 */
export function readingOf(
  record: ProtocolRecord,
  layouts: readonly LayoutRecord[],
  others: readonly ProtocolRecord[],
  fields: readonly RecordOf<'fields'>[],
): ReadingOf {
  const protocol = readProtocol(record.form);
  if (!protocol.ok) return { ok: false, why: describeProblem(protocol.error) };
  const chosen = chooseRules(rules(), {
    rulebook: protocol.value.rulebook ?? undefined,
    body: protocol.value.body ?? undefined,
    season: record.season,
    date: record.date ?? undefined,
    category: record.category,
    segment: record.segment,
  });
  if (!chosen.ok) return { ok: false, why: describeProblem(chosen.error) };
  const planned = layoutFor(record, layouts);
  const layout = planned === null ? null : readLayout(planned.form);
  const history = others
    .filter((o) => o.segment === record.segment && o.id !== record.id && (o.date ?? '') < (record.date ?? ''))
    .flatMap((o) => {
      const earlier = readProtocol(o.form);
      return earlier.ok ? [earlier.value] : [];
    });
  const reading = read(protocol.value, chosen.value, {
    ...(layout?.ok === true ? { layout: layout.value } : {}),
    ...(history.length > 0 ? { history } : {}),
    field: fieldOf(fieldFor(record, fields), chosen.value.values.values.panel),
  });
  return { ok: true, reading, protocol: protocol.value, rules: chosen.value };
}

/** The sheets of her event, category and segment, without names. */
const fieldFor = (record: ProtocolRecord, fields: readonly RecordOf<'fields'>[]): Protocol[] =>
  fields
    .filter((f) => f.segment === record.segment && f.category === record.category)
    .flatMap((f) => f.protocols)
    .flatMap((form) => {
      const sheet = readProtocol(form);
      return sheet.ok ? [sheet.value] : [];
    });

/** The layout that stood when the program was skated: the newest saved before its date, else the current one. */
function layoutFor(record: ProtocolRecord, layouts: readonly LayoutRecord[]): LayoutRecord | null {
  const own = layouts.filter((l) => l.segment === record.segment && l.season === record.season);
  const before = own.filter((l) => record.date !== null && l.savedAt.slice(0, 10) <= record.date);
  return before.toSorted((a, b) => a.version - b.version).at(-1) ?? own.find((l) => l.current) ?? null;
}
