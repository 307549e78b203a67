import { spawnSync } from 'node:child_process';

import { describe, expect, it } from 'vitest';

const root = new URL('../..', import.meta.url).pathname;

/** Runs a shell line at the root of the package, with `edgeledger` standing for the command from source. */
function shell(line: string): { readonly out: string; readonly err: string; readonly code: number | null } {
  const words = line.replaceAll('edgeledger', 'node --import tsx src/cli/main.ts');
  const { stdout, stderr, status } = spawnSync('bash', ['-c', words], { cwd: root, encoding: 'utf8' });
  return { out: stdout, err: stderr, code: status };
}

describe('the command as a process', () => {
  it('ends quietly when its reader goes away', () => {
    const { out, err } = shell('edgeledger audit test/data/protocols-2016-2018.jsonl --json | head -1');
    expect(err).toBe('');
    expect(JSON.parse(out)).toMatchObject({ id: 'c01-men-senior-short-01', findings: [] });
  });

  it('says in one message what it cannot do, on standard error, and exits 2', () => {
    const { out, err, code } = shell('head -c 300000 /dev/urandom | edgeledger audit - --json');
    expect([out, code]).toEqual(['', 2]);
    expect(err).toContain('standard input');
    expect(err).not.toMatch(/\n\s+at /);
  });
});
