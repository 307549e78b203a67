import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const README = readFileSync('README.md', 'utf8');
const blocks = [...README.matchAll(/```console\n\$ npx edgeledger (.*)\n([^]*?)```/g)].map(
  ([, args = '', shown = '']) => ({
    args,
    shown: shown.trimEnd().split('\n'),
  }),
);

function outputOf(args: string): string[] {
  const done = spawnSync(process.execPath, ['dist/cli/main.js', ...args.split(/\s+/)], { encoding: 'utf8' });
  return `${done.stdout}${done.stderr}`.trimEnd().split('\n');
}

/** Whether the lines shown are the lines printed, `…` standing for any number of them. */
function shows(shown: readonly string[], printed: readonly string[]): boolean {
  const cut = shown.indexOf('…');
  if (cut === -1) return shown.join('\n') === printed.join('\n');
  const [head, tail] = [shown.slice(0, cut), shown.slice(cut + 1)];
  return (
    head.join('\n') === printed.slice(0, cut).join('\n') &&
    tail.join('\n') === printed.slice(printed.length - tail.length).join('\n')
  );
}

describe('the README’s tour', () => {
  it('has a job paragraph first, then the two commands', () => {
    expect(README.split('\n\n')[1]).toMatch(/^Edgeledger is for coaches/);
    expect(README.indexOf('npm start')).toBeLessThan(README.indexOf('```console'));
    expect(blocks.length).toBeGreaterThan(8);
  });

  it.each(blocks)('shows what `$args` really prints', ({ args, shown }) => {
    const printed = outputOf(args);
    expect(shows(shown, printed), `Run node scripts/readme.mjs. Printed now:\n${printed.join('\n')}`).toBe(true);
  });
});
