import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { shippedLibrary } from '../rulebook/index.ts';
import { connect, KINDS, kindNames, type Connection, type RecordOf } from '../store/index.ts';
import { buildApp } from './index.ts';
import { jobRunner } from './jobs.ts';

let connection: Connection;
let app: Awaited<ReturnType<typeof buildApp>>;
beforeEach(async () => {
  connection = await connect(':memory:');
  app = await buildApp({
    connection,
    webFolder: null,
    now: () => '2026-11-25T10:00:00Z',
    readSheet: (bytes, name) =>
      Promise.resolve({
        protocols: [{ form: { name, size: bytes.byteLength }, doubts: [], confidence: 1 }],
        problems: [],
      }),
  });
});
afterEach(async () => {
  await app.close();
  await connection.close();
});

const juno: RecordOf<'skaters'> = {
  id: 's1',
  name: 'Juno',
  category: 'juvenile women',
  body: null,
  nextLesson: '2026-12-01',
  notNow: [],
  archived: false,
};
const ask = (method: 'GET' | 'PUT' | 'POST' | 'DELETE', url: string, payload?: unknown, headers = {}) =>
  app.inject({ method, url, headers, ...(payload === undefined ? {} : { payload: payload as object }) });

describe('records', () => {
  it('are written, read, listed, removed, and come back by undo', async () => {
    expect((await ask('PUT', '/api/skaters/s1', juno)).statusCode).toBe(200);
    expect((await ask('GET', '/api/skaters/s1')).json()).toEqual(juno);
    expect((await ask('GET', '/api/skaters?find=Jun')).json()).toEqual([juno]);
    expect((await ask('DELETE', '/api/skaters/s1')).statusCode).toBe(204);
    expect((await ask('GET', '/api/skaters/s1')).statusCode).toBe(404);
    expect((await ask('POST', '/api/undo')).json()).toMatchObject({ kind: 'skaters', id: 's1' });
    expect((await ask('GET', '/api/skaters/s1')).json()).toEqual(juno);
  });

  it('that do not fit are refused with the place, and nothing is kept', async () => {
    const answer = await ask('PUT', '/api/skaters/s1', { ...juno, category: 'toddlers' });
    expect(answer.statusCode).toBe(400);
    expect(answer.headers['content-type']).toMatch('application/problem+json');
    expect(answer.json<{ detail: string }>().detail).toMatch(/category/);
    expect((await ask('GET', '/api/skaters')).json()).toEqual([]);
  });

  it('with an address that cannot be decoded or a name with a NUL are refused in the same form', async () => {
    const bad = await ask('GET', '/api/skaters/%ff');
    expect(bad.statusCode).toBe(400);
    expect(bad.headers['content-type']).toMatch('application/problem+json');
    expect((await ask('PUT', '/api/skaters/s1', { ...juno, name: 'Ju\u0000no' })).statusCode).toBe(400);
  });

  it('keep their address', async () => {
    expect((await ask('PUT', '/api/skaters/other', juno)).statusCode).toBe(409);
  });
});

describe('everything', () => {
  it('goes out as one file and comes back', async () => {
    await ask('PUT', '/api/skaters/s1', juno);
    const file = (await ask('GET', '/api/export')).body;
    const clear = await ask('POST', '/api/clear', { confirm: 'remove everything' });
    expect(clear.statusCode).toBe(204);
    expect((await ask('GET', '/api/skaters')).json()).toEqual([]);
    expect((await ask('POST', '/api/import', { text: file })).json()).toEqual({ records: 1, sheets: 0, loose: [] });
    expect((await ask('GET', '/api/skaters')).json()).toEqual([juno]);
  });

  it('refuses a record that stands twice with the line of the second', async () => {
    const line = JSON.stringify({ kind: 'skaters', record: juno });
    const sha256 = createHash('sha256')
      .update(line + line)
      .digest('hex');
    const end = JSON.stringify({ end: { lines: 2, sha256 } });
    const text = ['{"format":"edgeledger-export/1"}', line, line, end].join('\n');
    const answer = await ask('POST', '/api/import', { text });
    expect(answer.statusCode).toBe(422);
    expect(answer.json<{ problems: { at: string }[] }>().problems[0]?.at).toBe('line 3');
  });

  it('refuses a torn file with the line', async () => {
    const answer = await ask('POST', '/api/import', { text: 'junk' });
    expect(answer.statusCode).toBe(422);
    expect(answer.json<{ problems: { at: string }[] }>().problems[0]?.at).toBe('line 1');
  });
});

