import SqliteDatabase from 'better-sqlite3';
import { closeSync, openSync, statSync } from 'node:fs';
import path from 'node:path';
import { Kysely, Migrator, PostgresDialect, sql, SqliteDialect } from 'kysely';
import pg from 'pg';
import type { Database } from './database.ts';
import { migrationsFor } from './migrations.ts';

export interface Connection {
  readonly db: Kysely<Database>;
  readonly dialect: 'sqlite' | 'postgres';
  /** Takes what was deleted out of the file too: its free pages and its log are written anew. */
  readonly scrub: () => Promise<void>;
  close(): Promise<void>;
}

/**
 * Opens the store and brings its tables up to date.
 *
 * @param address a path of a SQLite file, `:memory:`, or `postgres://…`
 * @throws if the address cannot be opened; the message names it without its password.
 */
export async function connect(address: string): Promise<Connection> {
  const dialect = /^postgres(ql)?:\/\//.test(address) ? 'postgres' : 'sqlite';
  const db = dialect === 'postgres' ? openPostgres(address) : openSqlite(address);
  try {
    await migrate(db, dialect);
  } catch (cause) {
    await db.destroy();
    const place = dialect === 'postgres' ? address.replace(/\/\/[^@/]*@/, '//…@') : address;
    throw new Error(`The store at ${place} could not be opened or brought up to date. Nothing was changed.`, { cause });
  }
  const connection: Connection = { db, dialect, scrub: () => scrub(db, dialect), close: () => db.destroy() };
  await forgetOldEdits(connection);
  return connection;
}

const UNDO_DAYS = 30;

/** A skater who was removed is not kept in the journal for ever only because an edit could be taken back. */
async function forgetOldEdits({ db, scrub: rewrite }: Connection): Promise<void> {
  const since = new Date(Date.now() - UNDO_DAYS * 24 * 60 * 60 * 1000).toISOString();
  const { numDeletedRows } = await db.deleteFrom('journal').where('at', '<', since).executeTakeFirstOrThrow();
  if (numDeletedRows > 0n) await rewrite();
}

function openSqlite(address: string): Kysely<Database> {
  const file = openFile(address);
  // FULL: an entry that was confirmed at the boards survives a dead battery. It costs a third of a millisecond.
  file.pragma('synchronous = FULL');
  file.pragma('foreign_keys = ON');
  file.pragma('busy_timeout = 5000');
  // What is deleted is overwritten at once, not left readable in the file until the space is used again.
  file.pragma('secure_delete = ON');
  return new Kysely<Database>({ dialect: new SqliteDialect({ database: file }) });
}

/** Names of children are for the person whose machine it is: nobody else there may read a new file. */
const OWNER_ONLY = 0o600;

function openFile(address: string): SqliteDatabase.Database {
  if (statSync(address, { throwIfNoEntry: false })?.isDirectory() === true) {
    const file = path.join(address, 'season.sqlite');
    throw new Error(`The store at ${address} is a folder. Name a file in it, such as ${file}, in EDGELEDGER_STORE.`);
  }
  try {
    // The log beside the file takes the rights of the file.
    if (address !== ':memory:' && address !== '') closeSync(openSync(address, 'a', OWNER_ONLY));
    const file = new SqliteDatabase(address);
    file.pragma('journal_mode = WAL');
    return file;
  } catch (cause) {
    const isOther = cause instanceof Error && 'code' in cause && cause.code === 'SQLITE_NOTADB';
    const why = isOther
      ? 'is a file of another kind. Nothing was changed. Name another file in EDGELEDGER_STORE, or move this one away.'
      : `cannot be opened (${cause instanceof Error ? cause.message : String(cause)}). Check the path and your rights there.`;
    throw new Error(`The store at ${address} ${why}`, { cause });
  }
}

/** PostgreSQL keeps house itself; for a file of its own, SQLite has to be told. */
async function scrub(db: Kysely<Database>, dialect: 'sqlite' | 'postgres'): Promise<void> {
  if (dialect === 'postgres') return;
  try {
    await sql`vacuum`.execute(db);
    await sql`pragma wal_checkpoint(truncate)`.execute(db);
  } catch (error) {
    // Another program has the store open. The rows are overwritten already; the log goes when the last one closes.
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    if (!code.startsWith('SQLITE_BUSY') && !code.startsWith('SQLITE_LOCKED')) throw error;
  }
}

function openPostgres(address: string): Kysely<Database> {
  return new Kysely<Database>({
    dialect: new PostgresDialect({ pool: new pg.Pool({ connectionString: address, max: 8 }) }),
  });
}

async function migrate(db: Kysely<Database>, dialect: 'sqlite' | 'postgres'): Promise<void> {
  const migrations = migrationsFor(dialect);
  const migrator = new Migrator({ db, provider: { getMigrations: () => Promise.resolve(migrations) } });
  const { error } = await migrator.migrateToLatest();
  if (error !== undefined) throw new Error('A migration failed.', { cause: error });
}
