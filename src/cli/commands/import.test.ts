import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { writeProtocol, type Protocol } from '../../scoring/index.ts';
import { demoSeason, sheetText } from '../../server/index.ts';
import { runCli } from '../testing/run-cli.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'edgeledger-import-'));
const env = { EDGELEDGER_STORE: path.join(folder, 'season.sqlite') };
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let wren: Protocol[];
let field: Protocol[];
beforeAll(async () => {
  const { protocols } = await demoSeason();
  const [first, second, third, fourth] = protocols;
  if (first === undefined || second === undefined || third === undefined || fourth === undefined) throw new Error();
  wren = [
    { ...first, skater: 'Wren' },
    { ...second, skater: 'Wren' },
  ];
  field = [
    { ...first, skater: 'Wren' },
    { ...third, skater: 'Ottoline' },
    { ...fourth, skater: 'Perpetua' },
  ];
});
beforeEach(() => {
  for (const end of ['', '-wal', '-shm']) rmSync(`${env.EDGELEDGER_STORE}${end}`, { force: true });
});

function fileOf(name: string, protocols: readonly Protocol[]): string {
  const file = path.join(folder, name);
  writeFileSync(file, protocols.map((p) => JSON.stringify(writeProtocol(p))).join('\n'));
  return file;
}

interface Line {
  readonly kind?: string;
  readonly record?: { readonly name?: string; readonly sheetId?: string | null };
  readonly sheet?: { readonly content: string };
}

/** The store as its export has it. */
async function kept() {
  const { out } = await runCli(['export'], '', env);
  const lines = out.split('\n').flatMap((line) => (line === '' ? [] : [JSON.parse(line) as Line]));
  return {
    text: out + lines.map(({ sheet }) => Buffer.from(sheet?.content ?? '', 'base64').toString('utf8')).join('\n'),
    skaters: lines.filter((l) => l.kind === 'skaters').map((l) => l.record?.name),
    protocols: lines.filter((l) => l.kind === 'protocols').map((l) => l.record?.sheetId ?? null),
    sheets: lines.filter((l) => l.sheet !== undefined).length,
  };
}

describe('import', () => {
  it('keeps a file of one skater with its original; two sheets of hers make one skater', async () => {
    const file = fileOf('wren.jsonl', wren);
    expect(await runCli(['import', file], '', env)).toMatchObject({ code: 0, out: `${file}: 2 of 2 kept.\n`, err: '' });
    const first = await kept();
    expect(first).toMatchObject({ skaters: ['Wren'], sheets: 1 });
    expect(first.protocols).toHaveLength(2);
    expect(first.protocols).not.toContain(null);
    await runCli(['import', file], '', env);
    expect((await kept()).text).toBe(first.text);
  });

  it('keeps no file that names others, unless it is asked to', async () => {
    const file = fileOf('field.jsonl', field);
    const done = await runCli(['import', file, '--skater', 'Wren'], '', env);
    expect(done.code).toBe(0);
    expect(done.out).toMatch(/1 of 3 kept\.\n.*the file itself was not kept; --keep-file keeps it/);
    const without = await kept();
    expect(without).toMatchObject({ skaters: ['Wren'], protocols: [null], sheets: 0 });
    expect(without.text).not.toMatch(/Ottoline|Perpetua/);
    await runCli(['import', file, '--skater', 'Wren', '--keep-file'], '', env);
    const withFile = await kept();
    expect(withFile).toMatchObject({ skaters: ['Wren'], sheets: 1 });
    expect(withFile.protocols).toHaveLength(1);
    expect(withFile.text).toMatch(/Ottoline/);
  });

  it('says why nothing was kept, adds nobody and exits 1', async () => {
    const done = await runCli(['import', fileOf('field.jsonl', field)], '', env);
    expect(done.code).toBe(1);
    expect(done.out).toMatch(/0 of 3 kept\.\n\s+Wren: not one of your skaters; --skater NAME adds her\./);
    expect(await kept()).toMatchObject({ skaters: [], protocols: [], sheets: 0 });
  });

  it('adds no skater for a sheet in doubt', async () => {
    const file = path.join(folder, 'doubtful.txt');

    const [one] = wren;
    if (one === undefined) throw new Error();
    // One element's score does not fit its own row, and the sum fits neither.
    writeFileSync(
      file,
      sheetText({ ...one, elements: one.elements.map((e, i) => (i === 1 ? { ...e, score: 1 } : e)) }),
    );
    const done = await runCli(['import', file], '', env);
    expect(done.out).toMatch(/0 of 1 kept\.\n {2}Wren: \d+ figures are in doubt/);
    expect(done.code).toBe(1);
    expect(await kept()).toMatchObject({ skaters: [], sheets: 0 });
  });

  it('goes on after a file that is not there, and says of each what happened', async () => {
    const [a, b] = [fileOf('a.jsonl', wren.slice(0, 1)), fileOf('b.jsonl', wren.slice(1))];
    const done = await runCli(['import', a, 'missing.txt', b], '', env);
    expect(done).toEqual({
      code: 2,
      out: `${a}: 1 of 1 kept.\n${b}: 1 of 1 kept.\n`,
      err: 'missing.txt: cannot be opened; check the path. Nothing of it was kept.\n',
    });
    expect((await kept()).protocols).toHaveLength(2);
  });
});