describe('sheets', () => {
  it('are kept byte for byte, once, and read by a job', async () => {
    const bytes = Buffer.from([0, 1, 2, 255]);
    const headers = { 'content-type': 'application/octet-stream', 'x-sheet-name': 'my%20sheet.pdf' };
    const job = await app.inject({ method: 'POST', url: '/api/sheets?keep=now', headers, payload: bytes });
    expect(job.statusCode).toBe(202);
    const { id } = job.json<{ id: string }>();
    await new Promise((resolve) => setImmediate(resolve));
    const view = (await ask('GET', `/api/jobs/${id}`)).json<{
      state: string;
      result: { sheetId: string; name: string };
    }>();
    expect(view).toMatchObject({ state: 'done', result: { name: 'my sheet.pdf', protocols: [{ form: { size: 4 } }] } });
    const back = await ask('GET', `/api/sheets/${view.result.sheetId}`);
    expect([...back.rawPayload]).toEqual([...bytes]);
    expect(back.headers['content-disposition']).toMatch(/^attachment/);
    const again = await app.inject({ method: 'POST', url: '/api/sheets?keep=now', headers, payload: bytes });
    await new Promise((resolve) => setImmediate(resolve));
    const second = (await ask('GET', `/api/jobs/${again.json<{ id: string }>().id}`)).json<{
      result: { sheetId: string };
    }>();
    expect(second.result.sheetId).toBe(view.result.sheetId);
  });

  it('are read without being kept, and kept without being read, where the reader is the browser', async () => {
    const headers = { 'content-type': 'application/octet-stream', 'x-sheet-name': 'late.pdf' };
    const payload = Buffer.from([3, 1, 4, 1, 5]);
    const job = await app.inject({ method: 'POST', url: '/api/sheets', headers, payload });
    const { id } = job.json<{ id: string }>();
    await new Promise((resolve) => setImmediate(resolve));
    expect((await ask('GET', `/api/jobs/${id}`)).json()).toMatchObject({ state: 'done', result: { sheetId: null } });
    const kept = await app.inject({ method: 'POST', url: '/api/sheets/keep', headers, payload });
    expect(kept.statusCode).toBe(201);
    const { sheetId } = kept.json<{ sheetId: string }>();
    expect([...(await ask('GET', `/api/sheets/${sheetId}`)).rawPayload]).toEqual([...payload]);
    const again = await app.inject({ method: 'POST', url: '/api/sheets/keep', headers, payload });
    expect(again.json()).toEqual({ sheetId });
    const empty = await app.inject({ method: 'POST', url: '/api/sheets/keep', headers, payload: Buffer.alloc(0) });
    expect(empty.statusCode).toBe(400);
  });

  it('that are empty are refused', async () => {
    const headers = { 'content-type': 'application/octet-stream' };
    expect(
      (await app.inject({ method: 'POST', url: '/api/sheets', headers, payload: Buffer.alloc(0) })).statusCode,
    ).toBe(400);
  });
});

describe('the calendar', () => {
  it('names events, deadlines and freezes, with text escaped as the standard asks', async () => {
    const event: RecordOf<'competitions'> = {
      id: 'e1',
      name: 'Alder Rink; autumn, 1st',
      date: '2026-12-05',
      endDate: '2026-12-06',
      body: null,
      panelSize: null,
      video: 'unknown',
      purpose: null,
      skaters: [],
      freeze: '2026-12-01',
      note: null,
      deadlines: [{ what: 'planned content due', date: '2026-11-30', skaters: [] }],
    };
    await ask('PUT', '/api/competitions/e1', event);
    const file = await ask('GET', '/api/calendar.ics');
    expect(file.headers['content-type']).toMatch('text/calendar');
    expect(file.body).toContain('SUMMARY:Alder Rink\\; autumn\\, 1st\r\n');
    expect(file.body).toContain('DTSTART;VALUE=DATE:20261205\r\nDTEND;VALUE=DATE:20261207\r\n');
    expect(file.body.match(/BEGIN:VEVENT/g)).toHaveLength(3);
  });
});

