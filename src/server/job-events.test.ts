import { Writable } from 'node:stream';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { shippedLibrary } from '../rulebook/index.ts';
import { connect, type Connection } from '../store/index.ts';
import { demoSeason } from './demo/season.ts';
import { sheetText } from './demo/sheet-text.ts';
import { buildApp, sheetReader } from './index.ts';
import { eventWriter } from './job-events.ts';
import type { JobView } from './jobs.ts';

const view = (saying: string, state: JobView['state'] = 'working'): JobView => ({
  id: 'j',
  what: 'reading',
  state,
  share: null,
  saying,
  result: 'a body of a megabyte',
  error: null,
});

describe('a watcher who does not read', () => {
  it('is sent the newest state when there is room again, and nothing in between', async () => {
    const sent: string[] = [];
    let go: () => void = () => undefined;
    const out = new Writable({
      highWaterMark: 1,
      write: (chunk: Buffer, _encoding, done) => {
        sent.push(chunk.toString());
        go = done;
      },
    });
    const tell = eventWriter(out);
    for (let i = 0; i < 100; i += 1) tell(view(`page ${i}`));
    tell(view('read', 'done'));
    expect(sent).toHaveLength(1);
    go();
    await new Promise((resolve) => setImmediate(resolve));
    expect(sent).toHaveLength(2);
    expect(sent[1]).toMatch(/"saying":"read","error":null,"resultAt":"\/api\/jobs\/j"/);
    expect(sent.join('')).not.toMatch(/megabyte/);
    expect(out.writableEnded).toBe(true);
    tell(view('late'));
  });
});

describe('jobs of the server', () => {
  let connection: Connection;
  let app: Awaited<ReturnType<typeof buildApp>>;
  let finish: () => void = () => undefined;
  beforeEach(async () => {
    connection = await connect(':memory:');
    app = await buildApp({
      connection,
      webFolder: null,
      readSheet: () =>
        new Promise((resolve) => {
          finish = () => resolve({ protocols: [], problems: ['the whole result'] });
        }),
    });
  });
  afterEach(async () => {
    await app.close();
    await connection.close();
  });

  it('are watched eight times at most, and hand their result over at one address', async () => {
    const address = await app.listen({ port: 0, host: '127.0.0.1' });
    const headers = { 'content-type': 'application/octet-stream' };
    const started = await fetch(`${address}/api/sheets`, { method: 'POST', headers, body: 'x' });
    const { id } = (await started.json()) as JobView;
    const watching = [];
    for (let i = 0; i < 8; i += 1) watching.push(await fetch(`${address}/api/jobs/${id}/events`));
    expect(watching.map((w) => w.status)).toEqual(Array(8).fill(200));
    expect((await fetch(`${address}/api/jobs/${id}/events`)).status).toBe(429);
    finish();
    for (const one of watching) {
      const text = await one.text();
      expect(text).toContain(`"resultAt":"/api/jobs/${id}"`);
      expect(text).not.toContain('the whole result');
    }
    const done = (await (await fetch(`${address}/api/jobs/${id}`)).json()) as JobView;
    expect(done).toMatchObject({ state: 'done', result: { problems: ['the whole result'] } });
  });
});

describe('reading a long text', () => {
  it('lets others have their turn, and stops when it is asked to', async () => {
    const { protocols } = await demoSeason();
    const text = protocols.map(sheetText).join('\n').repeat(3);
    const stop = new AbortController();
    let turns = 0;
    let seen = 0;
    const turn = (): void => {
      turns += 1;
      if (seen >= 5) stop.abort();
      else setImmediate(turn);
    };
    setImmediate(turn);
    const reading = sheetReader(shippedLibrary())(
      new TextEncoder().encode(text),
      'book.txt',
      () => (seen += 1),
      stop.signal,
    );
    await expect(reading).rejects.toThrow(/Stopped/);
    expect(turns).toBeGreaterThan(1);
    expect(seen).toBeLessThan(protocols.length * 3);
  }, 60_000);
});
