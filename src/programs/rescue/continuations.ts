import type { Element, Jump, JumpElement } from '../../notation/index.ts';
import type { Hundredths } from '../../rulebook/index.ts';
import { bonusPlaces, callNext, hasStrayEuler, startProgram, type Called } from '../../scoring/index.ts';
import type { Planned } from '../planned.ts';
import { pointsAt } from '../points.ts';
import type { SegmentRules } from '../segment-rules.ts';

/** Elements done otherwise than planned: position (from 1) -> element. */
export type Changes = ReadonlyMap<number, JumpElement>;

/** What a program scores if it is skated like this, each element at its planned grade. */
export interface Skated {
  readonly points: Hundredths;
  readonly called: readonly Called[];
  /** Points of each element, in the same order. */
  readonly each: readonly Hundredths[];
}

/** Skates the plan with some elements done otherwise. Values that are not known count nothing. */
export function skate(planned: readonly Planned[], changes: Changes, rules: SegmentRules): Skated {
  const places = bonusPlaces(
    planned.map((p) => ({ isJump: p.element.kind === 'jump', half: p.half, start: p.start })),
    rules.content,
  );
  const { values } = rules.chosen;
  let state = startProgram(rules.content, values.values, rules.chosen.segment);
  const each: Hundredths[] = [];
  const called = planned.map((p, i) => {
    const element: Element = changes.get(p.no) ?? p.element;
    const next = callNext(state, element, { bonus: places[i] === true });
    state = next.state;
    const grade = next.lowestGrade ? values.values.goe.min : p.grade;
    each.push(pointsAt(values, next.element, next.half, grade) ?? 0);
    return next;
  });
  return { points: each.reduce((sum, one) => sum + one, 0), called, each };
}

const isLaterJump = (p: Planned, after: number): boolean => p.no > after && p.element.kind === 'jump';

const key = (jumps: readonly Jump[]): string => jumps.map((j) => `${j.turns}${j.name}`).join('+');

/** The tails (second and third jumps) that the plan holds: the skater knows how to do them. */
export function tailsOf(planned: readonly Planned[]): readonly (readonly Jump[])[] {
  const tails = new Map<string, readonly Jump[]>();
  for (const { element } of planned) {
    if (element.kind !== 'jump' || element.markers.length > 0) continue;
    const tail = element.jumps.slice(1);
    const [second] = tail;
    for (const one of [tail, ...(second === undefined ? [] : [[second]])]) {
      // An Euler leads to another jump: alone it is no tail.
      if (one.length > 0 && !hasStrayEuler(withTail(element, one))) tails.set(key(one), one);
    }
  }
  return [...tails.values()];
}

export const withTail = (element: JumpElement, tail: readonly Jump[]): JumpElement => ({
  kind: 'jump',
  jumps: [...element.jumps.slice(0, 1), ...tail],
  markers: [],
});

/** One way to do one later jump element otherwise. */
export interface Option {
  readonly no: number;
  readonly element: JumpElement;
}

/**
 * Everything that may be changed after a mishap: another known tail on a later jump, or none. The first
 * jumps stay as planned: a plan B asks for no jump that is not in the program.
 */
export function optionsAfter(planned: readonly Planned[], no: number): readonly Option[] {
  const tails = [[], ...tailsOf(planned)];
  return planned.flatMap((p): readonly Option[] => {
    if (!isLaterJump(p, no) || p.element.kind !== 'jump') return [];
    const { element } = p;
    const own = key(element.jumps.slice(1));
    return tails
      .filter((tail) => key(tail) !== own)
      .map((tail) => ({ no: p.no, element: withTail(element, tail) }))
      .filter((option) => !hasStrayEuler(option.element));
  });
}

const countTails = (elements: readonly Element[]): ReadonlyMap<string, number> => {
  const counts = new Map<string, number>();
  for (const element of elements) {
    if (element.kind !== 'jump') continue;
    for (const jump of element.jumps.slice(1)) counts.set(key([jump]), (counts.get(key([jump])) ?? 0) + 1);
  }
  return counts;
};

/** No tail more often than the program has it: a plan B puts back, it adds no attempts. */
function addsNothing(planned: readonly Planned[], no: number, changes: Changes): boolean {
  const before = countTails(planned.map((p) => p.element));
  const after = countTails(planned.flatMap((p) => (p.no === no ? [] : [changes.get(p.no) ?? p.element])));
  return [...after].every(([name, times]) => times <= (before.get(name) ?? 0));
}

/** Points that one more change must bring to be worth remembering. */
const SIMPLICITY: Hundredths = 20;

/** The best way to go on after a mishap, with at most two changes. */
export interface Continuation {
  readonly changes: Changes;
  readonly points: Hundredths;
}

export function bestContinuation(
  planned: readonly Planned[],
  mishap: { readonly no: number; readonly done: JumpElement },
  rules: SegmentRules,
): Continuation {
  const start = new Map([[mishap.no, mishap.done]]);
  const plain: Continuation = { changes: new Map(), points: skate(planned, start, rules).points };
  const options = optionsAfter(planned, mishap.no);
  let best = plain;
  const consider = (list: readonly Option[]): void => {
    const changes = new Map(list.map((o) => [o.no, o.element] as const));
    if (!addsNothing(planned, mishap.no, changes)) return;
    const { points } = skate(planned, new Map([...start, ...changes]), rules);
    const charge = (c: Changes): number => c.size * SIMPLICITY;
    if (points - charge(changes) > best.points - charge(best.changes)) best = { changes, points };
  };
  options.forEach((one) => {
    consider([one]);
  });
  options.forEach((one, i) => {
    for (const two of options.slice(i + 1)) if (two.no !== one.no) consider([one, two]);
  });
  return best;
}