describe('days that do not exist', () => {
  const event = {
    id: 'e1',
    name: 'Alder Rink',
    date: '2026-12-05',
    endDate: '2026-12-06',
    body: null,
    panelSize: null,
    video: 'unknown',
    purpose: null,
    skaters: [],
    freeze: null,
    note: null,
    deadlines: [],
  };
  it.each([
    ['date', { date: '2026-13-45' }],
    ['endDate', { endDate: '2026-11-31' }],
    ['endDate', { endDate: '2026-12-04' }],
    ['freeze', { freeze: '2026-02-30' }],
    ['deadlines/0/date', { deadlines: [{ what: 'music', date: '2026-11-31', skaters: [] }] }],
  ])('%s is refused with its place, and the calendar goes on', async (place, part) => {
    const answer = await ask('PUT', '/api/competitions/e1', { ...event, ...part });
    expect(answer.statusCode).toBe(400);
    expect(answer.json<{ problems: { at: string }[] }>().problems[0]?.at).toMatch(place);
    expect((await ask('GET', '/api/calendar.ics')).statusCode).toBe(200);
  });
});

describe('what is nested without end', () => {
  it('is refused, in settings and in forms', async () => {
    const deep = '{"a":'.repeat(5000) + '1' + '}'.repeat(5000);
    const headers = { 'content-type': 'application/json' };
    for (const [url, payload] of [
      ['/api/settings/a', `{"id":"a","value":${deep}}`],
      ['/api/layouts/a', `{"id":"a","form":${deep}}`],
    ] as const) {
      expect((await app.inject({ method: 'PUT', url, headers, payload })).statusCode).toBe(400);
    }
  });
});

describe('foreign pages', () => {
  it('are refused by name and by origin', async () => {
    expect((await ask('GET', '/api/skaters', undefined, { host: 'evil.example' })).statusCode).toBe(403);
    const foreign = { host: 'localhost:80', origin: 'http://evil.example' };
    expect((await ask('PUT', '/api/skaters/s1', juno, foreign)).statusCode).toBe(403);
    const own = { host: 'localhost:80', origin: 'http://localhost:80' };
    expect((await ask('PUT', '/api/skaters/s1', juno, own)).statusCode).toBe(200);
  });
});

describe('rulebooks', () => {
  it('are named, and none is the coach’s own where no folder was given', async () => {
    const { ids, own } = (await ask('GET', '/api/rulebooks')).json<{ ids: string[]; own: unknown[] }>();
    expect(ids).toEqual(shippedLibrary().list());
    expect(own).toEqual([]);
  });
});

describe('the OpenAPI document', () => {
  it('names every kind with the same schema as the store', async () => {
    const document = (await ask('GET', '/api/openapi.json')).json<{
      openapi: string;
      paths: Record<string, unknown>;
    }>();
    expect(document.openapi).toBe('3.1.0');
    for (const kind of kindNames) expect(document.paths).toHaveProperty([`/api/${kind}/{id}`]);
  });

  it('is kept under generated requests: no answer is a 5xx, every 200 fits its schema, every refusal is a problem', async () => {
    const problem = z.object({ type: z.string(), status: z.int(), title: z.string(), detail: z.string() });
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...kindNames),
        fc.constantFrom('GET', 'PUT', 'DELETE' as const),
        fc.string({ maxLength: 20 }),
        fc.jsonValue(),
        async (kind, method, id, body) => {
          const url = `/api/${kind}/${encodeURIComponent(id)}`;
          const answer = await ask(method, url, method === 'PUT' ? (body ?? undefined) : undefined);
          expect(answer.statusCode).toBeLessThan(500);
          if (answer.statusCode >= 400) problem.parse(answer.json());
          else if (method !== 'DELETE') z.union([KINDS[kind], z.array(KINDS[kind])]).parse(answer.json());
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('long work', () => {
  it('tells how far it is, can be watched to its end, and can be stopped', async () => {
    let n = 0;
    const jobs = jobRunner(() => `j${(n += 1)}`);
    const seen: string[] = [];
    const job = jobs.start('reading', async (progress) => {
      progress(0.5, 'page 1 of 2');
      await Promise.resolve();
      return 'read';
    });
    const ended = new Promise((resolve) =>
      jobs.watch(job.id, (view) => {
        seen.push(view.saying);
        if (view.state === 'done') resolve(view.result);
      }),
    );
    expect(await ended).toBe('read');
    expect(seen).toContain('page 1 of 2');

    const endless = jobs.start(
      'endless',
      (_progress, signal) =>
        new Promise((_, reject) => {
          signal.addEventListener('abort', () => reject(new Error('stopped')));
        }),
    );
    expect(jobs.stop(endless.id)).toBe(true);
    expect(jobs.view(endless.id)?.state).toBe('stopped');
    expect(jobs.stop('unknown')).toBe(false);
  });
});
