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

  it('says that a season without rules has none, and not that it changes nothing', async () => {
    const newest = program(['2A', '3T'], { season: '2026/27' });
    const { out } = await runCli(['check', '-', '--next-season'], newest);
    expect(out).toContain('No rules of 2027/28 are here yet');
    expect(out).toContain('isu/2026-27');
    expect(out).not.toContain('changes nothing');
    expect(out).toContain('\nNote: ');
    const { missing } = JSON.parse((await runCli(['check', '-', '--next-season', '--json'], newest)).out) as {
      missing: string;
    };
    expect(missing).toBe('2027/28');
    const { out: known } = await runCli(['check', '-', '--season', '2026/27'], newest);
    expect(known).toContain('changes nothing');
    expect(known).toContain('\nNote: ');
  });

  it('takes another category', async () => {
    const { out } = await runCli(['check', '-', '--as', 'isu/basic novice women', '--json'], program(['2A', '3T']));
    expect((JSON.parse(out) as { legal: boolean }).legal).toBe(false);
  });

  it('takes the body of the layout where a category is named alone', async () => {
    const layout = program(['2A', '3T', '3T'], { body: 'isu', category: 'junior women' });
    const whole = await runCli(['check', '-', '--as', 'isu/basic novice women', '--json'], layout);
    const short = await runCli(['check', '-', '--as', 'basic novice women', '--json'], layout);
    expect(short.out).toBe(whole.out);
    expect(short.code).toBe(1);
    expect(short.out).toContain('basic novice women');
    const none = await runCli(['check', '-', '--as', 'basic novice women'], program(['2A']));
    expect(none.err).toContain('BODY/CATEGORY');
    expect(none.code).toBe(2);
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

  it('says what another category means: ages, what is illegal and missing, figures, the range', async () => {
    const text = program(['2A', '3T', '2S+2T', 'CCoSp4', 'LSp4', 'ChSq1']);
    const { out } = await runCli(['best', '-', '--json', '--as', 'isu/advanced novice women'], text);
    const { move } = JSON.parse(out) as {
      move: {
        ages: { min: number; under: number };
        illegal: { code: string }[];
        lowered: string[];
        missing: string[];
        figures: { what: string; before: string; after: string }[];
        range: { there: { low: number; high: number } };
      };
    };
    // Comm. on the 59th Congress: advanced novice at least 10 and under 16.
    expect(move.ages).toMatchObject({ min: 10, under: 16 });
    expect(move.illegal.map((e) => e.code)).toContain('ChSq1');
    expect(move.lowered).toContain('CCoSp4 as CCoSp3');
    expect(move.missing).toContain('no step sequence in the inventory');
    expect(move.figures).toContainEqual({ what: 'jump elements at most', before: '7', after: '6' });
    expect(move.range.there.low).toBeLessThanOrEqual(move.range.there.high);
  });

  it('says by which rule an element stays out, and what having it would cost', async () => {
    const codes = ['2A', '3T', '3S', '3Lo', '3F', '3Lz', '3Lz+2T', '2F'];
    const { out } = await runCli(['best', '-', '--json', '--explain'], program(codes));
    const { leftOut, layouts } = JSON.parse(out) as {
      leftOut: { code: string; breaks: string[]; instead: { value: number; less: number } }[];
      layouts: { value: number }[];
    };
    expect(leftOut.map((idea) => idea.code)).toEqual(['2F']);
    expect(leftOut[0]?.breaks.join(' ')).toContain('At most seven jump elements');
    expect((leftOut[0]?.instead.value ?? 0) + (leftOut[0]?.instead.less ?? 0)).toBeCloseTo(layouts[0]?.value ?? 0, 9);
    expect(leftOut[0]?.instead.less).toBeGreaterThan(0);
  });

  it('asks whether a safer jump would change the best layout', async () => {
    const unsure = {
      code: '3Lz',
      outcomes: [
        { p: 0.1, code: '3Lz', grade: { '0': 1 } },
        { p: 0.9, code: '1Lz', grade: { '0': 1 } },
      ],
    };
    const elements = [element('2A'), unsure, ...['3T', '3S', '3Lo', '3F', '2F', '2Lz+2T'].map(element)];
    const text = program([], { elements });
    const { out } = await runCli(['best', '-', '--json', '--safer', '3Lz:40'], text);
    const { safer } = JSON.parse(out) as { safer: { changes: boolean; after: { codes: string[] }; gain: number } };
    // 3Lz 0.1 x 5.90 + 0.9 x 0.60 = 1.13 against 2F 1.80; then 0.5 x 5.90 + 0.5 x 0.60 = 3.25.
    expect(safer.changes).toBe(true);
    expect(safer.after.codes).toContain('3Lz');
    expect(safer.gain).toBeGreaterThan(0);
    const refused = await runCli(['best', '-', '--safer', '4Lz'], text);
    expect(refused.code).toBe(2);
  });

  it.each(['31.12.2026', 'yesterday', '2026-99-99', '2026-02-30'])(
    '%s is no day: nothing is let go by it',
    async (day) => {
      for (const command of [
        ['best', '-'],
        ['plan', '-'],
      ]) {
        for (const flag of ['--date', '--freeze']) {
          const { code, err, out } = await runCli([...command, flag, day], '{}');
          expect([code, out]).toEqual([2, '']);
          expect(err).toContain(`${flag} ${day} is no day: write it as 2026-12-05.`);
        }
      }
    },
  );

  it('from the freeze day on takes what was skated in competition', async () => {
    const elements = [
      { ...element('2A'), stage: 'in-competition' },
      { ...element('3T'), stage: 'in-run-throughs' },
    ];
    const args = ['best', '-', '--json', '--date', '2026-01-20', '--freeze', '2026-01-10'];
    const { out } = await runCli(args, program([], { elements }));
    expect((JSON.parse(out) as { layouts: { codes: string[] }[] }).layouts[0]?.codes).toEqual(['2A']);
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

  it('plans for another category: its rules, and its caps in the layout too', async () => {
    const codes = ['2A', '3S', '2T', 'CCoSp4', 'StSq4'];
    const file = path.join(mkdtempSync(path.join(tmpdir(), 'plan-')), 'layout.json');
    writeFileSync(file, program(['2A', '2T', 'CCoSp4', 'StSq4']));
    const planned = async (more: readonly string[]) => {
      const { out, code } = await runCli(['plan', '-', '--json', ...more], program(codes));
      expect(code).toBe(0);
      return (JSON.parse(out) as { content: { code: string }[] }).content.map((one) => one.code);
    };
    const as = ['--as', 'isu/intermediate novice women'];
    expect(await planned([])).toContain('3S');
    expect(await planned(as)).not.toContain('3S');
    expect((await planned([...as, '--layout', file])).sort()).toEqual(['2A', '2T', 'CCoSp', 'StSq']);
  });

  it('list content with times and goals', async () => {
    const { out } = await runCli(['plan', '-'], program(['2A', '3S', 'CCoSp3']));
    expect(out).toContain('Planned program content');
    expect(out).toContain('Goals for the log');
  });
});
