import type { Kysely, Migration } from 'kysely';
import { sql } from 'kysely';
import { briefOf } from './brief.ts';
import { withRealDays } from './mend-days.ts';

/**
 * Migrations only add; a shipped one is never edited, so that yesterday's file opens today.
 * The dialects differ in one word: how a table counts its own rows.
 */
export const migrationsFor = (dialect: 'sqlite' | 'postgres'): Record<string, Migration> => ({
  '2026-11-25-first': {
    async up(db: Kysely<unknown>) {
      await db.schema
        .createTable('records')
        .addColumn('kind', 'text', (c) => c.notNull())
        .addColumn('id', 'text', (c) => c.notNull())
        .addColumn('skater_id', 'text')
        .addColumn('competition_id', 'text')
        .addColumn('segment', 'text')
        .addColumn('season', 'text')
        .addColumn('sort', 'text', (c) => c.notNull())
        .addColumn('record', 'text', (c) => c.notNull())
        .addPrimaryKeyConstraint('records_key', ['kind', 'id'])
        .execute();
      await db.schema.createIndex('records_by_kind').on('records').columns(['kind', 'sort', 'id']).execute();
      await db.schema
        .createIndex('records_by_skater')
        .on('records')
        .columns(['skater_id', 'kind', 'sort', 'id'])
        .execute();
      await db.schema
        .createIndex('records_by_competition')
        .on('records')
        .columns(['competition_id', 'kind', 'sort', 'id'])
        .execute();

      await db.schema
        .createTable('sheets')
        .addColumn('id', 'text', (c) => c.primaryKey())
        .addColumn('name', 'text', (c) => c.notNull())
        .addColumn('media', 'text', (c) => c.notNull())
        .addColumn('sha256', 'text', (c) => c.notNull())
        .addColumn('content', 'text', (c) => c.notNull())
        .addColumn('size', 'integer', (c) => c.notNull())
        .addColumn('received_at', 'text', (c) => c.notNull())
        .execute();

      const numbered = dialect === 'sqlite' ? sql`integer` : sql`serial`;
      await db.schema
        .createTable('journal')
        .addColumn('no', numbered, (c) => c.primaryKey())
        .addColumn('at', 'text', (c) => c.notNull())
        .addColumn('kind', 'text', (c) => c.notNull())
        .addColumn('id', 'text', (c) => c.notNull())
        .addColumn('before', 'text')
        .addColumn('after', 'text')
        .addColumn('undone', 'integer', (c) => c.notNull().defaultTo(0))
        .execute();
    },
  },
  '2026-11-25-held': {
    async up(db: Kysely<unknown>) {
      await db.schema.alterTable('records').addColumn('held', 'integer').execute();
      await sql`update records set held = 1 where kind = 'protocols' and record like '%"releasedAt":null%'`.execute(db);
      await db.schema.createIndex('records_by_held').on('records').columns(['held', 'kind', 'sort', 'id']).execute();
    },
  },
  '2026-11-28-lists': {
    async up(db: Kysely<unknown>) {
      await db.schema.alterTable('records').addColumn('about_id', 'text').execute();
      await db.schema.alterTable('records').addColumn('brief', 'text').execute();
      await fill(db, 'notes', 'about_id', (record) => (record as { aboutId: string }).aboutId);
      await fill(db, 'protocols', 'brief', (record) => briefOf((record as { form: unknown }).form));
      await db.schema.createIndex('records_by_about').on('records').columns(['about_id', 'kind']).execute();
    },
  },
  '2026-11-29-batches': {
    async up(db: Kysely<unknown>) {
      await db.schema.alterTable('journal').addColumn('batch', 'integer').execute();
    },
  },
  '2026-11-29-real-days': {
    async up(db: Kysely<unknown>) {
      for (const kind of ['skaters', 'competitions', 'protocols', 'goals', 'fields']) await mendDays(db, kind);
    },
  },
});

/** Days that do not exist would be refused today: the whole list of a kind could no longer be read. */
async function mendDays(db: Kysely<unknown>, kind: string): Promise<void> {
  for await (const { id, record } of recordsOf(db, kind)) {
    const mended = withRealDays(JSON.parse(record)) as Record<string, unknown>;
    const text = JSON.stringify(mended);
    if (text === record) continue;
    await sql`update records set record = ${text} where kind = ${kind} and id = ${id}`.execute(db);
    const day = mended.date ?? mended.due;
    if (typeof day === 'string')
      await sql`update records set sort = ${day} where kind = ${kind} and id = ${id}`.execute(db);
    if (kind === 'protocols' && mended.releasedAt === null) {
      await sql`update records set held = 1 where kind = ${kind} and id = ${id}`.execute(db);
    }
  }
}

/** Sets a column of every record of a kind to what its record says. */
async function fill(
  db: Kysely<unknown>,
  kind: string,
  column: string,
  valueOf: (record: unknown) => string,
): Promise<void> {
  for await (const { id, record } of recordsOf(db, kind)) {
    const value = valueOf(JSON.parse(record));
    await sql`update records set ${sql.ref(column)} = ${value} where kind = ${kind} and id = ${id}`.execute(db);
  }
}

/** Every record of a kind as it stands, fetched a thousand at a time. */
async function* recordsOf(db: Kysely<unknown>, kind: string): AsyncGenerator<{ id: string; record: string }> {
  for (let last = ''; ;) {
    const { rows } = await sql<{ id: string; record: string }>`
      select id, record from records where kind = ${kind} and id > ${last} order by id limit 1000`.execute(db);
    yield* rows;
    const end = rows.at(-1);
    if (end === undefined) return;
    last = end.id;
  }
}
