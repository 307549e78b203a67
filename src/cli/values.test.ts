import { describe, expect, it } from 'vitest';

import type { Io } from './io.ts';
import { readValues } from './values.ts';

/** What standard input of these pieces is read as: values, or the place of a trouble. */
async function valuesOf(...pieces: readonly (string | Uint8Array)[]): Promise<unknown[]> {
  // eslint-disable-next-line @typescript-eslint/require-await
  const input = async function* () {
    for (const piece of pieces) yield typeof piece === 'string' ? Buffer.from(piece) : piece;
  };
  const io: Io = {
    input,
    out: () => Promise.resolve(),
    err: () => undefined,
    colour: false,
    width: 80,
    env: {},
    exit: () => undefined,
  };
  const found: unknown[] = [];
  for await (const { line, read } of readValues('-', io))
    found.push(read.ok ? [line, read.value] : [line, read.error.code]);
  return found;
}

describe('content decides what a file is', () => {
  it.each([
    [
      'JSON Lines',
      '{"a":1}\n\n{"a":2}\r\n',
      [
        [1, { a: 1 }],
        [3, { a: 2 }],
      ],
    ],
    ['one value over several lines', '{\n  "a": [\n1,\n2]\n}\n', [[1, { a: [1, 2] }]]],
    [
      'an array of values',
      '[{"a":1},{"a":2}]',
      [
        [1, { a: 1 }],
        [1, { a: 2 }],
      ],
    ],
    [
      'an array over several lines',
      '[\n{"a":1},\n{"a":2}\n]\n',
      [
        [1, { a: 1 }],
        [1, { a: 2 }],
      ],
    ],
    ['YAML', 'a: 1\nb:\n  - x\n', [[1, { a: 1, b: ['x'] }]]],
    [
      'YAML documents',
      'a: 1\n---\na: 2\n',
      [
        [1, { a: 1 }],
        [3, { a: 2 }],
      ],
    ],
    ['a byte order mark', '\uFEFF{"a":1}\n', [[1, { a: 1 }]]],
    [
      'a bad line among good ones',
      '{"a":1}\n{"a":\n{"a":3}\n',
      [
        [1, { a: 1 }],
        [2, 'input.json'],
        [3, { a: 3 }],
      ],
    ],
    [
      'a bad first line',
      'oops\n{"a":2}\n',
      [
        [1, 'input.json'],
        [2, { a: 2 }],
      ],
    ],
    [
      'a bad first line that looks like JSON',
      '{"a":}\n{"a":2}\n',
      [
        [1, 'input.json'],
        [2, { a: 2 }],
      ],
    ],
    ['nothing', '', []],
    ['blank lines', '\n \n', []],
  ])('%s', async (_, text, expected) => {
    expect(await valuesOf(text)).toEqual(expected);
  });

  it('does not mind where the pieces of a stream are cut', async () => {
    const bytes = Buffer.from('{"a":"é"}\n{"a":2}\n{"a":3}');
    const pieces = Array.from(bytes, (_, i) => bytes.subarray(i, i + 1));
    expect(await valuesOf(...pieces)).toEqual([
      [1, { a: 'é' }],
      [2, { a: 2 }],
      [3, { a: 3 }],
    ]);
  });

  it('a first line longer than the look ahead', async () => {
    const long = JSON.stringify({ a: 'x'.repeat(200_000) });
    expect(await valuesOf(`${long}\n{"a":2}\n`)).toHaveLength(2);
    expect(await valuesOf(long.slice(0, 100_000), `${long.slice(100_000)}\n`, '{"a":2}\n')).toHaveLength(2);
  });

  it.each([
    ['zero bytes', Uint8Array.from({ length: 5000 }, (_, i) => i % 7)],
    ['noise', Uint8Array.from({ length: 5000 }, (_, i) => (i * 7919 + ((i * i) >> 3)) % 256)],
    ['nesting without end', Buffer.from('['.repeat(300_000))],
    [
      'aliases that blow up',
      Buffer.from(
        `a: &a [x,x,x,x,x,x,x,x]\n${'bcdefgh'
          .split('')
          .map(
            (name, i) => `${name}: &${name} [${Array.from({ length: 9 }, () => `*${'abcdefg'.charAt(i)}`).join(',')}]`,
          )
          .join('\n')}\n`,
      ),
    ],
    ['a long text', Buffer.from('word '.repeat(200_000))],
    ['broken YAML', Buffer.from('a: [1, 2\nb: {')],
  ])('%s is one located trouble', async (_, bytes) => {
    const found = await valuesOf(bytes);
    expect(found).toHaveLength(1);
    expect(JSON.stringify(found)).toMatch(/input\.(unreadable|yaml)/);
  });
});
