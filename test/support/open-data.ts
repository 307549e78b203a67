import { readFileSync } from 'node:fs';

import type { ProtocolForm } from '../../src/scoring/index.ts';

let kept: readonly string[] | null = null;

/** The 624 protocols of `test/data`, each parsed afresh so that a test may alter it. */
export function openProtocols(): ProtocolForm[] {
  kept ??= readFileSync(new URL('../data/protocols-2016-2018.jsonl', import.meta.url), 'utf8')
    .trim()
    .split('\n');
  return kept.map((line) => JSON.parse(line) as ProtocolForm);
}
