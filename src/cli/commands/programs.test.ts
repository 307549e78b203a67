import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { runCli } from '../testing/run-cli.ts';

const element = (code: string) => ({ code, outcomes: [{ p: 1, code, grade: { '0': 1 } }] });

const program = (codes: readonly string[], more: object = {}) =>
  JSON.stringify({
    id: 'p1',
    season: '2025/26',
    category: 'senior women',
    segment: 'free',
    elements: codes.map(element),
    components: [],
    form: { sd: 0 },
    ...more,
  });

interface Verdict {
  readonly rule: string;
  readonly status: string;
  readonly cost: number | null;
}

describe('check', () => {
  it('answers legal, verdicts and base values, and exits 1 for a broken rule', async () => {
    const { out, code } = await runCli(['check', '-', '--json'], program(['2A', '2T', '2T', '2T']));
    const answer = JSON.parse(out) as { id: string; legal: boolean; verdicts: Verdict[]; base: number };
    expect(answer.id).toBe('p1');
    expect(answer.legal).toBe(false);
    expect(answer.verdicts.find((v) => v.rule === 'repeats')).toMatchObject({ status: 'broken', cost: 1.43 });
    expect(answer.base).toBe(5.9);
    expect(code).toBe(1);
  });

  it('asks what the next season does', async () => {
    const { out } = await runCli(
      ['check', '-', '--next-season'],
      program(['2A', '3T', '3S', '3Lo', '3F', '3Lz', '2F']),
    );
    expect(out).toContain('isu/2026-27');
    expect(out).toContain('At most six jump elements');
  });

  it('takes another category', async () => {
    const { out } = await runCli(['check', '-', '--as', 'isu/basic novice women', '--json'], program(['2A', '3T']));
    expect((JSON.parse(out) as { legal: boolean }).legal).toBe(false);
  });

  it('goes on after a line that cannot be read', async () => {
    const { out, code } = await runCli(['check', '-', '--json'], `{"elements":[{"code":"9Q"}]}\n${program(['2A'])}\n`);
    expect(out.trim().split('\n')).toHaveLength(2);
    expect(code).toBe(1);
  });
});

describe('best', () => {
  it('answers proven layouts in skating order', async () => {
    const { out, code } = await runCli(['best', '-', '--json'], program(['2A', '3T', '3S+2T', 'CCoSp4', 'StSq4']));
    const answer = JSON.parse(out) as { proven: boolean; layouts: { codes: string[]; value: number }[]; bound: number };
    expect(answer.proven).toBe(true);
    expect(answer.layouts).toHaveLength(1);
    expect([...(answer.layouts[0]?.codes ?? [])].sort()).toEqual(['2A', '3S+2T', '3T', 'CCoSp4', 'StSq4'].sort());
    expect(answer.bound).toBe(answer.layouts[0]?.value);
    expect(code).toBe(0);
  });

  it('speaks of the elements you entered, with the next best', async () => {
    const { out } = await runCli(['best', '-'], program(['2A', '3T', '3S', 'CCoSp4', 'CCoSp3']));
    expect(out).toContain('Best of the elements and reliabilities you entered, by this model');
    expect(out).toContain('Next best');
  });

  it('refuses an objective that is none', async () => {
    const { code, err, out } = await runCli(['best', '-', '--objective', 'luck'], program(['2A']));
    expect(code).toBe(2);
    expect(err).toContain('--objective');
    expect(out).toBe('');
  });
});

describe('rescue, compare, plan', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'programs-'));
  const file = (name: string, text: string): string => {
    const full = path.join(folder, name);
    writeFileSync(full, text);
    return full;
  };

  it('print a card', async () => {
    const { out } = await runCli(['rescue', '-'], program(['3Lz+3T', '2A', '3S']));
    expect(out).toMatch(/^Plan B\n1\. If /);
  });

  it('compare two layouts', async () => {
    const b = file('b.json', program(['2A', '3S']));
    const { out } = await runCli(['compare', '-', b, '--json'], program(['2A', '3T']));
    const answer = JSON.parse(out) as { difference: number; aBeatsB: number };
    // 3T 4.20 x 1.1 = 4.62 against 3S 4.30 x 1.1 = 4.73.
    expect(answer.difference).toBeCloseTo(-0.11, 9);
    expect(answer.aBeatsB).toBe(0);
  });

  it('list content with times and goals', async () => {
    const { out } = await runCli(['plan', '-'], program(['2A', '3S', 'CCoSp3']));
    expect(out).toContain('Planned program content');
    expect(out).toContain('Goals for the log');
  });
});
