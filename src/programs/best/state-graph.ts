import { callNext, kindOf, startProgram, type ProgramState } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import type { PoolOutcome } from './pool.ts';
import type { CalledOutcome, ValueBook } from './values.ts';

/** A program state that a search meets again and again; outcomes lead from one to the next. */
export interface StateNode {
  readonly state: ProgramState;
  readonly arcs: Map<number, Arc>;
}

export interface Arc {
  readonly called: CalledOutcome;
  readonly next: StateNode;
}

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
 * repeats are remembered and everything else is taken as harmless: right for programs in which no rule
 * but the repeat rules on these names can still strike. Without it states are whole.
 */
export class StateGraph {
  readonly start: StateNode;
  private readonly nodes = new Map<string, StateNode>();
  private readonly book: ValueBook;
  private readonly kept: ReadonlySet<string> | null;

  constructor(rules: SegmentRules, book: ValueBook, kept: ReadonlySet<string> | null) {
    this.book = book;
    this.kept = kept;
    this.start = this.node(startProgram(rules.content, rules.chosen.values.values, rules.chosen.segment));
  }

  /** Calls an outcome in a state. */
  arc(from: StateNode, outcome: PoolOutcome): Arc {
    const known = from.arcs.get(outcome.id);
    if (known !== undefined) return known;
    const called = callNext(from.state, outcome.element, { bonus: false });
    const arc: Arc = { called: this.book.of(outcome, called), next: this.node(called.state) };
    from.arcs.set(outcome.id, arc);
    return arc;
  }

  private node(state: ProgramState): StateNode {
    const reduced = this.reduce(state);
    const key = fullKey(reduced);
    const known = this.nodes.get(key);
    if (known !== undefined) return known;
    const fresh: StateNode = { state: reduced, arcs: new Map() };
    this.nodes.set(key, fresh);
    return fresh;
  }

  private reduce(state: ProgramState): ProgramState {
    const { kept } = this;
    if (kept === null) return state;
    const { rules } = state;
    return {
      ...startProgram(rules.content, rules.values, rules.segment),
      axelDone: true,
      tries: Object.fromEntries(Object.entries(state.tries).filter(([name]) => kept.has(name))),
      repeatedKinds: state.repeatedKinds.filter((name) => kept.has(name)),
      repeatedFamilies: state.repeatedFamilies.filter((name) => kept.has(name)),
    };
  }
}
