import type { Connection } from './connect.ts';
import { KINDS, type RecordOf } from './kinds.ts';
import { recordStore, type ListQuery } from './records.ts';

/** One skater with what her line on the start page is made of. */
export interface Person {
  readonly skater: RecordOf<'skaters'>;
  /** Her protocols by date, oldest first: what a line needs of them. */
  readonly protocols: readonly PersonProtocol[];
  /** Her newest run-throughs, newest first, ten at most. */
  readonly runs: readonly RecordOf<'runthroughs'>[];
}

export interface PersonProtocol {
  readonly id: string;
  /** ISO date; empty where none is known. */
  readonly date: string;
  /** Id of the competition, if it is known. */
  readonly event: string | null;
  /** Codes with their calls, in skating order. */
  readonly codes: readonly string[];
}

const RUNS_EACH = 10;

/**
 * A page of skaters with their protocols and run-throughs in three queries, however many skaters the page
 * has: asked one by one, forty skaters would cost eighty.
 */
export async function people(connection: Connection, query: ListQuery): Promise<Person[]> {
  const skaters = await recordStore(connection, () => '').list('skaters', query);
  if (skaters.length === 0) return [];
  const ids = skaters.map((s) => s.id);
  const protocols = bySkater(await protocolRows(connection, ids));
  const runs = bySkater(await newestRuns(connection, ids));
  return skaters.map((skater) => ({
    skater,
    protocols: (protocols.get(skater.id) ?? []).map((row) => ({
      id: row.id,
      date: row.sort,
      event: row.competition_id,
      codes: codesOf(row),
    })),
    runs: (runs.get(skater.id) ?? []).map((row) => KINDS.runthroughs.parse(JSON.parse(row.record))),
  }));
}

interface BriefRow {
  readonly id: string;
  readonly skater_id: string | null;
  readonly competition_id: string | null;
  readonly sort: string;
  readonly brief: string | null;
}

/** Ordered by skater first: by date alone SQLite would walk the protocols of everybody. */
const protocolRows = ({ db }: Connection, ids: readonly string[]): Promise<BriefRow[]> =>
  db
    .selectFrom('records')
    .select(['id', 'skater_id', 'competition_id', 'sort', 'brief'])
    .where('kind', '=', 'protocols')
    .where('skater_id', 'in', ids)
    .orderBy('skater_id')
    .orderBy('sort')
    .orderBy('id')
    .execute();

interface RunRow {
  readonly skater_id: string | null;
  readonly record: string;
}

const newestRuns = ({ db }: Connection, ids: readonly string[]): Promise<RunRow[]> =>
  db
    .selectFrom((outer) =>
      outer
        .selectFrom('records')
        .select(['skater_id', 'record'])
        .select((row) =>
          row.fn
            .agg<number | string>('row_number')
            .over((o) => o.partitionBy('skater_id').orderBy('sort', 'desc').orderBy('id'))
            .as('place'),
        )
        .where('kind', '=', 'runthroughs')
        .where('skater_id', 'in', ids)
        .as('ranked'),
    )
    .select(['skater_id', 'record'])
    .where('place', '<=', RUNS_EACH)
    .orderBy('place')
    .execute();

function bySkater<Row extends { readonly skater_id: string | null }>(
  rows: readonly Row[],
): ReadonlyMap<string, readonly Row[]> {
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    const key = row.skater_id ?? '';
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  return groups;
}

const codesOf = ({ brief }: BriefRow): string[] => (brief === null || brief === '' ? [] : brief.split(' '));
