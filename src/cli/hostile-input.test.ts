import { describe, expect, it } from 'vitest';

import { harmless } from './terminal.ts';
import { runCli } from './testing/run-cli.ts';

/** Input that was made to harm: nothing hangs, nothing grows without bound, nothing steers the terminal. */

const HOSTILE = 'A\u001b]0;owned\u0007\u001b[2J\u009b31m\u202eB\r';

const sheet = (skater: string, code: string): string =>
  JSON.stringify({
    season: '2023/24',
    category: 'junior women',
    segment: 'free',
    skater,
    elements: [{ no: 1, code, marks: [1, 1, 1], base: 1 }],
  });

const steers = (text: string): boolean => /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e]/.test(text);

describe('control signs', () => {
  it.each([['read'], ['audit'], ['intake'], ['check'], ['forecast'], ['level']])(
    'in names, codes and arguments never reach the terminal: %s',
    async (command) => {
      for (const input of [sheet(HOSTILE, '3Lz'), sheet('x', HOSTILE), `${HOSTILE}: [`, HOSTILE]) {
        const { out, err } = await runCli([command, '-'], input);
        expect(steers(out + err)).toBe(false);
      }
      const { out, err } = await runCli([command, HOSTILE]);
      expect(steers(out + err)).toBe(false);
    },
  );

  it('stay the same text inside JSON', async () => {
    const { out } = await runCli(
      ['audit', '-', '--json'],
      sheet('x', '3Lz').replace('{', `{"id":${JSON.stringify(HOSTILE)},`),
    );
    expect(steers(out)).toBe(false);
    expect(JSON.parse(out)).toMatchObject({ id: HOSTILE });
  });

  it('are written out beside the program’s own colours', () => {
    const own = '\u001b[1mbold\u001b[22m \u001b[38;5;32mblue\u001b[0m';
    expect(harmless(own, true)).toBe(own);
    expect(harmless('\u001b[2J\u001b[8mhidden', true)).toBe('\\u001b[2J\\u001b[8mhidden');
    expect(harmless('\u001b[1mx', false)).toBe('\\u001b[1mx');
    expect(harmless('a\tb\n', false)).toBe('a\tb\n');
  });
});

describe('a file of nothing but bad values', () => {
  it('is left after a while, with a message and nothing on standard output', async () => {
    const { out, err, code } = await runCli(['level', '-'], '{}\n'.repeat(60_000));
    expect([out, code]).toEqual(['', 2]);
    expect(err).toContain('none of the first 50000 values can be read');
  });

  it('is told line by line where a good value comes after bad ones', async () => {
    const { out, code } = await runCli(['audit', '-', '--json'], `${'{"id":7}\n'.repeat(3)}${sheet('x', '3Lz')}\n`);
    expect(code).toBe(1);
    expect(
      out
        .trim()
        .split('\n')
        .slice(0, 3)
        .map((line) => JSON.parse(line) as unknown),
    ).toMatchObject([
      { id: 7, line: 1 },
      { id: 7, line: 2 },
      { id: 7, line: 3 },
    ]);
  });
});

describe('a count beyond all measure', () => {
  it.each([['audit'], ['read']])('is a located error: %s', async (command) => {
    const form = sheet('x', '3Lz').replace('{', '{"deductions":[{"reason":"fall","count":1000000000,"points":-1}],');
    const { out, err, code } = await runCli([command, '-'], form);
    expect([out, code]).toEqual(['', 2]);
    expect(err).toContain('deductions[0].count: found 1000000000; expected a whole number from 0 to 1000');
  });
});
