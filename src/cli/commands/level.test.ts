import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

import { afterAll, beforeAll, describe, expect, it } from 'vitest';

import { runCli } from '../testing/run-cli.ts';

const heading = { season: '2023/24', category: 'senior women', segment: 'free' };
const steps = (moves: unknown, more: object = {}) => ({ kind: 'steps', ...heading, moves, ...more });
const asked = async (...values: unknown[]) => {
  const run = await runCli(['level', '-', '--json'], values.map((one) => JSON.stringify(one)).join('\n'));
  const lines = run.out.trim().split('\n');
  return { ...run, answers: lines.map((line): unknown => JSON.parse(line)) };
};
const LINE =
  'LFO bracket, LBI counter, LFI loop, / RFO rocker, RBO loop, RBO twizzle, / LFO rocker, / RFO counter, / RFO bracket, / LFI twizzle, / LFO choctaw';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'level-'));
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

const fromRoot = (name: string): string => fileURLToPath(new URL(`../../../${name}`, import.meta.url));

describe('the page for coaches', () => {
  it('shows what the command says', async () => {
    const page = readFileSync(fromRoot('docs/steps-and-spins.md'), 'utf8');
    for (const name of ['steps-novice.yaml', 'spin-layback.json']) {
      const run = await runCli(['level', fromRoot(`examples/${name}`)]);
      expect(run.code).toBe(0);
      expect(page).toContain(run.out.trimEnd());
    }
  });

  it.each(['steps-free.txt', 'steps-junior.json', 'spins-free.yaml'])('examples/%s can be answered', async (name) => {
    expect(await runCli(['level', fromRoot(`examples/${name}`), '--json'])).toMatchObject({ code: 0, err: '' });
  });
});

describe('edgeledger level', () => {
  it('answers each form in order, with the fields of the contract', async () => {
    const { answers, code } = await asked(
      steps([{ turn: 'rocker', edge: 'RFO', share: 0.4, body: true, rotation: 'left', credit: 0.9 }], { id: 'a' }),
      {
        kind: 'spin',
        ...heading,
        code: 'CSp',
        parts: [{ foot: 'L', position: 'camel', variation: 'CS', revolutions: 4 }],
      },
      {
        kind: 'spins',
        id: 3,
        ...heading,
        spins: [{ code: 'CSp', parts: [{ foot: 'L', position: 'camel', variation: 'CS', revolutions: 4 }] }],
      },
    );
    expect(code).toBe(0);
    expect(answers[0]).toMatchObject({
      id: 'a',
      level: 'B',
      code: 'StSqB',
      limitedBy: ['turns'],
      counted: [0],
      uncounted: [],
      spare: null,
      critical: [],
      chances: { B: 1, 1: 0, 2: 0, 3: 0, 4: 0 },
    });
    expect(answers[1]).toMatchObject({ id: null, level: 1, code: 'CSp1', counted: [0], spare: 0, critical: [0] });
    expect(answers[2]).toMatchObject({ id: 3, spins: [{ level: 1, code: 'CSp1' }] });
  });

  it('goes on after a line that cannot be, and locates it', async () => {
    const { answers, code } = await asked(steps('LFO rocker'), steps([{ turn: 'rocker', edge: 'RFQ' }], { id: 'bad' }));
    expect(code).toBe(1);
    expect(answers[1]).toMatchObject({ id: 'bad', line: 2, error: { at: 'moves[0].edge' } });
  });

  it('reads YAML, and the line that a coach types, with headings and several at once', async () => {
    const yaml = await runCli(
      ['level', '-', '--json'],
      `kind: steps\nseason: 2023/24\ncategory: senior women\nmoves: "${LINE}"\n`,
    );
    expect(JSON.parse(yaml.out)).toMatchObject({ code: 'StSq2' });
    const text = await runCli(
      ['level', '-', '--json'],
      `season: 2023/24\ncategory: senior men\n# early\n${LINE}\n---\nLFO Ro\n`,
    );
    expect(text.out.trim().split('\n')).toHaveLength(2);
  });

  it.each(['', 'hello world', '{"kind":"steps"', '\u0000\u0001', 'season: 2023/24\nLFO rocker\nLFX loop'])(
    'refuses %j with a message and nothing on standard output',
    async (input) => {
      const run = await runCli(['level', '-'], input);
      expect(run).toMatchObject({ out: '', code: 2 });
      expect(run.err).not.toContain('fault of its own');
    },
  );

  it('locates a mistake in the typed line by line and column of the file', async () => {
    const run = await runCli(['level', '-'], 'season: 2023/24\nLFO rocker\n  LFX loop');
    expect(run.err).toContain('line 3, column 3');
  });

  it('says it in 80 columns: spare 0 as a warning, chances as days, what hangs most, marks', async () => {
    const moves = LINE.split(', ').map((one, n) => `${one} 9% body ${n % 2 === 0 ? 'left' : 'right'} @0.9`);
    const run = await runCli(['level', '-'], `season: 2023/24\ncategory: senior women\n${moves.join(', ')}`);
    expect(run.out).toContain('level 4');
    expect(run.out).toContain('WARNING, spare 0');
    expect(run.out).toMatch(/level 4: on about \d+ of 20 days/);
    expect(run.out).toContain('Most hangs on move');
    expect(run.out).toContain('One change that helps: add');
    expect(run.out).toContain('ᵐ from memory');
    for (const line of run.out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('reads a season of sheets as evidence and writes a drawing', async () => {
    const sheets = path.join(folder, 'sheets.jsonl');
    const svg = path.join(folder, 'plan.svg');
    const sheet = {
      ...heading,
      elements: [
        { code: 'StSq3', feedback: 'YYN', told: { notCredited: [2] } },
        { code: 'CCoSp3V', info: 'nS' },
      ],
    };
    writeFileSync(sheets, `${JSON.stringify(sheet)}\n{"elements":7}\n`);
    const run = await runCli(['level', '-', '--json', '--sheets', sheets, '--draw', svg], JSON.stringify(steps(LINE)));
    expect(JSON.parse(run.out)).toMatchObject({ season: { sheets: [{ used: true }], turns: { planned: 11 } } });
    expect(run.err).toContain('line 2');
    expect(readFileSync(svg, 'utf8')).toContain('<svg');
  });

  it('says what to leave out where a later spin gains more, in JSON only when asked', async () => {
    const file = fromRoot('examples/spins-free.yaml');
    expect((await runCli(['level', file])).out).toContain(
      'Better left out, so that another place can use it: eight-revolutions',
    );
    expect(JSON.parse((await runCli(['level', file, '--json', '--advice'])).out)).toMatchObject({
      advice: { leaveOut: [{ spin: 1, index: 2, name: 'eight-revolutions' }] },
    });
    expect(JSON.parse((await runCli(['level', file, '--json'])).out)).toMatchObject({ advice: null });
  });

  it('refuses a rulebook, a keep list and a place for the drawing that are not there', async () => {
    for (const words of [
      ['--rulebook', 'isu/1999-00'],
      ['--keep', 'one'],
      ['--draw', path.join(folder, 'no', 'such.svg')],
    ])
      expect(await runCli(['level', '-', ...words], JSON.stringify(steps(LINE)))).toMatchObject({ out: '', code: 2 });
  });

  it('warns and goes on where the season is not known', async () => {
    const { answers } = await asked({ ...steps(LINE), season: '2031/32' });
    expect(JSON.stringify(answers[0])).toContain('2031/32');
  });
});
