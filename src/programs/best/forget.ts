import type { RepeatRules } from '../../rulebook/index.ts';
import type { ProgramState } from '../../scoring/index.ts';
import { jumpFacts } from './contested.ts';
import type { PoolItem } from './pool.ts';

/** Jumps that elements still to come may hold, whatever happens on them. */
export interface Future {
  /** Tells futures of one graph apart. */
  readonly id: number;
  /** Kind or family -> most executions. */
  readonly most: ReadonlyMap<string, number>;
  /** The kinds among them. */
  readonly kinds: readonly (readonly [kind: string, times: number])[];
  /** Names that may stand alone. */
  readonly alone: ReadonlySet<string>;
}

/** What elements still to come may hold, without a number yet. */
export function namesAhead(items: readonly PoolItem[]): Omit<Future, 'id'> {
  const most = new Map<string, number>();
  const alone = new Set<string>();
  for (const item of items) {
    const facts = jumpFacts(item);
    for (const [name, times] of facts.most) most.set(name, (most.get(name) ?? 0) + times);
    for (const name of facts.alone) alone.add(name);
  }
  return { most, alone, kinds: [...most].filter(([name]) => isKind(name)) };
}

const turnsOf = (kind: string): number => kind.charCodeAt(0) - ZERO;
const ZERO = '0'.charCodeAt(0);

/** A kind begins with its turns; other names are families. */
const isKind = (name: string): boolean => turnsOf(name) >= 0 && turnsOf(name) <= 9;

type Class = 'high' | 'single' | 'low';

function classOf(kind: string, rules: RepeatRules): Class {
  if (turnsOf(kind) + (kind.endsWith('A') ? 0.5 : 0) >= rules.highTurnsFrom) return 'high';
  return turnsOf(kind) === 1 && rules.singleKindsTwice !== null ? 'single' : 'low';
}

/** Stands for a kind that does not come again: all that a limit on kinds asks is its turns and whether it is an Axel. */
const markOf = (kind: string): string => `${kind[0] ?? ''}${kind.endsWith('A') ? 'A' : ''}`;

/** The limits on how many kinds may come twice that can still be exceeded. */
interface OpenLimits {
  readonly high: boolean;
  readonly single: boolean;
  readonly low: boolean;
  readonly quads: boolean;
}

const exceeds = (count: number, limit: number | null): boolean => limit !== null && count > limit;

function openLimits(state: ProgramState, { kinds }: Future, rules: RepeatRules): OpenLimits {
  const twice = { high: 0, single: 0, low: 0, quads: 0 };
  const count = (kind: string): void => {
    twice[classOf(kind, rules)]++;
    if (turnsOf(kind) >= 4) twice.quads++;
  };
  for (const kind of state.repeatedKinds) count(kind);
  for (const [kind, times] of kinds) {
    const mayRepeat = times >= 2 || state.tries[kind] !== undefined;
    if (mayRepeat && !state.repeatedKinds.includes(kind)) count(kind);
  }
  return {
    high: exceeds(twice.high, rules.highKindsTwice),
    single: exceeds(twice.single, rules.singleKindsTwice),
    low: exceeds(twice.low, rules.lowKindsTwice),
    quads: exceeds(twice.quads, rules.quadKindsTwice),
  };
}

const isOpen = (open: OpenLimits, kind: string, rules: RepeatRules): boolean =>
  open[classOf(kind, rules)] || (open.quads && turnsOf(kind) >= 4);

/**
 * The same state without what no element still to come can ask: everything that follows is called alike.
 * States that differ only in what is over become one, so a search meets far fewer of them.
 */
export function forget(state: ProgramState, future: Future): ProgramState {
  const { repeats: rules, slots } = state.rules.content;
  if (rules === null || slots !== null) return state;
  const open = openLimits(state, future, rules);
  const tries: Record<string, ProgramState['tries'][string]> = {};
  for (const name in state.tries) {
    const before = state.tries[name];
    if (before === undefined) continue;
    const later = future.most.get(name) ?? 0;
    if (later === 0) continue;
    if (!isKind(name)) {
      tries[name] = before;
      continue;
    }
    const { times, alwaysAlone } = before;
    const reducible = rules.repFromTurns !== null && turnsOf(name) >= rules.repFromTurns && future.alone.has(name);
    const asksAlone = reducible && (alwaysAlone || later >= 2);
    const asksSame = rules.maxSame !== null && times + later > rules.maxSame;
    const asksKinds = isOpen(open, name, rules) && !state.repeatedKinds.includes(name);
    if (!asksAlone && !asksSame && !asksKinds) continue;
    tries[name] = { times: Math.min(times, rules.maxSame ?? 1), alwaysAlone: asksAlone && alwaysAlone };
  }
  const repeatedKinds =
    state.repeatedKinds.length === 0
      ? state.repeatedKinds
      : state.repeatedKinds
          .filter((name) => isOpen(open, name, rules))
          .map((name) => (future.most.has(name) ? name : markOf(name)))
          .sort();
  return { ...state, tries, repeatedKinds };
}
