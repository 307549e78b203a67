import SqliteDatabase from 'better-sqlite3';
import { Kysely, Migrator, PostgresDialect, SqliteDialect } from 'kysely';
import pg from 'pg';
import type { Database } from './database.ts';
import { migrationsFor } from './migrations.ts';

export interface Connection {
  readonly db: Kysely<Database>;
  readonly dialect: 'sqlite' | 'postgres';
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
  return { db, dialect, close: () => db.destroy() };
}

function openSqlite(path: string): Kysely<Database> {
  const file = new SqliteDatabase(path);
  file.pragma('journal_mode = WAL');
  // FULL: an entry that was confirmed at the boards survives a dead battery. It costs a third of a millisecond.
  file.pragma('synchronous = FULL');
  file.pragma('foreign_keys = ON');
  file.pragma('busy_timeout = 5000');
  return new Kysely<Database>({ dialect: new SqliteDialect({ database: file }) });
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
