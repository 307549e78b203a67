import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { runCli } from './testing/run-cli.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'edgeledger-told-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const file = (name: string, text: string): string => {
  const full = path.join(folder, name);
  writeFileSync(full, text);
  return full;
};

const sheet = file(
  'sheet.json',
  JSON.stringify({
    id: 'a',
    season: '2023/24',
    body: 'isu',
    category: 'junior women',
    segment: 'free',
    elements: [{ no: 1, code: 'StSq2', feedback: 'YYY', marks: [0, 0, 0] }],
  }),
);
interface Answer {
  readonly feedback: readonly { readonly turns: object; readonly told?: readonly { readonly used: boolean }[] }[];
}
const answer = async (...more: string[]): Promise<Answer> =>
  JSON.parse((await runCli(['read', sheet, '--json', ...more])).out) as Answer;

describe('edgeledger read --told', () => {
  it('narrows what the letters leave open, and says so', async () => {
    const told = file('told.yaml', 'id: a\ntold:\n  - { no: 1, turns: 8, text: the second loop did not count }\n');
    expect((await answer()).feedback[0]).toMatchObject({ turns: { min: 7, max: 8 } });
    expect((await answer()).feedback[0]?.told).toBeUndefined();
    const narrowed = (await answer('--told', told)).feedback[0];
    expect(narrowed).toMatchObject({ turns: { min: 8, max: 8 }, told: [{ used: true }] });
    const { out } = await runCli(['read', sheet, '--told', told]);
    expect(out).toContain('8 turns were counted.');
    expect(out.replace(/\s+/g, ' ')).toContain('Used as evidence here.');
  });

  it('is not for the skater’s page', async () => {
    const told = file('hers.json', '{"told":[{"no":1,"turns":8,"text":"the second loop did not count"}]}');
    expect((await runCli(['read', sheet, '--told', told, '--for', 'skater', '--json'])).out).not.toContain('loop');
    expect((await runCli(['read', sheet, '--told', told, '--for', 'skater'])).out).not.toContain('loop');
  });

  it('passes over what was told of another protocol', async () => {
    const told = file('other.json', '{"id":"b","told":[{"no":1,"turns":8}]}');
    expect((await answer('--told', told)).feedback[0]).toMatchObject({ turns: { min: 7, max: 8 } });
  });

  it('names the place of what cannot be, and answers nothing', async () => {
    const told = file('bad.json', '{"told":[{"no":1,"turns":40}]}');
    const { out, err, code } = await runCli(['read', sheet, '--told', told]);
    expect([out, code]).toEqual(['', 2]);
    expect(err).toContain('told[0].turns');
  });
});
