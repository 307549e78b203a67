import { convolve, mix, pointMass, withoutTails, type Pmf } from '../pmf.ts';
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

/** Outcomes that lead from one state to one other, with what they bring. */
export interface Step {
  readonly next: number;
  /** Equal keys bring the same points with the same chances. */
  readonly key: string;
  readonly ways: readonly { readonly outcome: number; readonly value: number; readonly deduct: number }[];
}

/** The steps out of a state, one for each state that follows. */
export function stepsOf(level: Level, state: number): readonly Step[] {
  const byNext = new Map<number, { outcome: number; value: number; deduct: number }[]>();
  (level.arcs[state] ?? []).forEach(({ next, value, deduct }, outcome) => {
    byNext.set(next, [...(byNext.get(next) ?? []), { outcome, value, deduct }]);
  });
  return [...byNext].map(([next, ways]) => ({
    next,
    ways,
    key: ways.map((w) => `${w.outcome} ${w.value} ${w.deduct}`).join(','),
  }));
}

/** The points of a step at one node, deduction included; null where none of it can happen. */
function windowOf(level: Level, { ways }: Step, chances: Chances): Pmf | null {
  const list: { points: number; p: number }[] = [];
  for (const { outcome, value, deduct } of ways) {
    const points = level.values[value]?.points ?? [];
    chances[outcome]?.forEach((p, g) => {
      if (p > 0) list.push({ points: (points[g] ?? 0) + deduct, p });
    });
  }
  return list.length === 0 ? null : gathered(list);
}

/** A distribution by state (its mass is the chance of the state); null: the state cannot be reached. */
export type States = readonly (Pmf | null)[];

/** All probability in one state before the first element. */
export const startIn = (state: number): States =>
  Array.from({ length: state + 1 }, (_, i) => (i === state ? pointMass(0) : null));

const sumOf = (parts: readonly Pmf[]): Pmf | null => {
  const [first] = parts;
  if (first === undefined) return null;
  return parts.length === 1 ? first : mix(parts.map((pmf) => ({ pmf, weight: 1 })));
};

/**
 * One element further, at one node: sums so far by state after the element. States that make the same
 * step are added up first, so that it is multiplied out once.
 */
export function advance(states: States, { level, chances }: TiltedLevel, node: number): States {
  const sources = new Map<string, { step: Step; from: Pmf[] }>();
  states.forEach((source, state) => {
    if (source === null) return;
    for (const step of stepsOf(level, state)) {
      const name = `${step.next}: ${step.key}`;
      const known = sources.get(name);
      if (known) known.from.push(source);
      else sources.set(name, { step, from: [source] });
    }
  });
  const arrived: Pmf[][] = Array.from({ length: level.statesAfter }, () => []);
  for (const { step, from } of sources.values()) {
    const window = windowOf(level, step, chances[node] ?? []);
    const source = sumOf(from);
    if (window !== null && source !== null) arrived[step.next]?.push(withoutTails(convolve(source, window)));
  }
  return arrived.map(sumOf);
}

/**
 * One element back, at one node: what is still to come, by state before the element. A step that several
 * states make is multiplied out once.
 */
export function retreat(later: States, { level, chances }: TiltedLevel, node: number): States {
  const made = new Map<string, Pmf | null>();
  const through = (step: Step): Pmf | null => {
    const name = `${step.next}: ${step.key}`;
    const known = made.get(name);
    if (known !== undefined) return known;
    const window = windowOf(level, step, chances[node] ?? []);
    const source = later[step.next] ?? null;
    const result = window === null || source === null ? null : withoutTails(convolve(source, window));
    made.set(name, result);
    return result;
  };
  return level.arcs.map((_, state) =>
    sumOf(
      stepsOf(level, state)
        .map(through)
        .filter((pmf) => pmf !== null),
    ),
  );
}

/** Distribution of a free element at one node. */
export function freeWindow({ level, chances }: TiltedLevel, node: number): Pmf {
  const [step] = stepsOf(level, 0);
  return (step === undefined ? null : windowOf(level, step, chances[node] ?? [])) ?? pointMass(0);
}
