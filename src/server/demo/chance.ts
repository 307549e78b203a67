/** A small seeded generator, so that the demo season is the same on every machine. */
export interface Chance {
  /** 0 up to, not including, 1. */
  next(): number;
  /** About normal with mean 0 and spread 1. */
  normal(): number;
  is(p: number): boolean;
}

/** Mixes a text into a seed (FNV-1a). */
export function seedOf(text: string): number {
  let h = 0x811c9dc5;
  for (const sign of text) h = Math.imul(h ^ (sign.codePointAt(0) ?? 0), 0x01000193);
  return h >>> 0;
}

export function chanceFrom(seed: number): Chance {
  let state = seed;
  // The generator "mulberry32": 32 bits of state, long enough for a few thousand draws.
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
  return {
    next,
    normal: () => Array.from({ length: 12 }, next).reduce((a, b) => a + b, 0) - 6,
    is: (p) => next() < p,
  };
}
