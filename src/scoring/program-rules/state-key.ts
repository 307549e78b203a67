import type { Element } from '../../notation/index.ts';
import { familyOf, isEuler, isUnit, kindOf } from './jumps.ts';
import type { ProgramState } from './types.ts';

/**
 * What may still come after a place in a program: everything that any outcome of any later element
 * contains. What no later element can ask is dropped from the state's key.
 */
export interface Future {
  /** Kinds and families of jumps, each with the number of times that later elements may contain it. */
  readonly names: ReadonlyMap<string, number>;
  readonly jumpElements: number;
  readonly units: number;
  readonly eulers: boolean;
  readonly spins: number;
  readonly steps: boolean;
  readonly choreo: boolean;
}

const EMPTY: Future = {
  names: new Map(),
  jumpElements: 0,
  units: 0,
  eulers: false,
  spins: 0,
  steps: false,
  choreo: false,
};

/** Names with the most executions in one outcome: `3T+3T` can repeat its own jump. */
function namesOf(outcomes: readonly Element[]): ReadonlyMap<string, number> {
  const most = new Map<string, number>();
  for (const element of outcomes) {
    if (element.kind !== 'jump') continue;
    const here = new Map<string, number>();
    for (const jump of element.jumps) {
      if (jump.turns < 1 || isEuler(jump)) continue;
      for (const name of [kindOf(jump), familyOf(jump)]) here.set(name, (here.get(name) ?? 0) + 1);
    }
    for (const [name, times] of here) most.set(name, Math.max(most.get(name) ?? 0, times));
  }
  return most;
}

function before(later: Future, outcomes: readonly Element[]): Future {
  const names = new Map(later.names);
  for (const [name, times] of namesOf(outcomes)) names.set(name, (names.get(name) ?? 0) + times);
  const jumps = outcomes.flatMap((element) => (element.kind === 'jump' ? [element] : []));
  const some = (kind: Element['kind']): boolean => outcomes.some((element) => element.kind === kind);
  return {
    names,
    jumpElements: later.jumpElements + (jumps.length > 0 ? 1 : 0),
    units: later.units + (jumps.some(isUnit) ? 1 : 0),
    eulers: later.eulers || jumps.some((element) => element.jumps.some(isEuler)),
    spins: later.spins + (some('spin') ? 1 : 0),
    steps: later.steps || some('steps'),
    choreo: later.choreo || some('choreo'),
  };
}

/** `futures(outcomes)[i]`: what may come after element i, given every outcome of every element. */
export function futures(outcomesByElement: readonly (readonly Element[])[]): readonly Future[] {
  const result: Future[] = [];
  let later = EMPTY;
  for (let i = outcomesByElement.length - 1; i >= 0; i--) {
    result[i] = later;
    later = before(later, outcomesByElement[i] ?? []);
  }
  return result;
}

/** Tries of a name that can come again; the highest number that a limit can ask is enough. */
function triesKey(state: ProgramState, future: Future): string {
  const asked = Object.keys(state.tries).filter((name) => future.names.has(name));
  return asked
    .sort()
    .map((name) => `${name}${state.tries[name]?.times ?? 0}${state.tries[name]?.alwaysAlone === true ? 'a' : ''}`)
    .join(',');
}

/** Can a later jump become a repeat at all? Only then do the limits on repeated kinds matter. */
const mayRepeat = (state: ProgramState, future: Future): boolean =>
  [...future.names].some(([name, times]) => times > 1 || state.tries[name] !== undefined);

/** Turns, and whether an Axel: all that a limit on kinds can ask of a kind that does not come again. */
const classMark = (name: string): string => `${name[0] ?? ''}${name.endsWith('A') ? 'A' : ''}`;

/** Free skate: repeated names by what a limit can ask (the name if it comes again, else its class). */
function repeatedKey(state: ProgramState, future: Future): string {
  if (!mayRepeat(state, future)) return '';
  const shorten = (name: string): string => (future.names.has(name) ? name : classMark(name));
  return `${state.repeatedKinds.map(shorten).sort().join(',')};${state.repeatedFamilies.map(shorten).sort().join(',')}`;
}

function jumpsKey(state: ProgramState, future: Future): string {
  if (future.jumpElements === 0) return '';
  const { axel, alone, combination } = state.slots;
  return [
    state.jumpElements,
    state.axelDone ? 'A' : '',
    future.units > 0 ? `${state.unitLengths.join('')}/${state.combinations}/${state.sequences}` : '',
    future.eulers || future.units > 0 ? state.eulers : '',
    `${axel === null ? '' : kindOf(axel)}${alone}${combination}`,
    triesKey(state, future),
    repeatedKey(state, future),
  ].join('|');
}

/**
 * Key of a state before the elements of `future`: equal keys are called alike from there on, so a
 * search or a convolution may merge them. `finish` is outside of this promise.
 */
export function stateKey(state: ProgramState, future: Future): string {
  return [
    jumpsKey(state, future),
    future.spins > 0 ? state.spins.join(',') : '',
    future.steps ? state.steps : '',
    future.choreo ? Object.entries(state.choreo).flat().join(',') : '',
  ].join('#');
}
