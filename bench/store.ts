/**
 * The store at the size of a federation's club, measured: 2,000 skaters with 25 protocols each. What the
 * start page, the search by name and one skater's page ask, over HTTP on loopback, on SQLite and on
 * PostgreSQL; bar: 100 ms at the 99th percentile. Then what writing one record costs at that size.
 * Needs PostgreSQL's binaries (`npm test` installs them).
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { buildApp } from '../src/server/index.ts';
import { connect, recordStore, type RecordOf } from '../src/store/index.ts';
import { startPostgres } from '../test/support/postgres.ts';

const SKATERS = 2000;
const PROTOCOLS_EACH = 25;
const RUNS_EACH = 12;
const ROUNDS = 300;

const forms = readFileSync(new URL('../test/data/protocols-2016-2018.jsonl', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .map((line) => JSON.parse(line) as Record<string, unknown>);

const two = (n: number): string => String(n).padStart(2, '0');
const skaterId = (i: number): string => `s${i}`;
const nameOf = (i: number): string => `Skater ${((i * 7919) % SKATERS).toString(36)}-${i}`;

const skater = (i: number): RecordOf<'skaters'> => ({
  id: skaterId(i),
  name: nameOf(i),
  category: 'novice women',
  body: null,
  nextLesson: null,
  notNow: [],
  archived: false,
});

const protocol = (i: number, k: number): RecordOf<'protocols'> => ({
  id: `p${i}-${k}`,
  skaterId: skaterId(i),
  competitionId: `e${k}`,
  sheetId: null,
  category: 'senior women',
  segment: k % 2 === 0 ? 'short' : 'free',
  season: '2017/18',
  date: `${2016 + Math.floor(k / 12)}-${two((k % 12) + 1)}-14`,
  practice: false,
  tes: 3000,
  pcs: 2500,
  total: 5500,
  form: forms[(i * PROTOCOLS_EACH + k) % forms.length] ?? {},
  reader: '1',
  onHerPage: [],
  releasedAt: k === PROTOCOLS_EACH - 1 && i % 40 === 0 ? null : '2018-06-01T10:00:00Z',
});

const run = (i: number, k: number): RecordOf<'runthroughs'> => ({
  id: `r${i}-${k}`,
  skaterId: skaterId(i),
  layoutId: null,
  segment: 'free',
  at: `2018-06-${two(k + 1)}T10:00:00Z`,
  exceptions: k % 3 === 0 ? [{ no: 2, code: '2A', what: 'fall' }] : [],
  note: null,
});

const times = (n: number): number[] => Array.from({ length: n }, (_, i) => i);

async function measure(name: string, address: string): Promise<void> {
  const connection = await connect(address);
  const store = recordStore(connection, () => new Date().toISOString());
  const filling = performance.now();
  for (let from = 0; from < SKATERS; from += 100) {
    const some = times(100).map((i) => from + i);
    await store.put('skaters', some.map(skater));
    await store.put(
      'protocols',
      some.flatMap((i) => times(PROTOCOLS_EACH).map((k) => protocol(i, k))),
    );
    await store.put(
      'runthroughs',
      some.flatMap((i) => times(RUNS_EACH).map((k) => run(i, k))),
    );
  }
  const protocols = await store.count('protocols');
  console.log(
    JSON.stringify({ bench: 'store', on: name, protocols, fillS: round((performance.now() - filling) / 1000) }),
  );

  const app = await buildApp({
    connection,
    webFolder: null,
    readSheet: () => Promise.reject(new Error('nothing is read here')),
    requestsPerMinute: 1_000_000,
  });
  const base = await app.listen({ port: 0, host: '127.0.0.1' });
  const any = (round: number): number => (round * 7907) % SKATERS;
  const asked: Record<string, (round: number) => string> = {
    'first page of skaters': () => '/api/people?limit=40',
    'a later page': (r) => `/api/people?limit=40&afterName=${encodeURIComponent(nameOf(any(r)))}&afterId=x`,
    'skaters by part of a name': (r) => `/api/skaters?limit=40&find=${encodeURIComponent(nameOf(any(r)).slice(7))}`,
    'not released': () => '/api/held',
    'one skater’s protocols': (r) => `/api/protocols?skaterId=${skaterId(any(r))}`,
    'one event’s protocols': (r) => `/api/protocols?competitionId=e${any(r) % PROTOCOLS_EACH}&limit=40`,
  };
  for (const [what, address] of Object.entries(asked)) {
    const taken: number[] = [];
    for (const r of times(ROUNDS)) {
      const start = performance.now();
      const answer = await fetch(base + address(r));
      const list: unknown = await answer.json();
      if (!answer.ok) throw new Error(`${address(r)}: ${JSON.stringify(list)}`);
      taken.push(performance.now() - start);
    }
    taken.sort((a, b) => a - b);
    const at = (share: number): number => round(taken[Math.ceil(share * taken.length) - 1] ?? NaN);
    console.log(JSON.stringify({ bench: 'store', on: name, what, p50: at(0.5), p99: at(0.99), most: at(1) }));
  }
  const written: number[] = [];
  for (const r of times(ROUNDS)) {
    const start = performance.now();
    await store.put('protocols', [{ ...protocol(any(r), 3), total: r }]);
    written.push(performance.now() - start);
  }
  written.sort((a, b) => a - b);
  console.log(JSON.stringify({ bench: 'store', on: name, what: 'write a protocol', p99: round(written[296] ?? NaN) }));
  await app.close();
  await connection.close();
}

const round = (value: number): number => Math.round(value * 10) / 10;

const folder = mkdtempSync(path.join(tmpdir(), 'edgeledger-bench-'));
const server = await startPostgres();
try {
  await measure('SQLite', path.join(folder, 'season.sqlite'));
  await measure('PostgreSQL', server.address);
} finally {
  await server.stop();
  rmSync(folder, { recursive: true, force: true });
}
