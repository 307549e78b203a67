import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runCli } from '../testing/run-cli.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'edgeledger-season-'));
const env = { EDGELEDGER_STORE: path.join(folder, 'season.sqlite') };
beforeAll(async () => {
  expect((await runCli(['demo'], '', env)).code).toBe(0);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('season SKATER without a file', () => {
  it('reads the kept protocols of that skater alone, by name in any case or by id', async () => {
    const byName = await runCli(['season', 'pia', '--json'], '', env);
    expect(byName).toMatchObject({ code: 0, err: '' });
    const view = JSON.parse(byName.out) as { kinds: { kind: string; programs: number }[] };
    expect(view.kinds.map((k) => k.kind)).toEqual(['juvenile women, free']);
    expect((await runCli(['season', 'demo-pia', '--json'], '', env)).out).toBe(
      byName.out.replace('"skater":"pia"', '"skater":"demo-pia"'),
    );
  });

  it('says who is kept where the name is not', async () => {
    const { code, out, err } = await runCli(['season', 'Nobody'], '', env);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/no kept skater is named “Nobody”.*Pia \(demo-pia\)/);
  });
});
