import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

import { runCli } from '../testing/run-cli.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'rulebooks-'));
const CHART = 'overlay: us/2025-26\ntitle: our chart\nspins:\n  intermediate: { cap: 3 }\n';
beforeAll(() => {
  writeFileSync(path.join(folder, 'chart.yaml'), CHART);
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

interface Value {
  readonly path: string;
  readonly value: unknown;
  readonly citation: { readonly source: string; readonly status: string; readonly provisional: boolean };
}
const valueAt = (text: string, at: string): Value | undefined =>
  (JSON.parse(text) as { values: Value[] }).values.find((one) => one.path === at);

describe('rulebook list', () => {
  it('gives one line per rulebook', async () => {
    const { out, code } = await runCli(['rulebook', 'list', '--json']);
    const ids = out
      .trim()
      .split('\n')
      .map((line) => (JSON.parse(line) as { id: string }).id);
    expect(code).toBe(0);
    expect(ids).toContain('isu/2016-17');
    expect(ids).toContain('us/2023-24');
    expect((await runCli(['rulebook', 'list'])).out).toMatch(/^isu\/2026-27 .* provisional$/m);
  });
});

describe('rulebook show', () => {
  it('gives values and rows with their sources', async () => {
    const { out, code } = await runCli(['rulebook', 'show', 'isu/2023-24', '--json']);
    expect(code).toBe(0);
    expect(valueAt(out, 'values.repeatPercent')).toMatchObject({ value: 70, citation: { status: 'memory' } });
    const row = (JSON.parse(out) as { rows: { code: string; base: number }[] }).rows.find((one) => one.code === '3Lz<');
    expect(row?.base).toBe(4.72);
  });

  it('can be asked for a part', async () => {
    const { out } = await runCli(['rulebook', 'show', 'us/2023-24', '--at', 'content.novice.free']);
    expect(out).toContain('content.novice.free.jumpElements.max: 6');
    expect(out).toContain('[not from a document, doubtful] from memory, weak: check your chart');
    expect(out).not.toContain('content.junior');
  });

  it('of a category: what stands under it, its age group and all', async () => {
    const { out } = await runCli(['rulebook', 'show', 'isu/2023-24', '--at', 'steps.advanced novice women']);
    expect(out).toContain('steps.all.turnCounts: 5, 7, 9');
    expect(out).toContain('steps.advanced novice.cap: 3');
    expect(out).not.toContain('steps.senior.cap');
  });

  it('stays within 80 columns', async () => {
    const { out } = await runCli(['rulebook', 'show', 'isu/2024-25', '--rows']);
    const long = out.split('\n').filter((line) => line.length > 80);
    expect(long).toEqual([]);
  });

  it('refuses an id that names nothing', async () => {
    const { out, err, code } = await runCli(['rulebook', 'show', 'isu/1999-00']);
    expect([out, code]).toEqual(['', 2]);
    expect(err).toContain('isu/2023-24');
    expect(err).toContain('npm run build');
  });
});

describe('rulebook diff', () => {
  it('tells what a new season brings', async () => {
    const { out, code } = await runCli(['rulebook', 'diff', 'isu/2018-19', 'isu/2019-20']);
    expect(code).toBe(0);
    expect(out).toContain('scale.signs.<: 75 -> 80');
    expect(out).toMatch(/^ {2}3F<: 3\.98 .* -> 4\.24/m);
  });

  it('as JSON, with the sources of both sides', async () => {
    const { out } = await runCli(['rulebook', 'diff', 'isu/2025-26', 'isu/2026-27', '--json']);
    const { changes } = JSON.parse(out) as { changes: { path: string; after: Value | null }[] };
    const six = changes.find((one) => one.path === 'content.senior.free.jumpElements.max');
    expect(six?.after).toMatchObject({ value: 6, citation: { provisional: true } });
  });

  it('finds nothing between a rulebook and itself', async () =>
    expect((await runCli(['rulebook', 'diff', 'us/2023-24', 'us/2023-24'])).out).toContain('Nothing changes.'));

  it('of one id twice: what an overlay changes', async () => {
    const { out } = await runCli(['--rulebooks', folder, 'rulebook', 'diff', 'us/2025-26', 'us/2025-26']);
    expect(out).toContain('spins.intermediate.cap: not known -> 3');
    expect(out).toContain('our chart');
  });
});

describe('rulebook check', () => {
  it('is content with a good file', async () => {
    const { out, code } = await runCli(['rulebook', 'check', path.join(folder, 'chart.yaml')]);
    expect([out.includes('well made'), code]).toEqual([true, 0]);
  });

  it('says what a file of rulebooks/ needs beyond that', async () => {
    const { out } = await runCli(['rulebook', 'check', path.join(folder, 'chart.yaml')]);
    expect(out).toContain('needs a source for every value');
  });

  it('knows a shipped file, and tells a changed one what to do', async () => {
    const name = 'rulebooks/isu/2026-27.yaml';
    const same = await runCli(['rulebook', 'check', name]);
    expect([same.out.includes('shipped with the program'), same.code]).toEqual([true, 0]);
    const text = readFileSync(name, 'utf8').replace('title: ', 'title: other ');
    const changed = await runCli(['rulebook', 'check', '-'], text);
    expect(changed.code).toBe(1);
    expect(changed.out).toContain('npm run build');
  });

  it('notes a value that no category gets, and only such a one', async () => {
    const general = 'overlay: isu/2025-26\ncontent:\n  senior: { free: { jumpElements: { max: 5 }, maxUnits: 2 } }\n';
    const { out, code } = await runCli(['rulebook', 'check', '-', '--json'], general);
    const { ok, warnings } = JSON.parse(out) as { ok: boolean; warnings: string[] };
    expect([ok, code]).toEqual([true, 0]);
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toContain('content.senior.free.jumpElements.max reaches no category');
    const special = general.replace('senior:', 'senior women:');
    expect((await runCli(['rulebook', 'check', '-'], special)).out).not.toContain('reaches no category');
  });

  it('locates what is wrong, exit 1', async () => {
    const { out, code } = await runCli(['rulebook', 'check', '-', '--json'], CHART.replace('cap', 'kap'));
    const { ok, problems } = JSON.parse(out) as { ok: boolean; problems: { at: string }[] };
    expect([ok, code]).toEqual([false, 1]);
    expect(problems[0]?.at).toBe('-, line 4: spins.intermediate.kap');
  });

  it('refuses what is no rulebook file, exit 2, nothing on standard output', async () => {
    for (const [words, input] of [
      [['rulebook', 'check', path.join(folder, 'missing.yaml')], ''],
      [['rulebook', 'check', '-'], 'a: [1, 2'],
    ] as const) {
      const { out, err, code } = await runCli(words, input);
      expect([out, code]).toEqual(['', 2]);
      expect(err).not.toBe('');
    }
  });
});

describe('--rulebooks FOLDER', () => {
  it('lays somebody’s files over the shipped ones', async () => {
    const words = ['rulebook', 'show', 'us/2025-26', '--json', '--rulebooks', folder];
    expect(valueAt((await runCli(words)).out, 'spins.intermediate.cap')).toMatchObject({
      value: 3,
      citation: { source: 'our chart', status: 'local' },
    });
    // The next command line knows nothing of it.
    expect(valueAt((await runCli(words.slice(0, 4))).out, 'spins.intermediate.cap')?.value).toBeNull();
  });

  it('answers nothing with half of somebody’s rules', async () => {
    const bad = mkdtempSync(path.join(tmpdir(), 'rulebooks-'));
    writeFileSync(path.join(bad, 'a.yaml'), CHART.replace('3', 'three'));
    const { out, err, code } = await runCli(['--rulebooks', bad, 'rulebook', 'list']);
    rmSync(bad, { recursive: true });
    expect([out, code]).toEqual(['', 2]);
    expect(err).toContain('a.yaml, line 4: spins.intermediate.cap: found "three"');
  });

  it('says when there is no such folder', async () => {
    const { err, code } = await runCli(['--rulebooks', path.join(folder, 'none'), 'rulebook', 'list']);
    expect(code).toBe(2);
    expect(err).toContain('no folder of rulebooks');
  });
});
