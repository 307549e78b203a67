import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

import { afterAll, describe, expect, it } from 'vitest';

import { runCli } from './testing/run-cli.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'edgeledger-cli-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const file = (name: string, text: string): string => {
  const full = path.join(folder, name);
  writeFileSync(full, text);
  return full;
};

const good = {
  id: 'a',
  season: '2023/24',
  body: 'isu',
  category: 'senior women',
  segment: 'free',
  elements: [{ no: 1, code: '3Lz', base: 5.9, goe: 0.59, marks: [1, 1, 1, 1, 1], score: 6.49 }],
  tes: 6.49,
};
const wrong = { ...good, id: 'b', tes: 6.94 };
const line = (value: object): string => `${JSON.stringify(value)}\n`;
const json = (out: string): unknown[] =>
  out
    .trim()
    .split('\n')
    .map((one): unknown => JSON.parse(one));

describe('edgeledger audit', () => {
  it('prints one compact value per protocol, in order, with its id', async () => {
    const { out, code, err } = await runCli(['audit', '-', '--json'], line(good) + line({ ...good, id: 12 }));
    expect([code, err]).toEqual([0, '']);
    expect(json(out)).toEqual([
      {
        id: 'a',
        rulebook: 'isu/2023-24',
        elements: [{ no: 1, base: 5.9, goe: 0.59, score: 6.49 }],
        components: [],
        tes: 6.49,
        pcs: null,
        deductions: null,
        total: null,
        findings: [],
      },
      expect.objectContaining({ id: 12 }),
    ]);
  });

  it('does not send a coach to the referee for a value of her own', async () => {
    const own = mkdtempSync(path.join(folder, 'own-'));
    const chart = 'overlay: isu/2023-24\ntitle: our chart\nscale:\n  rows:\n    3Lz: { base: 6 }\n';
    writeFileSync(path.join(own, 'chart.yaml'), chart);
    const { out, code } = await runCli(['--rulebooks', own, 'audit', '-'], line(good));
    expect(code).toBe(1);
    expect(out).toContain('Against values of your own, so nothing to ask the referee:');
    expect(out).toContain('rests on your own value (our chart)');
    expect(out).not.toContain('ask the referee to check');
    const other = { ...good, elements: [...good.elements, { no: 2, code: '3F', base: 5.5 }] };
    const both = await runCli(['--rulebooks', own, 'audit', '-'], line(other));
    expect(both.out).toContain('ask the referee to check');
  });

  it('does not call a sheet right that was not read in full, nor its own sum a printed total', async () => {
    const sheet = readFileSync('examples/novice-free-2023.txt', 'utf8');
    const cut = await runCli(['audit', '-'], sheet.split('\n').slice(0, 20).join('\n'));
    expect(cut.code).toBe(1);
    expect(cut.out).toContain('not all of it was');
    const whole = await runCli(['audit', '-'], sheet);
    expect(whole.code).toBe(0);
    const { out, code } = await runCli(['audit', '-'], line({ ...good, components: [], tes: 6.49 }));
    expect(code).toBe(0);
    expect(out).not.toMatch(/all figures agree, total/);
  });

  it('says why a layout was not held against the sheet, and knows a name in another order', async () => {
    const layout = {
      skater: 'Grey, Nuthatch',
      segment: 'free',
      category: 'senior women',
      season: '2023/24',
      elements: [{ code: '3Lz' }],
    };
    const skated = line({ ...good, skater: 'Nuthatch GREY' });
    const fits = await runCli(['audit', '-', '--layout', file('layout.json', JSON.stringify(layout))], skated);
    expect(fits.out).not.toContain('not used');
    const other = file('other.json', JSON.stringify({ ...layout, skater: 'Wren' }));
    expect((await runCli(['audit', '-', '--layout', other], skated)).out).toContain(
      'The layout was not used: it is of Wren',
    );
  });

  it('exits 1 with a finding, and says it politely to people', async () => {
    const { out, code } = await runCli(['audit', file('wrong.json', JSON.stringify(wrong, null, 2))]);
    expect(code).toBe(1);
    expect(out).toContain('The printed total element score is 6.94; the elements add up to 6.49.');
    expect(out).toContain('two digits exchanged');
    expect(out).toContain('ask the referee to check, as\n  soon as possible, politely');
    expect(out).toContain('2012');
    expect(out.split('\n').every((one) => one.length <= 80)).toBe(true);
  });

  it('is one quiet line when all agrees', async () => {
    const { out, code } = await runCli(['audit', '-'], line(good));
    expect([out, code]).toEqual(['a, senior women, free: what is printed agrees.\n', 0]);
  });

  it('gives an error line for a bad line and goes on', async () => {
    const { out, code } = await runCli(
      ['audit', '-', '--json'],
      `no json\n${line({ id: 'q', elements: [{ code: 5 }] })}${line(good)}`,
    );
    expect(code).toBe(1);
    expect(json(out)).toMatchObject([
      { id: null, line: 1, error: { code: 'input.json' } },
      { id: 'q', line: 2, error: { code: 'protocol.form', at: 'elements[0].code' } },
      { id: 'a' },
    ]);
  });

  it('tells people where a bad line is, on standard error', async () => {
    const { out, err, code } = await runCli(['audit', '-'], `${line(good)}${line({ elements: 3 })}`);
    expect(code).toBe(1);
    expect(out.trim().split('\n')).toHaveLength(1);
    expect(err).toBe(
      'standard input, line 2: elements: found 3; expected a list of elements. Correct this field; nothing of this value was used.\n',
    );
  });

  it.each([
    ['nothing', ''],
    ['no protocol', '{"a":1}\n{"b":2}\n'],
    ['binary junk', Uint8Array.from({ length: 4000 }, (_, i) => (i * 31) % 256)],
    ['text', 'lorem ipsum dolor\n'],
  ])('exits 2 and prints nothing for %s', async (_, input) => {
    for (const flags of [[], ['--json']]) {
      const { out, err, code } = await runCli(['audit', '-', ...flags], input);
      expect([out, code]).toEqual(['', 2]);
      expect(err).not.toBe('');
      expect(err).not.toMatch(/\bat .*\.(?:ts|js):\d/);
    }
  });

  it.each([
    [['audit']],
    [['audit', path.join(folder, 'missing.json')]],
    [['audit', folder]],
    [['audit', '-', '--rulebook', 'nobody/2001-02']],
    [['audit', '-', '--loud']],
    [['audit', '-', '--layout', path.join(folder, 'missing.yaml')]],
    [['juggle']],
    [[]],
  ])('bad usage %j exits 2 with a message', async (words) => {
    const { out, err, code } = await runCli(words, line(good));
    expect([out, code]).toEqual(['', 2]);
    expect(err).not.toBe('');
  });

  it('reads a season that it does not know with the nearest rulebook, named in a warning', async () => {
    const { out, code } = await runCli(['audit', '-', '--json'], line({ ...good, season: '2031/32' }));
    expect(code).toBe(0);
    expect(JSON.stringify(json(out)[0])).toMatch(/"warnings":\[.*2031\/32/);
  });

  it('recognises a base value of another season', async () => {
    // 3Lz was 6.00 in 2017/18 and 5.90 from 2018/19.
    const old = { ...good, elements: [{ no: 1, code: '3Lz', base: 6.0, marks: [1, 1, 1, 1, 1] }], tes: null };
    const { out } = await runCli(['audit', '-', '--json'], line(old));
    expect(json(out)[0]).toMatchObject({
      findings: [{ at: 'elements[0].base', slip: 'base value of the season 2017/18' }],
    });
  });

  it('asks about codes that differ from a plan', async () => {
    const plan = file('plan.yaml', 'elements:\n  - code: 3Lz+3T\n');
    const { out, code } = await runCli(['audit', '-', '--json', '--layout', plan], line(good));
    expect(code).toBe(1);
    expect(json(out)[0]).toMatchObject({ findings: [{ kind: 'slip', at: 'elements[0].code', expected: '3Lz+3T' }] });
  });
});

describe('edgeledger schema', () => {
  it.each(['protocol', 'layout', 'inventory'])('prints the form of a %s', async (name) => {
    const { out, code } = await runCli(['schema', name]);
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ type: 'object', required: ['elements'] });
  });

  it('names the forms when asked for another', async () => {
    const { out, err, code } = await runCli(['schema', 'score']);
    expect([out, code]).toEqual(['', 2]);
    expect(err).toContain('protocol');
  });
});
