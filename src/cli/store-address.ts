import { mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import path from 'node:path';
import { UsageError, type Io } from './io.ts';

/**
 * Where the season is kept: `DATABASE_URL` for a club's PostgreSQL, else `EDGELEDGER_STORE`, else one
 * SQLite file in the person's own folder. Folders that are missing are made.
 */
export function storeAddress({ env }: Pick<Io, 'env'>): string {
  const club = env.DATABASE_URL;
  if (club !== undefined && club !== '') return club;
  const file = env.EDGELEDGER_STORE ?? path.join(homedir(), '.edgeledger', 'season.sqlite');
  if (file === ':memory:') return file;
  const folder = path.dirname(path.resolve(file));
  try {
    // A folder that is made here is for its owner alone.
    mkdirSync(folder, { recursive: true, mode: 0o700 });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new UsageError(
      `The store's folder ${folder} cannot be made (${why}). Name another place in EDGELEDGER_STORE.`,
    );
  }
  return file;
}
