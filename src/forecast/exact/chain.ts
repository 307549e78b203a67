import type { Level } from './graph.ts';
import type { TiltedLevel } from './tilted.ts';

/** A program sorted into what must be summed in skating order and what may be summed apart. */
export interface Chain {
  /** State before the first coupled element. */
  readonly start: number;
  /** Elements that ask or change the state, in skating order. */
  readonly coupled: readonly TiltedLevel[];
  /** Elements that neither ask nor change it. */
  readonly free: readonly TiltedLevel[];
}

/**
 * An element is free when its outcomes neither depend on the state nor decide what follows: it may be
 * summed once for all states, in any order.
 */
export function isFree(level: Level): boolean {
  const [first] = level.arcs;
  if (first === undefined) return true;
  return level.arcs.every((row) =>
    row.every((arc, o) => arc.next === row[0]?.next && arc.value === first[o]?.value && arc.deduct === first[o].deduct),
  );
}

/** A free element as one of a single state. */
function alone(tilted: TiltedLevel): TiltedLevel {
  const row = (tilted.level.arcs[0] ?? []).map((arc) => ({ ...arc, next: 0 }));
  return { ...tilted, level: { ...tilted.level, arcs: [row], statesAfter: 1 } };
}

/** Takes the free elements out; the states that they only renamed are renamed in the element before. */
export function chainOf(levels: readonly TiltedLevel[]): Chain {
  const coupled: TiltedLevel[] = [];
  const free: TiltedLevel[] = [];
  let names: readonly number[] = [0];
  let states = 1;
  for (const tilted of [...levels].reverse()) {
    const { level } = tilted;
    const after = names;
    if (isFree(level)) {
      free.push(alone(tilted));
      names = level.arcs.map((row) => after[row[0]?.next ?? 0] ?? 0);
    } else {
      const arcs = level.arcs.map((row) => row.map((arc) => ({ ...arc, next: after[arc.next] ?? 0 })));
      coupled.unshift({ ...tilted, level: { ...level, arcs, statesAfter: states } });
      names = arcs.map((_, state) => state);
      states = arcs.length;
    }
  }
  return { start: names[0] ?? 0, coupled, free: free.reverse() };
}
