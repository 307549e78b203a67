import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { connect, exportLines, hashOf, importText, recordStore, sheetStore, type Connection } from './index.ts';
import { goal, note, protocol, skater } from './testing/records.ts';

let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'edgeledger-gone-'));
  file = path.join(folder, 'season.sqlite');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const NAME = 'Ottoline';
const SHEET = new TextEncoder().encode(`${NAME}'s whole sheet, `.repeat(400));
/** Any middle piece of the sheet as the store writes it. */
const WRITTEN = Buffer.from(SHEET).toString('base64').slice(400, 440);

const TODAY = new Date().toISOString();
const storeOf = (connection: Connection, at = TODAY) => recordStore(connection, () => at);

async function fill(connection: Connection, at = TODAY): Promise<void> {
  const store = storeOf(connection, at);
  await sheetStore(connection).keep({
    id: 'sheet',
    name: `${NAME}.txt`,
    media: 'text/plain',
    sha256: hashOf(SHEET),
    bytes: SHEET,
    receivedAt: TODAY,
  });
  await store.put('skaters', [
    skater('s1', NAME),
    ...Array.from({ length: 20 }, (_, i) => skater(`x${i}`, `${NAME} ${i}`)),
  ]);
  await store.put('protocols', [{ ...protocol('p1', 's1', '2026-01-01', ['2A']), sheetId: 'sheet' }]);
  await store.put('goals', [goal('g1', 's1', `${NAME} runs it three times`)]);
  await store.put('notes', [
    note('n1', 'p1'),
    { ...note('n2', 's1'), about: 'skaters', text: `${NAME} likes blue` },
    { ...note('n3', 'p1'), about: 'layouts' },
  ]);
}

/** What a person with the disk in hand would read, log included. */
const onDisk = (): string =>
  readdirSync(folder)
    .map((name) => readFileSync(path.join(folder, name), 'latin1'))
    .join('');

const expectGone = (): void => {
  const bytes = onDisk();
  expect(bytes.length).toBeGreaterThan(1000);
  expect(bytes.split(NAME)).toHaveLength(1);
  expect(bytes.split(WRITTEN)).toHaveLength(1);
};

describe('what was removed is not in the file either', () => {
  it('after everything was cleared', async () => {
    const connection = await connect(file);
    await fill(connection);
    expect(onDisk()).toContain(NAME);
    expect(onDisk()).toContain(WRITTEN);
    await storeOf(connection).clear();
    expectGone();
    await connection.close();
    expectGone();
  });

  it('after another backup was restored over it', async () => {
    const connection = await connect(file);
    await storeOf(connection).put('skaters', [skater('s1', 'Wren')]);
    let text = '';
    for await (const line of exportLines(connection)) text += line;
    await fill(connection);
    expect((await importText(connection, text)).ok).toBe(true);
    await connection.close();
    expectGone();
    expect(onDisk()).toContain('Wren');
  });

  it('after a skater was removed and the days of undo are over', async () => {
    const connection = await connect(file);
    const longAgo = '2020-01-01T10:00:00Z';
    await fill(connection, longAgo);
    const store = storeOf(connection, longAgo);
    for (const { id } of await store.list('skaters')) await store.remove('skaters', id);
    await connection.close();
    await (await connect(file)).close();
    expectGone();
  }, 30_000);

  it('after one goal was removed: its row is overwritten at once', async () => {
    const connection = await connect(file);
    const secret = 'a line that nobody else wrote';
    await connection.db
      .insertInto('sheets')
      .values({ id: 'a', name: secret, media: '', sha256: '', content: '', size: 0, received_at: '' })
      .execute();
    await connection.db.deleteFrom('sheets').execute();
    await connection.close();
    expect(onDisk()).not.toContain(secret);
  });
});

describe('a skater who is removed', () => {
  it('takes all that is hers along, and one undo brings everything back', async () => {
    const connection = await connect(file);
    const store = storeOf(connection);
    await fill(connection);
    await store.put('competitions', [
      {
        id: 'e1',
        name: 'Alder Rink',
        date: '2026-12-05',
        endDate: null,
        body: null,
        panelSize: null,
        video: 'unknown',
        purpose: null,
        skaters: ['s1', 'x1'],
        deadlines: [{ what: 'music', date: '2026-11-30', skaters: ['s1'] }],
        freeze: null,
        note: null,
      },
    ]);
    const everything = async () => {
      let text = '';
      for await (const line of exportLines(connection)) text += line;
      return text;
    };
    const before = await everything();
    expect(await store.remove('skaters', 's1')).toBe(true);
    expect(await store.list('protocols')).toEqual([]);
    expect(await store.list('goals')).toEqual([]);
    // The third is about a layout that carries the same id as her protocol.
    expect((await store.list('notes')).map((n) => n.id)).toEqual(['n3']);
    expect(await sheetStore(connection).get('sheet')).toBeNull();
    expect(await store.get('competitions', 'e1')).toMatchObject({ skaters: ['x1'], deadlines: [{ skaters: [] }] });
    expect(await store.undo()).toMatchObject({ kind: 'skaters', id: 's1' });
    expect(await everything()).toBe(before);
    expect(await store.remove('skaters', 'nobody')).toBe(false);
    await connection.close();
  });

  it('leaves the original that another skater’s protocol comes from', async () => {
    const connection = await connect(file);
    const store = storeOf(connection);
    await fill(connection);
    await store.put('protocols', [{ ...protocol('p2', 'x1', '2026-01-01', ['2A']), sheetId: 'sheet' }]);
    await store.remove('skaters', 's1');
    expect(await sheetStore(connection).get('sheet')).not.toBeNull();
    await connection.close();
  });
});

describe('the file of a store', () => {
  it('is for its owner alone', async () => {
    const connection = await connect(file);
    await storeOf(connection).put('skaters', [skater('s1', NAME)]);
    for (const name of readdirSync(folder)) expect(statSync(path.join(folder, name)).mode & 0o077).toBe(0);
    await connection.close();
  });

  it('says with its path what to do where a folder or another file stands in its place', async () => {
    await expect(connect(folder)).rejects.toThrow(`The store at ${folder} is a folder. Name a file in it`);
    writeFileSync(file, 'no database at all, but a long enough text to be looked at as one. '.repeat(20));
    await expect(connect(file)).rejects.toThrow(`The store at ${file} is a file of another kind.`);
    expect(readFileSync(file, 'utf8')).toMatch(/^no database/);
  });
});
