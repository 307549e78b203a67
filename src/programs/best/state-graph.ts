import { callNext, kindOf, startProgram, type ProgramState } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import { AXEL } from './axel.ts';
import type { Day } from './day.ts';
import { forget, namesAhead, type Future } from './forget.ts';
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

/**
 * How much of a state is remembered: all of it; only tries and repeats; those, and whether the Axel was
 * done. Less is right for programs in which no other rule can still strike.
 */
export type Memory = 'all' | 'repeats' | 'repeats and axel';

/** What must be remembered where these names couple elements; null: every rule may strike. */
export const memoryFor = (names: ReadonlySet<string> | null): Memory =>
  names === null ? 'all' : names.has(AXEL) ? 'repeats and axel' : 'repeats';

const triesKey = ({ tries }: ProgramState): string =>
  Object.keys(tries)
    .sort()
    .map((name) => `${name}${tries[name]?.times ?? 0}${tries[name]?.alwaysAlone === true ? 'a' : ''}`)
    .join(',');

/** What is not always the same where only repeats and the Axel are remembered, as text. */
const briefKey = (s: ProgramState): string =>
  `${s.axelDone ? 'A' : s.jumpElements}|${triesKey(s)}|${s.repeatedKinds.join(',')}|${s.repeatedFamilies.join(',')}`;

/** Everything of a state, as text. */
function fullKey(s: ProgramState): string {
  const choreo = Object.entries(s.choreo).flat().join(',');
  return [
    s.jumpElements,
    s.axelDone,
    s.unitLengths.join(''),
    s.combinations,
    s.sequences,
    s.eulers,
    triesKey(s),
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
 * Program states as a graph, each transition called once. What nothing still to come can ask is forgotten
 * on the way, so all choices of elements meet the same few states.
 */
export class StateGraph {
  /** Tells graphs apart. */
  readonly memory: Memory;
  readonly start: StateNode;
  private readonly nodes = new Map<string, StateNode>();
  private readonly empty: ProgramState;
  private readonly sets = new Map<string, number>();
  private readonly futures = new Map<string, Future>();
  private readonly futuresOf = new Map<string, Future>();
  private readonly book: ValueBook;
  private readonly day: Day;

  constructor(rules: SegmentRules, book: ValueBook, day: Day, memory: Memory) {
    this.book = book;
    this.day = day;
    this.memory = memory;
    this.empty = startProgram(rules.content, rules.chosen.values.values, rules.chosen.segment);
    this.start = this.node(this.empty);
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

  /** A number for a set of elements with their places. */
  setId(key: string): number {
    let id = this.sets.get(key);
    if (id === undefined) this.sets.set(key, (id = this.sets.size));
    return id;
  }

  /** What elements still to come may hold; the same object for what is asked alike. */
  future(items: readonly PoolItem[]): Future {
    const key = items.map(({ id }) => id).join(' ');
    const known = this.futuresOf.get(key);
    if (known !== undefined) return known;
    const names = namesAhead(items);
    const { most, alone } = names;
    const name = [...most].map(([one, times]) => `${one}${times}${alone.has(one) ? 'a' : ''}`);
    const same = name.sort().join(' ');
    const future = this.futures.get(same) ?? { id: this.futures.size, ...names };
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
    const key = this.memory === 'all' ? fullKey(reduced) : briefKey(reduced);
    const known = this.nodes.get(key);
    if (known !== undefined) return known;
    const fresh: StateNode = { state: reduced, arcs: new Map(), forgotten: [] };
    this.nodes.set(key, fresh);
    return fresh;
  }

  private reduce(state: ProgramState): ProgramState {
    if (this.memory === 'all') return state;
    const axelDone = this.memory === 'repeats' || state.axelDone;
    return {
      ...this.empty,
      axelDone,
      // How many jump elements were done is asked while the last place is kept for an Axel.
      jumpElements: axelDone ? 0 : state.jumpElements,
      tries: state.tries,
      repeatedKinds: state.repeatedKinds,
      repeatedFamilies: state.repeatedFamilies,
    };
  }
}
