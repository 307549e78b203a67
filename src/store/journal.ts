import type { Insertable, Selectable, Transaction } from 'kysely';
import type { Database, JournalTable, RecordTable, SheetTable } from './database.ts';
import { KINDS, type Kind } from './kinds.ts';
import { rowOf } from './row.ts';

/** One record of the journal: an edit that can be undone. */
export interface Edit {
  readonly no: number;
  readonly at: string;
  readonly kind: string;
  readonly id: string;
}

/** An original sheet stands in the journal under this name; it is no kind of record. */
export const SHEETS = 'sheets';

type Entry = Omit<Insertable<JournalTable>, 'no' | 'undone' | 'batch'> & { readonly batch?: number };

/** Writes one edit down. @returns its number. */
export async function journalled(t: Transaction<Database>, entry: Entry): Promise<number> {
  const { no } = await t
    .insertInto('journal')
    .values({ batch: null, ...entry, undone: 0 })
    .returning('no')
    .executeTakeFirstOrThrow();
  return no;
}

/** Takes back the newest edit, and with it those that were made in one batch with it. */
export async function undoNewest(t: Transaction<Database>): Promise<Edit | null> {
  const open = t.selectFrom('journal').selectAll().where('undone', '=', 0).orderBy('no', 'desc');
  const newest = await open.limit(1).executeTakeFirst();
  if (newest === undefined) return null;
  const edits = newest.batch === null ? [newest] : await open.where('batch', '=', newest.batch).execute();
  for (const edit of edits) {
    await takeBack(t, edit);
    await t.updateTable('journal').set({ undone: 1 }).where('no', '=', edit.no).execute();
  }
  return { no: newest.no, at: newest.at, kind: newest.kind, id: newest.id };
}

async function takeBack(t: Transaction<Database>, { kind, id, before }: Selectable<JournalTable>): Promise<void> {
  if (kind === SHEETS) {
    if (before === null) return;
    const sheet = JSON.parse(before) as Insertable<SheetTable>;
    await t
      .insertInto('sheets')
      .values(sheet)
      .onConflict((c) => c.column('id').doNothing())
      .execute();
    return;
  }
  const known = kindNamed(kind);
  if (before !== null) await write(t, rowOf(known, JSON.parse(before)));
  else await t.deleteFrom('records').where('kind', '=', known).where('id', '=', id).execute();
}

function kindNamed(name: string): Kind {
  if (Object.hasOwn(KINDS, name)) return name as Kind;
  throw new Error(`The journal names the kind "${name}", which this version does not know.`);
}

export async function rawRecord(t: Transaction<Database>, kind: Kind, id: string): Promise<string | null> {
  const row = await t
    .selectFrom('records')
    .select('record')
    .where('kind', '=', kind)
    .where('id', '=', id)
    .executeTakeFirst();
  return row?.record ?? null;
}

export async function write(t: Transaction<Database>, row: Insertable<RecordTable>): Promise<void> {
  await t
    .insertInto('records')
    .values(row)
    .onConflict((c) => c.columns(['kind', 'id']).doUpdateSet(row))
    .execute();
}
