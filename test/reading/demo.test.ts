import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { runCli } from '../../src/cli/testing/run-cli.ts';

const example = (name: string): string => fileURLToPath(new URL(`../../examples/${name}`, import.meta.url));
const sheet = example('novice-free-2023.txt');
const layout = ['--layout', example('novice-free-layout.json')];
const history = ['--history', example('wren-history.jsonl')];

interface Answer {
  readonly reference: { readonly kind: string; readonly total: number };
  readonly awarded: { readonly total: number };
  readonly difference: number;
  readonly ledger: readonly { readonly no: number | null; readonly cause: string; readonly points: number }[];
  readonly feedback: readonly { readonly no: number; readonly letters: string; readonly turns: object | null }[];
  readonly advice: readonly { readonly text: string; readonly points: number; readonly no: number }[];
}

async function readJson(...words: string[]): Promise<{ code: number; answer: Answer }> {
  const { out, code } = await runCli(['read', ...words, '--json']);
  return { code, answer: JSON.parse(out) as Answer };
}

const cents = (points: number): number => Math.round(points * 100);

describe('the demo skater, from the pasted sheet', () => {
  it('closes: every printed figure agrees', async () => {
    const { out, code } = await runCli(['audit', sheet, '--json']);
    expect(code).toBe(0);
    expect(out).toContain('"findings":[]');
  });

  it.each([
    ['layout', [...layout, ...history]],
    ['usual', history],
    ['clean', []],
  ])('is read against %s, and the ledger sums exactly', async (kind, words) => {
    const { answer } = await readJson(sheet, ...words);
    expect(answer.reference.kind).toBe(kind);
    const sum = answer.ledger.reduce((total, entry) => total + cents(entry.points), 0);
    expect(sum).toBe(cents(answer.difference));
    expect(cents(answer.awarded.total) - cents(answer.reference.total)).toBe(sum);
  });

  it('shows every cause that the sheet was made to show', async () => {
    const { answer } = await readJson(sheet, ...layout, ...history);
    const causes = answer.ledger.map((entry) => `${entry.no ?? 'all'} ${entry.cause}`);
    for (const cause of ['1 rotation', '4 edge', '5 level', '6 content', '9 fall', 'all fall', '10 V'])
      expect(causes).toContain(cause);
    expect(answer.ledger.some((entry) => entry.points > 0)).toBe(true);
  });

  it('brackets the turns at 7 to 8 and prices the upright at least', async () => {
    const { answer } = await readJson(sheet, ...layout, ...history);
    expect(answer.feedback).toMatchObject([
      { no: 5, letters: 'YYN', turns: { min: 7, max: 8 } },
      { no: 10, letters: 'NU', missingPosition: 'upright' },
    ]);
    const upright = answer.advice.find((one) => one.no === 10);
    expect(upright?.text).toMatch(/at least 0\.75 comes back in base/);
  });

  it('a popped jump against the plan is something to look at: exit 1; without the plan exit 0', async () => {
    expect((await readJson(sheet, ...layout)).code).toBe(1);
    expect((await readJson(sheet)).code).toBe(0);
  });

  it('prints for coach and skater', async () => {
    const coach = await runCli(['read', sheet, ...layout, ...history]);
    expect(coach.out).toContain('What is missing, by cause');
    expect(coach.out).toContain('7 or 8 turns were counted.');
    const skater = await runCli(['read', sheet, ...layout, ...history, '--for', 'skater']);
    expect(skater.out).toContain('Still to win');
  });
});

describe('bad usage of read', () => {
  it.each([
    [['read', sheet, '--reference', 'best']],
    [['read', sheet, '--reference', 'layout']],
    [['read', sheet, '--for', 'parents']],
    [['read', 'no-such-file.json']],
    [['read', sheet, '--layout', 'no-such-file.json']],
  ])('%j', async (words) => {
    const { out, err, code } = await runCli(words);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).not.toBe('');
  });

  it('an error line among good ones: exit 1, the others go on', async () => {
    const good = readFileSync(example('wren-history.jsonl'), 'utf8').trim().split('\n')[1] ?? '';
    const { out, code } = await runCli(['read', '-', '--json'], `${good}\n{"elements":7}\n${good}\n`);
    const lines = out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as { line?: number });
    expect(code).toBe(1);
    expect(lines.map((line) => line.line ?? 'read')).toEqual(['read', 2, 'read']);
  });
});
