import { mkdtemp, readFile, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { describe, expect, it } from 'vitest';

import { runCli } from '../testing/run-cli.ts';

const GRADES = { '0': 0.5, '1': 0.5 };
const layout = {
  id: 'a-free',
  body: 'isu',
  season: '2023/24',
  category: 'senior women',
  segment: 'free',
  skater: 'a',
  elements: [
    {
      code: '2A',
      half: false,
      outcomes: [
        { p: 0.7, code: '2A', grade: GRADES },
        { p: 0.3, code: '2A', grade: { '-5': 1 }, fall: true },
      ],
    },
  ],
  components: [{ name: 'Composition', factor: 2, mean: 5, sd: 0 }],
  form: { sd: 0 },
};

async function forecast(value: unknown, ...words: string[]) {
  const run = await runCli(['forecast', '-', '--json', ...words], JSON.stringify(value));
  return { ...run, answer: run.out === '' ? null : (JSON.parse(run.out) as Record<string, unknown>) };
}

async function file(name: string, text: string): Promise<string> {
  const path = join(await mkdtemp(join(tmpdir(), 'edgeledger-')), name);
  await writeFile(path, text);
  return path;
}

describe('forecast', () => {
  it('answers the whole distribution of stated outcomes, by hand', async () => {
    // 2A 3.30, grade step 0.33; fall: 3.30 - 1.65 - 1.00; components 5.00 x 2.
    const { answer, code } = await forecast(layout, '--target', '13.3', '--target', '13.31', '--pmf');
    expect(code).toBe(0);
    expect(answer).toMatchObject({
      id: 'a-free',
      quantiles: {
        '0.025': 10.65,
        '0.1': 10.65,
        '0.25': 10.65,
        '0.5': 13.3,
        '0.75': 13.63,
        '0.9': 13.63,
        '0.975': 13.63,
      },
      byElement: [{ no: 1 }],
      pmf: { from: 1065 },
    });
    const chances = answer?.chances as { target: number; p: number }[];
    expect(chances.map((c) => c.target)).toEqual([13.3, 13.31]);
    expect(chances[0]?.p).toBeCloseTo(0.7, 12);
    expect(chances[1]?.p).toBeCloseTo(0.35, 12);
    expect(answer?.mean).toBeCloseTo(0.35 * 13.3 + 0.35 * 13.63 + 0.3 * 10.65, 10);
  });

  it('takes the score asked: no deduction in the element score, no elements in the component score', async () => {
    expect((await forecast(layout, '--on', 'tes')).answer).toMatchObject({ quantiles: { '0.1': 1.65 } });
    expect((await forecast(layout, '--on', 'pcs')).answer).toMatchObject({ mean: 10, sd: 0 });
  });

  it('adds two segments', async () => {
    const short = { ...layout, id: 'a-short', segment: 'short' };
    const run = await runCli(
      ['forecast', '-', '--on', 'event', '--json'],
      `${JSON.stringify(short)}\n${JSON.stringify(layout)}\n`,
    );
    const [line = ''] = run.out.trim().split('\n');
    const single = await forecast(layout);
    const other = await forecast(short);
    const event = JSON.parse(line) as { mean: number; id: string };
    expect(event.mean).toBeCloseTo(Number(single.answer?.mean) + Number(other.answer?.mean), 8);
    expect(event.id).toBe('a-short + a-free');
  });

  it('prints no chance for a learnt model without three of her own protocols, and says what it rests on', async () => {
    const learnt = { ...layout, elements: [{ code: '2A' }, { code: 'CCoSp4' }], components: [] };
    const { answer } = await forecast(learnt, '--target', '5');
    expect(answer?.chances).toBeNull();
    expect(answer).toMatchObject({ basis: { learnt: true, programs: 0 } });
    const history = await file(
      'history.jsonl',
      [1, 2, 3]
        .map((order) =>
          JSON.stringify({ ...layout, order, elements: [{ code: '2A', marks: [1, 1, 2] }], components: [] }),
        )
        .join('\n'),
    );
    const known = await forecast(learnt, '--target', '5', '--history', history);
    expect(known.answer?.chances).toHaveLength(1);
    expect(known.answer).toMatchObject({ basis: { programs: 3 } });
  });

  it('speaks to the coach in days of twenty and tenths', async () => {
    const run = await runCli(['forecast', '-', '--target', '13.3'], JSON.stringify(layout));
    expect(run.out).toContain('on about 14 of 20 days');
    expect(run.out).toMatch(/usually between 10\.7 and 13\.6/);
    expect(run.out).not.toMatch(/\d %|proven/);
  });

  it('locates bad input and goes on', async () => {
    const outcomes = [{ p: 0.6, code: '2A', grade: { '0': 1 } }];
    const steep = [{ p: 1, code: '2A', grade: { '7': 1 } }];
    const lines = [
      { ...layout, elements: [{ code: '2A', outcomes }] },
      { ...layout, elements: [{ code: '2A', outcomes: steep }] },
      { ...layout, form: { sd: -1 } },
      { ...layout, components: [{ name: 'Composition', mean: 5, sd: -0.1 }] },
      layout,
    ];
    const run = await runCli(['forecast', '-', '--json'], lines.map((l) => JSON.stringify(l)).join('\n'));
    const answers = run.out
      .trim()
      .split('\n')
      .map((l) => JSON.parse(l) as { error?: { at: string }; mean?: number });
    expect(answers.map((a) => a.error?.at ?? 'fine')).toEqual([
      'elements[0].outcomes',
      'elements[0].outcomes[0].grade',
      'form.sd',
      'components[0].sd',
      'fine',
    ]);
    expect(run.code).toBe(1);
  });

  it('takes bad usage for what it is', async () => {
    for (const words of [
      ['--target', 'many'],
      ['--on', 'all'],
      ['--history', '/no/such/file'],
    ]) {
      const run = await runCli(['forecast', '-', ...words], JSON.stringify(layout));
      expect([run.code, run.out]).toEqual([2, '']);
    }
  });

  it('learns from run-throughs where they are given, and stops at one that cannot be read', async () => {
    const learnt = { ...layout, elements: [{ code: '3Lz', half: false }], components: [] };
    const run = (i: number, what: string) =>
      JSON.stringify({ at: `2023-10-0${i}`, elements: ['3Lz'], exceptions: what === '' ? [] : [{ no: 1, what }] });
    const meanWith = async (what: string) => {
      const lines = [1, 2, 3, 4, 5].map((i) => run(i, what)).join('\n');
      const { answer } = await forecast(learnt, '--practice', await file('runs.jsonl', lines));
      expect(JSON.stringify(answer)).toContain('5 logged run-throughs, each counted as a quarter');
      return answer?.mean as number;
    };
    const without = (await forecast(learnt)).answer?.mean as number;
    expect(await meanWith('')).toBeGreaterThan(without);
    expect(await meanWith('opened')).toBeLessThan(without);
    const bad = await forecast(learnt, '--practice', await file('bad.jsonl', '{"at":"2023-10-01"}'));
    expect([bad.code, bad.out]).toEqual([2, '']);
    expect(bad.err).toContain('line 1');
  });

  it('takes how often an element comes off as the coach states it', async () => {
    const stated = (reliability: number) => ({
      ...layout,
      elements: [{ ...layout.elements[0], reliability }],
    });
    // 3.30 at grade 0.5 on average, or a fall at 0.65, beside components of 10.
    expect((await forecast(stated(0.9))).answer?.mean).toBeCloseTo(10 + 0.9 * 3.465 + 0.1 * 0.65, 10);
    expect((await forecast(stated(1))).answer?.mean).toBeCloseTo(13.465, 10);
  });
});

describe('backtest and season', () => {
  const line = (order: number, skater: string, total: number) => ({
    id: `${skater}${order}`,
    season: '2023/24',
    category: 'junior women',
    segment: 'short',
    skater,
    order,
    elements: [
      { code: '2A', marks: [1, 1, 2, 1, 1] },
      { code: 'CCoSp3', marks: [1, 2, 1, 1, 1] },
    ],
    components: [],
    tes: total / 2,
    pcs: total / 2,
    total,
  });
  const lines = [1, 2, 3, 4].flatMap((order) => ['a', 'b', 'c'].map((s, i) => line(order, s, 40 + 3 * i + order)));
  const text = lines.map((l) => JSON.stringify(l)).join('\n');

  it('writes one prediction a line, null only where nothing is earlier', async () => {
    const out = await file('predictions.jsonl', 'old text');
    const run = await runCli(['backtest', '-', '--predictions', out, '--json'], text);
    const summary = JSON.parse(run.out) as { n: number; priors: string };
    expect(summary.n).toBe(9);
    expect(summary.priors).toContain('earlier lines');
    const predictions = (await readFile(out, 'utf8'))
      .trim()
      .split('\n')
      .map((l) => JSON.parse(l) as { id: string; n: number; quantiles: Record<string, number> | null });
    expect(predictions.map((p) => p.id)).toEqual(lines.map((l) => l.id));
    expect(predictions.map((p) => p.n)).toEqual(lines.map((l) => l.order - 1));
    expect(predictions.filter((p) => p.quantiles === null)).toHaveLength(3);
    expect(Object.keys(predictions.at(-1)?.quantiles ?? {})).toEqual(
      Array.from({ length: 19 }, (_, i) => String((i + 1) / 20)),
    );
  });

  it('says when stored rates were used, and starts where asked', async () => {
    const run = await runCli(['backtest', '-', '--priors', '--from', '4', '--json'], text);
    expect(JSON.parse(run.out)).toMatchObject({ n: 3, priors: expect.stringContaining('stored') as string });
  });

  it('leaves out lines without a place in time, and says so', async () => {
    const without = { ...line(1, 'd', 40), order: null };
    const run = await runCli(['backtest', '-', '--json'], `${text}\n${JSON.stringify(without)}`);
    expect(run.code).toBe(1);
    expect(run.err).toContain('order');
    expect((await runCli(['backtest', '-'], JSON.stringify(without))).code).toBe(2);
  });

  it('tells a season from one file of protocols', async () => {
    const history = await file('protocols.jsonl', text);
    const run = await runCli(['season', 'b', '--history', history]);
    expect(run.out).toContain('junior women, short: 4 programs.');
    expect(run.out).toContain('personal best 47.00');
    const unknown = await runCli(['season', 'nobody', '--history', history]);
    expect([unknown.code, unknown.out]).toEqual([2, '']);
    expect((await runCli(['season', 'b'])).code).toBe(2);
  });
});
