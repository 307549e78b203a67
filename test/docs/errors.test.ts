import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

import { describe, expect, it } from 'vitest';

const root = new URL('../..', import.meta.url).pathname;

const page = readFileSync(path.join(root, 'docs/errors.md'), 'utf8');

/** All source without tests. */
const source = readdirSync(path.join(root, 'src'), { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts') && !/\.test\.ts$|testing|shipped/.test(file))
  .map((file) => readFileSync(path.join(root, 'src', file), 'utf8'))
  .join('\n');

const documented = new Set(
  page
    .split('\n')
    .filter((line) => line.startsWith('| `'))
    .flatMap((line) => [...(line.split('|')[1] ?? '').matchAll(/`([a-z-]+\.[a-z-]+)`/g)].map(([, code]) => code ?? '')),
);

describe('docs/errors.md', () => {
  it('has a row for every code of a problem in the source', () => {
    const used = [...source.matchAll(/\bcode: '([a-z-]+\.[a-z-]+)'/g)].map(([, code]) => code ?? '');
    expect([...new Set(used)].filter((code) => !documented.has(code))).toEqual([]);
  });

  it('has no row for a code that the source does not know', () => {
    expect([...documented].filter((code) => !source.includes(`'${code}'`))).toEqual([]);
  });
});
