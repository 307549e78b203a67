import type { Transaction } from 'kysely';
import type { Database } from './database.ts';
import { journalled, rawRecord, SHEETS, write } from './journal.ts';
import { KINDS, type RecordOf } from './kinds.ts';
import { rowOf } from './row.ts';

interface Found {
  readonly kind: string;
  readonly id: string;
  readonly record: string;
}

/**
 * Removes a skater with all that is hers: protocols with the originals that nobody else needs, layouts,
 * plans, run-throughs, goals, notes about any of these, and her place in events. One batch of the journal.
 */
export async function removeSkater(t: Transaction<Database>, id: string, at: string): Promise<boolean> {
  const skater = await rawRecord(t, 'skaters', id);
  if (skater === null) return false;
  const hers = await t.selectFrom('records').select(['kind', 'id', 'record']).where('skater_id', '=', id).execute();
  const self: Found = { kind: 'skaters', id, record: skater };
  const notes = await notesAbout(t, [...hers, self]);
  const going = [...notes, ...hers, self];

  // The batch has the number of its first entry.
  let batch: number | undefined;
  const told = async (kind: string, ofId: string, before: string, after: string | null): Promise<void> => {
    const no = await journalled(t, { at, kind, id: ofId, before, after, ...(batch === undefined ? {} : { batch }) });
    if (batch !== undefined) return;
    batch = no;
    await t.updateTable('journal').set({ batch }).where('no', '=', no).execute();
  };

  for (const event of await eventsNaming(t, id)) {
    const row = rowOf('competitions', without(KINDS.competitions.parse(JSON.parse(event.record)), id));
    if (row.record === event.record) continue;
    await write(t, row);
    await told('competitions', event.id, event.record, row.record);
  }
  for (const { kind, id: ofId } of going) {
    await t.deleteFrom('records').where('kind', '=', kind).where('id', '=', ofId).execute();
  }
  for (const sheet of await sheetsOnlyOf(t, hers)) {
    await t.deleteFrom('sheets').where('id', '=', sheet.id).execute();
    await told(SHEETS, sheet.id, JSON.stringify(sheet), null);
  }
  // She herself last, so that the journal's newest edit names her.
  for (const { kind, id: ofId, record } of going) await told(kind, ofId, record, null);
  return true;
}

async function notesAbout(t: Transaction<Database>, about: readonly Found[]): Promise<Found[]> {
  const found: Found[] = [];
  for (const { kind, id } of about) {
    const rows = await t
      .selectFrom('records')
      .select(['kind', 'id', 'record'])
      .where('about_id', '=', id)
      .where('kind', '=', 'notes')
      .execute();
    // Ids are one's own choice: a note about another kind may carry the same one.
    found.push(...rows.filter((row) => (JSON.parse(row.record) as RecordOf<'notes'>).about === kind));
  }
  return found;
}

const eventsNaming = (t: Transaction<Database>, id: string): Promise<{ id: string; record: string }[]> =>
  t
    .selectFrom('records')
    .select(['id', 'record'])
    .where('kind', '=', 'competitions')
    .where('record', 'like', `%"${id}"%`)
    .execute();

const without = (event: RecordOf<'competitions'>, id: string): RecordOf<'competitions'> => ({
  ...event,
  skaters: event.skaters.filter((s) => s !== id),
  deadlines: event.deadlines.map((d) => ({ ...d, skaters: d.skaters.filter((s) => s !== id) })),
});

/** Originals of these protocols that no protocol left in the store comes from. */
async function sheetsOnlyOf(t: Transaction<Database>, removed: readonly Found[]) {
  const ids = removed.flatMap(({ kind, record }) => {
    const { sheetId } = kind === 'protocols' ? (JSON.parse(record) as RecordOf<'protocols'>) : { sheetId: null };
    return sheetId === null ? [] : [sheetId];
  });
  const sheets = [];
  for (const id of new Set(ids)) {
    const others = await t
      .selectFrom('records')
      .select('record')
      .where('kind', '=', 'protocols')
      .where('record', 'like', `%"sheetId":"${id}"%`)
      .execute();
    const sheet = await t.selectFrom('sheets').selectAll().where('id', '=', id).executeTakeFirst();
    // To the database "_" in an id stands for any letter: what it found is looked at once more.
    const isNeeded = others.some(({ record }) => (JSON.parse(record) as RecordOf<'protocols'>).sheetId === id);
    if (!isNeeded && sheet !== undefined) sheets.push(sheet);
  }
  return sheets;
}
