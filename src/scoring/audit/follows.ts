import type { FindingKind } from './finding.ts';

/** A part of a sum whose printed figure is wrong: where the fault began, and by how much it is off. */
export interface WrongPart {
  readonly root: string;
  readonly kind: FindingKind;
  /** Printed minus expected, never 0. */
  readonly delta: number;
  /** The overlay whose value the fault rests on. */
  readonly own?: string | null;
}

/** Beyond this many wrong parts only all of them, or one alone, are tried. */
const SUBSET_LIMIT = 12;

/**
 * The first wrong part that a sum off by `delta` rightly adds: all wrong parts together, one alone, or
 * some of them. Null: the sum has a fault of its own.
 */
export function followed(delta: number, parts: readonly WrongPart[]): WrongPart | null {
  const [first] = parts;
  if (first === undefined) return null;
  if (parts.reduce((sum, part) => sum + part.delta, 0) === delta) return first;
  const alone = parts.find((part) => part.delta === delta);
  if (alone !== undefined || parts.length > SUBSET_LIMIT) return alone ?? null;
  for (let chosen = 1; chosen < 2 ** parts.length; chosen += 1) {
    const some = parts.filter((_, i) => (chosen >> i) & 1);
    if (some.reduce((sum, part) => sum + part.delta, 0) === delta) return some[0] ?? null;
  }
  return null;
}
