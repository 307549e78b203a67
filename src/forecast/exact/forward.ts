import { addScaled, pointMass, type Pmf } from '../pmf.ts';
import type { Level } from './graph.ts';
import type { Chances, TiltedLevel } from './tilted.ts';

/** The points that lead from one state to another, gathered into a small dense distribution. */
function gathered(list: readonly { readonly points: number; readonly p: number }[]): Pmf {
  let low = Infinity;
  let high = -Infinity;
  for (const { points } of list) {
    low = Math.min(low, points);
    high = Math.max(high, points);
  }
  const p = new Float64Array(high - low + 1);
  for (const atom of list) p[atom.points - low] = (p[atom.points - low] ?? 0) + atom.p;
  return { from: low, p };
}

/** By next state: the points of the step from `state` at one node, deduction included. */
function windowsOf(level: Level, state: number, chances: Chances): ReadonlyMap<number, Pmf> {
  const lists = new Map<number, { points: number; p: number }[]>();
  for (const [o, arc] of (level.arcs[state] ?? []).entries()) {
    const points = level.values[arc.value]?.points ?? [];
    const list = lists.get(arc.next) ?? [];
    lists.set(arc.next, list);
    chances[o]?.forEach((p, g) => {
      if (p > 0) list.push({ points: (points[g] ?? 0) + arc.deduct, p });
    });
  }
  return new Map([...lists].filter(([, list]) => list.length > 0).map(([next, list]) => [next, gathered(list)]));
}

interface Move {
  readonly source: Pmf;
  readonly window: Pmf;
}

/** Adds up everything that arrives in one state. */
function arrive(moves: readonly Move[]): Pmf | null {
  if (moves.length === 0) return null;
  let from = Infinity;
  let to = -Infinity;
  for (const { source, window } of moves) {
    from = Math.min(from, source.from + window.from);
    to = Math.max(to, source.from + window.from + source.p.length + window.p.length - 1);
  }
  const p = new Float64Array(to - from);
  for (const { source, window } of moves) {
    const at = source.from + window.from - from;
    const [wide, narrow] = source.p.length >= window.p.length ? [source.p, window.p] : [window.p, source.p];
    for (let i = 0; i < narrow.length; i++) {
      const weight = narrow[i] ?? 0;
      if (weight !== 0) addScaled(p, at + i, wide, weight);
    }
  }
  return { from, p };
}

/** A distribution by state (its mass is the chance of the state); null: the state cannot be reached. */
export type States = readonly (Pmf | null)[];

/** All probability in one state before the first element. */
export const startIn = (state: number): States =>
  Array.from({ length: state + 1 }, (_, i) => (i === state ? pointMass(0) : null));

/** One element further, at one node: sums so far by state after the element. */
export function advance(states: States, { level, chances }: TiltedLevel, node: number): States {
  const moves: Move[][] = Array.from({ length: level.statesAfter }, () => []);
  states.forEach((source, state) => {
    if (source === null) return;
    for (const [next, window] of windowsOf(level, state, chances[node] ?? [])) moves[next]?.push({ source, window });
  });
  return moves.map(arrive);
}

/** One element back, at one node: what is still to come, by state before the element. */
export function retreat(later: States, { level, chances }: TiltedLevel, node: number): States {
  return level.arcs.map((_, state) => {
    const moves: Move[] = [];
    for (const [next, window] of windowsOf(level, state, chances[node] ?? [])) {
      const source = later[next];
      if (source != null) moves.push({ source, window });
    }
    return arrive(moves);
  });
}

/** Distribution of a free element at one node. */
export const freeWindow = ({ level, chances }: TiltedLevel, node: number): Pmf =>
  windowsOf(level, 0, chances[node] ?? []).get(0) ?? pointMass(0);
