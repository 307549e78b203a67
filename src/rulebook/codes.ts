import { JUMP_NAMES, LEVELS, type JumpName } from '../notation/index.ts';

/** Row codes of the scale of values: canonical spelling, and which codes can exist at all. */

const EDGE_JUMPS: ReadonlySet<JumpName> = new Set(['F', 'Lz']);

const flights = ['', 'F'];
const feet = ['', 'C'];
const positions = ['U', 'L', 'C', 'S', 'Co'];

/** `USp` … `FCCoSp`: every kind of spin, without level. */
export const SPIN_KINDS: readonly string[] = flights.flatMap((f) =>
  feet.flatMap((c) => positions.map((p) => `${f}${c}${p}Sp`)),
);

/** Sequences and choreographic elements, without level. */
export const OTHER_KINDS = ['StSq', 'ChSq', 'ChSp', 'ChSt'] as const;

export const LEVEL_SUFFIXES: readonly string[] = LEVELS.map(String);

/** Signs that make a row of their own, by jump: edge calls only where an edge is prescribed. */
export const signsOf = (name: JumpName): readonly string[] =>
  EDGE_JUMPS.has(name) ? ['', '<', '<<', 'e', 'e<', 'e<<'] : ['', '<', '<<'];

export interface JumpCode {
  readonly turns: number;
  readonly name: JumpName;
}

/** `3Lz` -> turns and name; null for anything else. */
export function parseCleanJump(code: string): JumpCode | null {
  const turns = Number(code.slice(0, 1));
  const name = JUMP_NAMES.find((known) => known === code.slice(1));
  return name !== undefined && Number.isInteger(turns) && turns >= 1 ? { turns, name } : null;
}

/** `CCoSp3` -> true. */
export const isLevelledSpin = (code: string): boolean =>
  SPIN_KINDS.includes(code.slice(0, -1)) && LEVEL_SUFFIXES.includes(code.slice(-1));

/** Rows that a scale from 2018/19 on may write: clean jumps, spins and step sequences with level, `ChSq1`. */
export const isCleanRow = (code: string): boolean =>
  parseCleanJump(code) !== null ||
  isLevelledSpin(code) ||
  OTHER_KINDS.some((kind) => code.startsWith(kind) && LEVEL_SUFFIXES.includes(code.slice(kind.length)));

/**
 * Other spellings -> the row code: `!` and `q` make no rows, `V1` is `V`, the edge call stands before
 * the rotation call.
 */
export const canonicalRowCode = (code: string): string =>
  code
    .trim()
    .replace(/[q!]/g, '')
    .replace(/(<{1,2})e$/, 'e$1')
    .replace(/V1$/, 'V');
