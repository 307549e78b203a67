import type { Connection } from './connect.ts';
import { KINDS, type RecordOf } from './kinds.ts';

/** Protocols that are not released yet: how many, and the newest of them. */
export interface Held {
  readonly count: number;
  readonly newest: readonly RecordOf<'protocols'>[];
}

/**
 * Asked by an index of its own, so that the start page does not grow with the store.
 * @param limit how many of the newest are given whole, 1 to 100.
 */
export async function heldProtocols({ db }: Connection, limit: number): Promise<Held> {
  const held = db.selectFrom('records').where('held', '=', 1).where('kind', '=', 'protocols');
  const { n } = await held.select((e) => e.fn.countAll<number | string>().as('n')).executeTakeFirstOrThrow();
  const rows = await held
    .select('record')
    .orderBy('sort', 'desc')
    .orderBy('id')
    .limit(Math.min(Math.max(limit, 1), 100))
    .execute();
  return { count: Number(n), newest: rows.map((row) => KINDS.protocols.parse(JSON.parse(row.record))) };
}
