import type { Transaction } from 'kysely';
import type { Connection } from './connect.ts';
import type { Database } from './database.ts';
import { journalled, type Edit, undoNewest, write, rawRecord } from './journal.ts';
import { KINDS, type Kind, type RecordOf } from './kinds.ts';
import { rowOf } from './row.ts';
import { removeSkater } from './remove-skater.ts';

export interface ListQuery {
  readonly skaterId?: string | undefined;
  readonly competitionId?: string | undefined;
  readonly segment?: string | undefined;
  readonly season?: string | undefined;
  /** What a note is about. */
  readonly aboutId?: string | undefined;
  /** Only these, at most 1000; an empty list asks for none. */
  readonly ids?: readonly string[] | undefined;
  /** Words that the sort text must contain, e.g. part of a name. */
  readonly find?: string | undefined;
  /** At most this many, 1 to 1000. */
  readonly limit?: number | undefined;
  /** Continue after this record (its sort text and id). */
  readonly after?: { readonly sort: string; readonly id: string } | undefined;
}

/** The store: typed records of every kind, each write journalled so that it can be undone. */
export interface Store {
  get<K extends Kind>(kind: K, id: string): Promise<RecordOf<K> | null>;
  list<K extends Kind>(kind: K, query?: ListQuery): Promise<RecordOf<K>[]>;
  count(kind: Kind): Promise<number>;
  /** Writes all or nothing. Writing the same record twice is the same as once. */
  put<K extends Kind>(kind: K, records: readonly RecordOf<K>[]): Promise<void>;
  /** Removes a record; with a skater goes all that is hers, and one undo brings all of it back. */
  remove(kind: Kind, id: string): Promise<boolean>;
  /** Takes back the newest edit that is not undone; null: there is none. */
  undo(): Promise<Edit | null>;
  clear(): Promise<void>;
}

/**
 * @param now the clock, as ISO text; given from outside so that tests can hold it.
 */
export function recordStore({ db, dialect, scrub }: Connection, now: () => string): Store {
  return {
    get: (kind, id) => read(kind, id),
    list,
    count: async (kind) => {
      const { n } = await db
        .selectFrom('records')
        .select((e) => e.fn.countAll<number | string>().as('n'))
        .where('kind', '=', kind)
        .executeTakeFirstOrThrow();
      return Number(n);
    },
    put: (kind, records) => db.transaction().execute((t) => putAll(t, kind, records, now())),
    remove: async (kind, id) => {
      if (kind !== 'skaters') return db.transaction().execute((t) => removeOne(t, kind, id, now()));
      const removed = await db.transaction().execute((t) => removeSkater(t, id, now()));
      if (removed) await scrub();
      return removed;
    },
    undo: () => db.transaction().execute(undoNewest),
    clear: async () => {
      await db.transaction().execute(async (t) => {
        for (const table of ['records', 'sheets', 'journal'] as const) await t.deleteFrom(table).execute();
      });
      await scrub();
    },
  };

  async function read<K extends Kind>(kind: K, id: string): Promise<RecordOf<K> | null> {
    const row = await db
      .selectFrom('records')
      .select('record')
      .where('kind', '=', kind)
      .where('id', '=', id)
      .executeTakeFirst();
    return row === undefined ? null : parse(kind, row.record);
  }

  async function list<K extends Kind>(kind: K, query: ListQuery = {}): Promise<RecordOf<K>[]> {
    let rows = db.selectFrom('records').select('record').where('kind', '=', kind);
    if (query.skaterId !== undefined) rows = rows.where('skater_id', '=', query.skaterId);
    if (query.competitionId !== undefined) rows = rows.where('competition_id', '=', query.competitionId);
    if (query.segment !== undefined) rows = rows.where('segment', '=', query.segment);
    if (query.season !== undefined) rows = rows.where('season', '=', query.season);
    if (query.aboutId !== undefined) rows = rows.where('about_id', '=', query.aboutId);
    if (query.ids !== undefined) {
      if (query.ids.length === 0) return [];
      rows = rows.where('id', 'in', query.ids);
    }
    // SQLite's like takes small and capital letters for the same, PostgreSQL's does not.
    const like = dialect === 'postgres' ? 'ilike' : 'like';
    if (query.find !== undefined) rows = rows.where('sort', like, `%${query.find.replace(/[%_]/g, ' ')}%`);
    const after = query.after;
    if (after !== undefined) {
      rows = rows.where((e) =>
        e.or([e('sort', '>', after.sort), e.and([e('sort', '=', after.sort), e('id', '>', after.id)])]),
      );
    }
    const limit = Math.min(Math.max(query.limit ?? 1000, 1), 1000);
    const found = await rows.orderBy('sort').orderBy('id').limit(limit).execute();
    return found.map((row) => parse(kind, row.record));
  }
}

const parse = <K extends Kind>(kind: K, record: string): RecordOf<K> =>
  KINDS[kind].parse(JSON.parse(record)) as RecordOf<K>;

async function putAll<K extends Kind>(
  t: Transaction<Database>,
  kind: K,
  records: readonly RecordOf<K>[],
  at: string,
): Promise<void> {
  for (const record of records) {
    const row = rowOf(kind, record);
    const before = await rawRecord(t, kind, row.id);
    if (before === row.record) continue;
    await write(t, row);
    await journalled(t, { at, kind, id: row.id, before, after: row.record });
  }
}

async function removeOne(t: Transaction<Database>, kind: Kind, id: string, at: string): Promise<boolean> {
  const before = await rawRecord(t, kind, id);
  if (before === null) return false;
  await t.deleteFrom('records').where('kind', '=', kind).where('id', '=', id).execute();
  await journalled(t, { at, kind, id, before, after: null });
  return true;
}
