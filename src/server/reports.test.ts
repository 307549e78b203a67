import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { shippedLibrary } from '../rulebook/index.ts';
import { connect, recordStore, type Connection } from '../store/index.ts';
import { buildApp, reportPage } from './index.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'edgeledger-reports-'));
let connection: Connection;
let app: Awaited<ReturnType<typeof buildApp>>;
beforeAll(async () => {
  connection = await connect(':memory:');
  app = await buildApp({
    connection,
    webFolder: null,
    now: () => '2025-12-03T10:00:00Z',
    readSheet: () => Promise.resolve({ protocols: [], problems: [] }),
  });
  expect((await app.inject({ method: 'POST', url: '/api/demo' })).statusCode).toBe(204);
});
afterAll(async () => {
  await app.close();
  await connection.close();
  rmSync(folder, { recursive: true, force: true });
});

/** The words of a PDF, as a PDF reader of the system sees them. */
async function wordsOfPdf(url: string): Promise<string> {
  const answer = await app.inject({ method: 'GET', url });
  expect(answer.statusCode, answer.body.slice(0, 300)).toBe(200);
  expect(answer.headers['content-type']).toBe('application/pdf');
  const file = path.join(folder, 'report.pdf');
  writeFileSync(file, answer.rawPayload);
  execFileSync('pdftotext', ['-raw', file, path.join(folder, 'report.txt')]);
  return readFileSync(path.join(folder, 'report.txt'), 'utf8').replace(/\s+/g, ' ');
}

const OTHERS = ['Linus', 'Mara', 'Juna', 'Viktor'];

describe('reports as PDF', () => {
  it('a reading is held until the coach releases it', async () => {
    const held = await app.inject({ method: 'GET', url: '/api/reports/reading/demo-e6-demo-mara-free' });
    expect(held.statusCode).toBe(409);
    expect(held.json<{ title: string }>().title).toMatch(/not released/);
  });

  it('a released reading names no other child, no rank, and ends with what to do when something hurts', async () => {
    const words = await wordsOfPdf('/api/reports/reading/demo-e5-demo-pia-free');
    expect(words).toMatch(/Pia/);
    expect(words).toMatch(/What went up/);
    expect(words).toMatch(/stop and tell a parent and your coach/);
    for (const other of OTHERS) expect(words).not.toMatch(other);
    expect(words).not.toMatch(/\b(rank|place \d|lost|failed|weak|only|weight)\b/i);
    expect(words).not.toMatch(/!/);
  });

  it('planned content has every element with its time and no level', async () => {
    const words = await wordsOfPdf('/api/reports/content/layout-demo-mara-free');
    expect(words).toMatch(/2Lz\+2T\+2Lo\s+about 1:06/);
    expect(words).toMatch(/CCoSp\b/);
    expect(words).not.toMatch(/CCoSp3/);
  });

  it('a season, the targets and a day sheet can be printed', async () => {
    const season = await wordsOfPdf('/api/reports/season/demo-juna');
    expect(season).toMatch(/Copper Hill Classic, (?:free skate|short program), \d{1,2} \p{L}+ 202\d/u);
    expect(season).not.toMatch(/\d{4}-\d{2}-\d{2}/);
    expect(await wordsOfPdf('/api/reports/targets/demo-viktor')).toMatch(/Winter Bridge Cup/);
    const day = await wordsOfPdf('/api/reports/day/demo-e7');
    expect(day).toMatch(/Viktor/);
    expect(day).toMatch(/Plan B: free skate: If a combination loses its second jump, put \+2T/);
  });

  it('a season without a protocol can be printed too', async () => {
    const skater = await recordStore(connection, () => 'now').get('skaters', 'demo-juna');
    await app.inject({ method: 'PUT', url: '/api/skaters/new', payload: { ...skater, id: 'new', name: 'Wren' } });
    for (const kind of ['season', 'targets']) expect(await wordsOfPdf(`/api/reports/${kind}/new`)).toMatch(/Wren/);
  });

  it('an unknown record is a problem, not a page', async () => {
    expect((await app.inject({ method: 'GET', url: '/api/reports/season/nobody' })).statusCode).toBe(404);
  });
});

describe('reports with rulebooks of one’s own', () => {
  it.each([
    ['reading', 'demo-e5-demo-pia-free'],
    ['targets', 'demo-pia'],
  ] as const)('%s: are read with them, not with the shipped ones', async (kind, id) => {
    const now = (): string => '2025-12-03T10:00:00Z';
    const asked: string[] = [];
    const own = shippedLibrary();
    const rulebook: typeof own.rulebook = (wanted) => {
      asked.push(wanted);
      return own.rulebook(wanted);
    };
    const library = { ...own, rulebook };
    await reportPage(kind, id, { store: recordStore(connection, now), now, library });
    expect(asked).not.toEqual([]);
  });
});
