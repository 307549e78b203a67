import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';

/** The build step that turns rulebooks/ into code stops on bad data and says where it is. */

const folder = mkdtempSync(path.join(tmpdir(), 'rulebooks-'));
cpSync('rulebooks', folder, { recursive: true });
afterAll(() => {
  rmSync(folder, { recursive: true });
});

const compile = (): { status: number | null; out: string; err: string } => {
  const { status, stdout, stderr } = spawnSync(process.execPath, ['scripts/compile-rulebooks.mjs', folder], {
    encoding: 'utf8',
  });
  return { status, out: stdout, err: stderr };
};

/** Changes one text in one file, compiles, and puts the file back. */
function withChange(name: string, from: string, to: string): ReturnType<typeof compile> {
  const file = path.join(folder, name);
  const text = readFileSync(file, 'utf8');
  expect(text).toContain(from);
  writeFileSync(file, text.replace(from, to));
  const result = compile();
  writeFileSync(file, text);
  return result;
}

describe('npm run rulebooks', () => {
  it('accepts the shipped files', () => {
    const { status, out, err } = compile();
    expect([status, err]).toEqual([0, '']);
    expect(out).toContain('rulebooks from');
  });

  it('stops on a value of the wrong kind, with file, line and path', () => {
    const { status, err } = withChange('isu/2018-19.yaml', 'repeatPercent: 70', 'repeatPercent: most');
    expect(status).toBe(1);
    expect(err).toMatch(/^rulebooks\/isu\/2018-19\.yaml, line \d+: values\.repeatPercent: found "most"/);
  });

  it('stops on a value without a source', () => {
    const { status, err } = withChange('isu/2018-19.yaml', 'repeatPercent: memory, ', '');
    expect(status).toBe(1);
    expect(err).toContain('values.repeatPercent: found nothing; expected a citation');
  });

  it('stops on broken YAML', () => {
    const { status, err } = withChange('us/2022-23.yaml', 'content:\n', 'content: [\n');
    expect(status).toBe(1);
    expect(err).toMatch(/^rulebooks\/us\/2022-23\.yaml, line \d+, column \d+/);
  });
});
