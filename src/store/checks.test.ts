import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createHash } from 'node:crypto';
import SqliteDatabase from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { isDay, isDeeperThan, isTime } from './checks.ts';
import { connect, hashOf, KINDS, readExport, recordStore } from './index.ts';
import { goal, protocol, skater } from './testing/records.ts';

describe('days and times', () => {
  it.each(['2026-13-45', '2026-11-31', '2026-02-29', '0000-01-01', '9999-12-31', '2026-1-1', 'soon'])(
    '%s is no day',
    (text) => expect(isDay(text)).toBe(false),
  );
  it.each(['2026-11-30', '2028-02-29', '2026-01-01'])('%s is one', (text) => expect(isDay(text)).toBe(true));

  it('a release is a moment', () => {
    expect(isTime('2026-11-25T10:00:00.000Z')).toBe(true);
    for (const text of ['yes', '2026-11-25', '2026-11-31T10:00:00Z', '2026-11-25T25:00:00Z']) {
      expect(isTime(text)).toBe(false);
      expect(KINDS.protocols.safeParse({ ...protocol('p', 's', '2026-01-01', []), releasedAt: text }).success).toBe(
        false,
      );
    }
  });

  it('depth is counted without going deep', () => {
    let nested: unknown = 1;
    for (let i = 0; i < 100_000; i += 1) nested = [nested];
    expect(isDeeperThan(nested, 100)).toBe(true);
    expect(isDeeperThan({ a: [{ b: 1 }] }, 3)).toBe(false);
  });
});

describe('a store from before days were checked', () => {
  it('opens, with the nearest days that exist', async () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'edgeledger-days-'));
    const file = path.join(folder, 'season.sqlite');
    const made = await connect(file);
    await recordStore(made, () => new Date().toISOString()).put('goals', [goal('g1', 's1', 'music in')]);
    await made.close();
    const old = new SqliteDatabase(file);
    old.exec("update records set record = replace(record, '2026-12-01', '2026-11-31'), sort = '2026-11-31'");
    old.exec("delete from kysely_migration where name = '2026-11-29-real-days'");
    old.close();
    const connection = await connect(file);
    const [mended] = await recordStore(connection, () => 'now').list('goals');
    expect(mended?.due).toBe('2026-11-30');
    await connection.close();
    rmSync(folder, { recursive: true });
  });
});

/** An export with these lines and a closing line that fits them. */
function exportOf(values: readonly unknown[]): string {
  const lines = values.map((value) => JSON.stringify(value));
  const sha256 = createHash('sha256').update(lines.join('')).digest('hex');
  const end = JSON.stringify({ end: { lines: lines.length, sha256 } });
  return [JSON.stringify({ format: 'edgeledger-export/1' }), ...lines, end].join('\n');
}

const content = Buffer.from('a sheet');
const sheet = {
  id: 'a',
  name: 'a.txt',
  media: 'text/plain',
  sha256: hashOf(content),
  content: content.toString('base64'),
  size: content.byteLength,
  received_at: '2026-01-01T10:00:00Z',
};
const hers = { kind: 'skaters', record: skater('s1', 'Juno') };

describe('what is restored', () => {
  it.each([
    ['a sheet with another hash', [hers, { sheet: { ...sheet, sha256: hashOf(Buffer.from('b')) } }], 3, /its hash/],
    ['a sheet with another size', [hers, { sheet: { ...sheet, size: 3 } }], 3, /7 bytes that says it has 3/],
    ['a sheet that is no base64', [hers, { sheet: { ...sheet, content: '%%%' } }], 3, /not base64/],
    ['a record twice', [hers, { sheet }, hers], 4, /same record as in line 2/],
    ['a sheet twice', [{ sheet }, hers, { sheet }], 4, /same sheet as in line 2/],
    [
      'a day that does not exist',
      [{ ...hers, record: { ...hers.record, nextLesson: '2026-11-31' } }],
      2,
      /Juno|"kind"/,
    ],
  ])('is refused with its line: %s', (_name, lines, line, found) => {
    const read = readExport(exportOf(lines));
    expect(read).toMatchObject({ ok: false, error: { at: `line ${line}` } });
    if (!read.ok) expect(read.error.found).toMatch(found);
  });

  it('is taken where a reference leads nowhere, and that is said', () => {
    const record = { ...protocol('p1', 's9', '2026-01-01', []), sheetId: 'a' };
    expect(readExport(exportOf([hers, { kind: 'protocols', record }, { sheet }]))).toMatchObject({
      ok: true,
      value: { loose: ['line 3: skaters s9 is not in the file'] },
    });
  });
});
