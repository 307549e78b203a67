import { stepsOf } from './forward.ts';
import type { TiltedLevel } from './tilted.ts';

/** Where to meet when a chain is summed from both ends, and what that costs. */
export interface Split {
  /** Elements summed from the front; the others from the back. The whole chain: no meeting. */
  readonly front: number;
  /** Multiplications at one node. */
  readonly cost: number;
}

interface Size {
  readonly states: number;
  /** Points of all different steps between states. */
  readonly atoms: number;
  readonly width: number;
}

function sizeOf({ level }: TiltedLevel): Size {
  let low = Infinity;
  let high = -Infinity;
  for (const { points } of level.values) {
    for (const p of points) {
      low = Math.min(low, p);
      high = Math.max(high, p);
    }
  }
  let atoms = 0;
  const steps = new Set<string>();
  for (let state = 0; state < level.arcs.length; state++) {
    for (const step of stepsOf(level, state)) {
      const name = `${step.next}: ${step.key}`;
      if (steps.has(name)) continue;
      steps.add(name);
      for (const { value } of step.ways) atoms += level.values[value]?.points.length ?? 0;
    }
  }
  return { states: level.arcs.length, atoms, width: Math.max(0, high - low) };
}

/** A transform of length n costs about as much as this many multiplications for each value. */
const TRANSFORM = 12;

/**
 * Chooses the meeting place with the least work: narrow distributions from both ends, joined by one
 * transform for each state, cost less than one wide distribution carried through to the end.
 */
export function chooseSplit(levels: readonly TiltedLevel[], transformLength: number): Split {
  const sizes = levels.map(sizeOf);
  const until = (end: number): number => sizes.slice(0, end).reduce((sum, s) => sum + s.width, 1);
  const from = (start: number): number => sizes.slice(start).reduce((sum, s) => sum + s.width, 1);
  const front = sizes.map((s, i) => s.atoms * until(i));
  const back = sizes.map((s, i) => s.atoms * from(i + 1));
  const total = (list: readonly number[]): number => list.reduce((sum, x) => sum + x, 0);
  let best: Split = { front: levels.length, cost: total(front) };
  for (let h = 1; h < levels.length; h++) {
    const join = (sizes[h]?.states ?? 1) * transformLength * TRANSFORM;
    const cost = total(front.slice(0, h)) + total(back.slice(h)) + join;
    if (cost < best.cost) best = { front: h, cost };
  }
  return best;
}
