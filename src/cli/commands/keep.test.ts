import { mkdirSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runCli } from '../testing/run-cli.ts';

let folder: string;
let env: { EDGELEDGER_STORE: string };
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'edgeledger-keep-'));
  env = { EDGELEDGER_STORE: path.join(folder, 'own', 'season.sqlite') };
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('backup', () => {
  it('is for its owner alone, and so is a folder that the store makes', async () => {
    const file = path.join(folder, 'backup.jsonl');
    expect(await runCli(['backup', file], '', env)).toMatchObject({ code: 0, err: '' });
    expect(statSync(file).mode & 0o077).toBe(0);
    expect(statSync(path.join(folder, 'own')).mode & 0o077).toBe(0);
  });

  it('into a folder says what to name instead', async () => {
    const { code, err } = await runCli(['backup', folder], '', env);
    expect(code).toBe(2);
    expect(err).toBe(`${folder}: is a folder; name a file in it, such as ${path.join(folder, 'season.jsonl')}.\n`);
  });

  it('that cannot be written says why and leaves nothing half-written', async () => {
    const file = path.join(folder, 'missing', 'backup.jsonl');
    const { code, err } = await runCli(['backup', file], '', env);
    expect(code).toBe(2);
    expect(err).toMatch(/cannot be written .* No backup was made/);
    const good = path.join(folder, 'backup.jsonl');
    mkdirSync(`${good}.part`);
    expect((await runCli(['backup', good], '', env)).code).toBe(2);
    expect(readdirSync(folder)).not.toContain('backup.jsonl');
  });
});

describe('a store that is none', () => {
  it.each(['export', 'serve'])('%s names its path and what to do', async (command) => {
    const at = { EDGELEDGER_STORE: folder };
    const { code, err } = await runCli([command], '', at);
    expect(code).toBe(2);
    expect(err).toMatch(`The store at ${folder} is a folder. Name a file in it`);
    expect(err).not.toMatch(/fault of its own/);
    const file = path.join(folder, 'notes.txt');
    writeFileSync(file, 'x'.repeat(5000));
    expect((await runCli([command], '', { EDGELEDGER_STORE: file })).err).toMatch(
      /notes\.txt is a file of another kind/,
    );
    const below = { EDGELEDGER_STORE: path.join(file, 'season.sqlite') };
    expect((await runCli([command], '', below)).err).toMatch(/EDGELEDGER_STORE/);
  });
});

describe('schema', () => {
  it.each(['__proto__', 'constructor', 'toString'])('%s is no form', async (name) => {
    const { code, err } = await runCli(['schema', name]);
    expect(code).toBe(2);
    expect(err).toMatch(`No form is called “${name}”`);
  });
});
