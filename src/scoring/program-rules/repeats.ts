import type { Jump } from '../../notation/index.ts';
import type { RepeatRules } from '../../rulebook/index.ts';
import { familyOf, isEuler, kindOf } from './jumps.ts';
import type { ProgramState, Tries } from './types.ts';

/** What the repeat rules say of one more execution: the rule that voids it, or how it is credited. */
export interface RepeatVerdict {
  /** Path under `repeats` of the limit that is exceeded; null: the jump counts. */
  readonly broken: string | null;
  /** Second execution alone after one alone: `+REP`. */
  readonly reduced: boolean;
  readonly state: ProgramState;
}

type Class = 'high' | 'single' | 'low';

const turnsOf = (kind: string): number => Number(kind[0]);

/** An Axel counts its extra half turn: with limits from 2.5 turns the 2A is high. */
const halfTurns = (kind: string): number => turnsOf(kind) + (kind.endsWith('A') ? 0.5 : 0);

function classOf(kind: string, rules: RepeatRules): Class {
  if (halfTurns(kind) >= rules.highTurnsFrom) return 'high';
  return turnsOf(kind) === 1 && rules.singleKindsTwice !== null ? 'single' : 'low';
}

const reaches = (count: number, limit: number | null): boolean => limit !== null && count >= limit;

/** Limits on how many kinds may come twice; asked when a kind is about to come for the second time. */
function kindLimit(jump: Jump, state: ProgramState, rules: RepeatRules): string | null {
  const wanted = classOf(kindOf(jump), rules);
  const sameClass = state.repeatedKinds.filter((kind) => classOf(kind, rules) === wanted).length;
  if (wanted === 'single') return reaches(sameClass, rules.singleKindsTwice) ? 'singleKindsTwice' : null;
  if (wanted === 'low') return reaches(sameClass, rules.lowKindsTwice) ? 'lowKindsTwice' : null;
  if (reaches(sameClass, rules.highKindsTwice)) return 'highKindsTwice';
  const quads = state.repeatedKinds.filter((kind) => turnsOf(kind) >= 4).length;
  return jump.turns >= 4 && reaches(quads, rules.quadKindsTwice) ? 'quadKindsTwice' : null;
}

function familyLimit(jump: Jump, state: ProgramState, rules: RepeatRules): string | null {
  const family = familyOf(jump);
  const times = state.tries[family]?.times ?? 0;
  if (reaches(times, rules.maxPerFamily)) return 'maxPerFamily';
  if (times === 0 || state.repeatedFamilies.includes(family)) return null;
  return reaches(state.repeatedFamilies.length, rules.familiesTwice) ? 'familiesTwice' : null;
}

function exceeded(jump: Jump, state: ProgramState, rules: RepeatRules): string | null {
  const kind = kindOf(jump);
  const times = state.tries[kind]?.times ?? 0;
  if (reaches(times, rules.maxSame)) return 'maxSame';
  const byKind = times >= 1 && !state.repeatedKinds.includes(kind) ? kindLimit(jump, state, rules) : null;
  return byKind ?? familyLimit(jump, state, rules);
}

const tried = (tries: Tries | undefined, alone: boolean): Tries => ({
  times: (tries?.times ?? 0) + 1,
  alwaysAlone: alone && (tries?.alwaysAlone ?? true),
});

const countsFamilies = (rules: RepeatRules): boolean => rules.familiesTwice !== null || rules.maxPerFamily !== null;

function record(jump: Jump, alone: boolean, credited: boolean, state: ProgramState, rules: RepeatRules): ProgramState {
  const kind = kindOf(jump);
  const family = familyOf(jump);
  const tries: Record<string, Tries> = { ...state.tries, [kind]: tried(state.tries[kind], alone) };
  if (countsFamilies(rules)) tries[family] = tried(state.tries[family], alone);
  const adds = (list: readonly string[], name: string): boolean =>
    credited && (state.tries[name]?.times ?? 0) >= 1 && !list.includes(name);
  return {
    ...state,
    tries,
    repeatedKinds: adds(state.repeatedKinds, kind) ? [...state.repeatedKinds, kind].sort() : state.repeatedKinds,
    repeatedFamilies: adds(state.repeatedFamilies, family)
      ? [...state.repeatedFamilies, family].sort()
      : state.repeatedFamilies,
  };
}

/**
 * Asks the repeat rules about one jump of a free skate and records the try. Jumps without rotation,
 * the Euler and kinds below `freeBelowTurns` are free. Unknown limits do not restrict.
 * A try counts even if it has no value for another reason; a repeat that is voided does not use up
 * one of the kinds that may come twice.
 */
export function judgeRepeat(jump: Jump, alone: boolean, state: ProgramState): RepeatVerdict {
  const rules = state.rules.content.repeats;
  if (rules === null || isEuler(jump) || jump.turns < 1 || jump.turns < rules.freeBelowTurns) {
    return { broken: null, reduced: false, state };
  }
  const broken = exceeded(jump, state, rules);
  const before = state.tries[kindOf(jump)];
  const reducible = rules.repFromTurns !== null && jump.turns >= rules.repFromTurns;
  const reduced = broken === null && reducible && alone && before?.alwaysAlone === true;
  return { broken, reduced, state: record(jump, alone, broken === null, state, rules) };
}
