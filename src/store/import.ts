import { ok, type Result } from '../notation/index.ts';
import type { Connection } from './connect.ts';
import { readExport } from './exchange.ts';
import { rowOf } from './row.ts';

/**
 * Brings an export back, all or nothing: what the file holds replaces what the store holds.
 * @returns how many records and sheets the store then has from it, and which references in them lead nowhere.
 */
export async function importText(
  { db, scrub }: Connection,
  text: string,
): Promise<Result<{ records: number; sheets: number; loose: readonly string[] }>> {
  const read = readExport(text);
  if (!read.ok) return read;
  const { records, sheets, loose } = read.value;
  await db.transaction().execute(async (t) => {
    for (const table of ['records', 'sheets', 'journal'] as const) await t.deleteFrom(table).execute();
    for (const { kind, record } of records) await t.insertInto('records').values(rowOf(kind, record)).execute();
    for (const sheet of sheets) await t.insertInto('sheets').values(sheet).execute();
  });
  await scrub();
  return ok({ records: records.length, sheets: sheets.length, loose });
}
