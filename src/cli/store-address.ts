import { mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import path from 'node:path';
import type { Io } from './io.ts';

/**
 * Where the season is kept: `DATABASE_URL` for a club's PostgreSQL, else `EDGELEDGER_STORE`, else one
 * SQLite file in the person's own folder. Folders that are missing are made.
 */
export function storeAddress({ env }: Pick<Io, 'env'>): string {
  const club = env.DATABASE_URL;
  if (club !== undefined && club !== '') return club;
  const file = env.EDGELEDGER_STORE ?? path.join(homedir(), '.edgeledger', 'season.sqlite');
  if (file !== ':memory:') mkdirSync(path.dirname(path.resolve(file)), { recursive: true });
  return file;
}
