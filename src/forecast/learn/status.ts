import type { EdgeCall, Element, Jump } from '../../notation/index.ts';
import type { Skated } from './skated.ts';

/** What became of the first jump of an element. */
export const FIRST = ['ok', 'q', '<', '<<', 'pop', 'pop2'] as const;
export type First = (typeof FIRST)[number];

/** What became of the jump that was to follow. */
export const SECOND = ['ok', 'q', '<', '<<', 'less', 'missing'] as const;
export type Second = (typeof SECOND)[number];

/** How well it went, for the panel's grade: the worst thing on the element. */
export const SEVERITIES = ['ok', 'doubt', 'short', 'down', 'pop', 'fall'] as const;
export type Severity = (typeof SEVERITIES)[number];

/** A try of a planned jump element, in the words of this room. */
export interface JumpTry {
  readonly first: First;
  readonly edge: EdgeCall | null;
  /** null: no second jump was planned, or none was due after the first. */
  readonly second: Second | null;
  readonly fall: boolean;
  readonly grade: number | null;
}

/** Jumps that share rates: by turns, the Axels of two and three turns apart. */
export const JUMP_CLASSES = ['single', 'double', '2A', 'triple', '3A', 'quad'] as const;
export type JumpClass = (typeof JUMP_CLASSES)[number];

/** Class of a jump. */
export function jumpClass({ name, turns }: Pick<Jump, 'name' | 'turns'>): JumpClass {
  if (turns <= 1) return 'single';
  if (turns >= 4) return 'quad';
  if (name === 'A') return turns === 2 ? '2A' : '3A';
  return turns === 2 ? 'double' : 'triple';
}

function firstOf(planned: Jump, skated: Jump): First {
  const lost = planned.turns - skated.turns;
  if (lost >= 2) return 'pop2';
  if (lost === 1) return 'pop';
  return skated.rotation ?? 'ok';
}

/** The jump that follows the first, the Euler passed over. */
export const followerOf = (element: Element): Jump | undefined =>
  element.kind === 'jump' ? element.jumps.slice(1).find((jump) => jump.name !== 'Eu') : undefined;

function secondOf(planned: Jump, skated: Jump | undefined): Second {
  if (skated === undefined) return 'missing';
  return skated.turns < planned.turns ? 'less' : (skated.rotation ?? 'ok');
}

const isUnit = (element: Element): boolean => element.kind === 'jump' && element.jumps.length > 1;

/**
 * A second jump that is absent where it was planned may have been put behind another jump: so it is
 * where the program holds no fewer combinations and sequences than the plan.
 */
export const secondMoved = (planned: readonly Element[], skated: readonly Skated[]): boolean =>
  skated.filter((s) => isUnit(s.element)).length >= planned.filter(isUnit).length;

/**
 * Reads a try of a planned jump element; undefined where one of them is no jump. `moved`: see
 * `secondMoved`; an absent second jump then says nothing.
 */
export function jumpTry(planned: Element, skated: Skated, moved = false): JumpTry | undefined {
  if (planned.kind !== 'jump' || skated.element.kind !== 'jump') return undefined;
  const [plannedFirst] = planned.jumps;
  const [first] = skated.element.jumps;
  if (plannedFirst === undefined || first === undefined) return undefined;
  const follower = followerOf(planned);
  const what = firstOf(plannedFirst, first);
  const due = follower !== undefined && what !== 'pop' && what !== 'pop2';
  const second = due ? secondOf(follower, followerOf(skated.element)) : null;
  return {
    first: what,
    edge: first.edge,
    second: second === 'missing' && moved ? null : second,
    fall: skated.fall,
    grade: skated.grade,
  };
}

/** The worst thing on the element, which sets the level of its grade. */
export function severityOf(one: Pick<JumpTry, 'first' | 'edge' | 'second' | 'fall'>): Severity {
  if (one.fall) return 'fall';
  if (one.first === 'pop' || one.first === 'pop2') return 'pop';
  const calls = [one.first, one.second];
  if (calls.includes('<<')) return 'down';
  if (calls.includes('<') || one.edge === 'e' || one.second === 'missing') return 'short';
  return calls.includes('q') || one.edge === '!' ? 'doubt' : 'ok';
}
