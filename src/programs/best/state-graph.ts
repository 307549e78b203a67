import { callNext, kindOf, startProgram, type ProgramState } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import type { Day } from './day.ts';
import { forget, isMark, namesAhead, type Future } from './forget.ts';
import type { ByPlace } from './measured.ts';
import type { PoolItem, PoolOutcome } from './pool.ts';
import { BONUS, EARLY, LATE, type CalledOutcome, type PlaceIndex, type ValueBook } from './values.ts';

/** A program state that a search meets again and again; outcomes lead from one to the next. */
export interface StateNode {
  readonly state: ProgramState;
  /** By the id of the outcome. */
  readonly arcs: Map<number, Arc>;
  /** The same state for what is still to come, by the number of the future. */
  readonly forgotten: StateNode[];
}

export interface Arc {
  readonly called: CalledOutcome;
  readonly next: StateNode;
  /** By place, then by node of the day: chance of the outcome, and points times chances. */
  readonly brings: ByPlace<readonly { readonly p: number; readonly gain: number }[]>;
}

/** Stands among kept names where the last place may be refused for want of an Axel. */
export const AXEL = 'the Axel';

/** Kept names as a key. */
export const keptKey = (kept: ReadonlySet<string> | null): string =>
  kept === null ? 'all' : [...kept].sort().join(' ');

/** Everything of a state, as text. */
function fullKey(s: ProgramState): string {
  const tries = Object.keys(s.tries)
    .sort()
    .map((name) => `${name}${s.tries[name]?.times ?? 0}${s.tries[name]?.alwaysAlone === true ? 'a' : ''}`);
  const choreo = Object.entries(s.choreo).flat().join(',');
  return [
    s.jumpElements,
    s.axelDone,
    s.unitLengths.join(''),
    s.combinations,
    s.sequences,
    s.eulers,
    tries.join(','),
    s.repeatedKinds.join(','),
    s.repeatedFamilies.join(','),
    s.slots.axel === null ? '' : kindOf(s.slots.axel),
    s.slots.alone,
    s.slots.combination,
    s.spins.join(','),
    s.steps,
    choreo,
  ].join('|');
}

/**
 * Program states as a graph, each transition called once. With `kept` names only their tries and
 * repeats (and whether the Axel was done, if asked) are remembered and everything else is taken as
 * harmless: right for programs in which no other rule can still strike. Without it states are whole.
 */
export class StateGraph {
  /** Tells graphs apart. */
  readonly key: string;
  readonly start: StateNode;
  private readonly nodes = new Map<string, StateNode>();
  private readonly futures = new Map<string, Future>();
  private readonly futuresOf = new Map<string, Future>();
  private readonly book: ValueBook;
  private readonly day: Day;
  private readonly kept: ReadonlySet<string> | null;

  constructor(rules: SegmentRules, book: ValueBook, day: Day, kept: ReadonlySet<string> | null) {
    this.book = book;
    this.day = day;
    this.kept = kept;
    this.key = keptKey(kept);
    this.start = this.node(startProgram(rules.content, rules.chosen.values.values, rules.chosen.segment));
  }

  /** Calls an outcome of an item, by its number, in a state. */
  arc(from: StateNode, item: PoolItem, o: number, outcome: PoolOutcome): Arc {
    const known = from.arcs.get(outcome.id);
    if (known !== undefined) return known;
    const called = callNext(from.state, outcome.element, { bonus: false });
    const points = this.book.of(outcome, called);
    const at = (place: PlaceIndex) => this.day.outcome(item, o, place, points.points[place]);
    const arc: Arc = { called: points, next: this.node(called.state), brings: [at(EARLY), at(BONUS), at(LATE)] };
    from.arcs.set(outcome.id, arc);
    return arc;
  }

  /** What elements still to come may hold; the same object for what is asked alike. */
  future(items: readonly PoolItem[]): Future {
    const key = items.map(({ id }) => id).join(' ');
    const known = this.futuresOf.get(key);
    if (known !== undefined) return known;
    const { most, alone } = namesAhead(items);
    const name = [...most].map(([one, times]) => `${one}${times}${alone.has(one) ? 'a' : ''}`);
    const same = name.sort().join(' ');
    const future = this.futures.get(same) ?? { id: this.futures.size, most, alone };
    this.futures.set(same, future);
    this.futuresOf.set(key, future);
    return future;
  }

  /** A state without what nothing still to come can ask: from there on everything goes alike. */
  forget(node: StateNode, future: Future): StateNode {
    return (node.forgotten[future.id] ??= this.node(forget(node.state, future)));
  }

  private node(state: ProgramState): StateNode {
    const reduced = this.reduce(state);
    const key = fullKey(reduced);
    const known = this.nodes.get(key);
    if (known !== undefined) return known;
    const fresh: StateNode = { state: reduced, arcs: new Map(), forgotten: [] };
    this.nodes.set(key, fresh);
    return fresh;
  }

  private reduce(state: ProgramState): ProgramState {
    const { kept } = this;
    if (kept === null) return state;
    const { rules } = state;
    const axelDone = !kept.has(AXEL) || state.axelDone;
    return {
      ...startProgram(rules.content, rules.values, rules.segment),
      axelDone,
      // How many jump elements were done is asked while the last place is kept for an Axel.
      jumpElements: axelDone ? 0 : state.jumpElements,
      tries: Object.fromEntries(Object.entries(state.tries).filter(([name]) => kept.has(name))),
      repeatedKinds: state.repeatedKinds.filter((name) => kept.has(name) || isMark(name)),
      repeatedFamilies: state.repeatedFamilies.filter((name) => kept.has(name)),
    };
  }
}
