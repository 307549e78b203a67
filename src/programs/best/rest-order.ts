import { callNext, spinCharacter, startProgram } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import type { Day } from './day.ts';
import type { Measured } from './measured.ts';
import { permutations } from './permutations.ts';
import { StateGraph, type StateNode } from './state-graph.ts';
import { EARLY, type ValueBook } from './values.ts';

/** Spins and sequences in an order: expected points without deductions. */
export interface OrderedRest {
  readonly order: readonly Measured[];
  readonly value: number;
}

/** An outcome that is another spin than planned (no flight, other position) can meet the code of another spin. */
const wanders = ({ item }: Measured): boolean =>
  item.outcomes.some(({ element }) =>
    item.element.kind === 'spin' && element.kind === 'spin'
      ? spinCharacter(element) !== spinCharacter(item.element)
      : element.kind !== item.element.kind,
  );

/** Orders the spins and sequences of layouts; remembers what it has called. */
export class RestOrders {
  private readonly known = new Map<string, readonly OrderedRest[]>();
  private readonly graph: StateGraph;
  private readonly rules: SegmentRules;
  private readonly day: Day;

  constructor(rules: SegmentRules, book: ValueBook, day: Day) {
    this.rules = rules;
    this.day = day;
    this.graph = new StateGraph(rules, book, day, 'all');
  }

  /** The best order; where no outcome can disturb another the given one. */
  best(chosen: readonly Measured[]): OrderedRest {
    return this.all(chosen)[0] ?? { order: chosen, value: -Infinity };
  }

  /** Every legal order that may differ from another one, the most points first. */
  all(chosen: readonly Measured[]): readonly OrderedRest[] {
    const key = chosen.map(({ item }) => item.id).join(' ');
    const known = this.known.get(key);
    if (known !== undefined) return known;
    const alone = chosen.reduce((sum, m) => sum + m.mean[EARLY], 0);
    const found = chosen.some(wanders) ? this.ordered(chosen) : [{ order: chosen, value: alone }];
    this.known.set(key, found);
    return found;
  }

  /** Orders of the spins; sequences, which no outcome of a spin disturbs, keep their place behind. */
  private ordered(chosen: readonly Measured[]): readonly OrderedRest[] {
    const moving = chosen.filter((m) => m.item.element.kind === 'spin' || wanders(m));
    const still = chosen.filter((m) => !moving.includes(m));
    return [...permutations(moving)]
      .map((order) => [...order, ...still])
      .filter((order) => this.isLegal(order))
      .map((order) => ({ order, value: this.value(order) }))
      .sort((a, b) => b.value - a.value);
  }

  private isLegal(order: readonly Measured[]): boolean {
    let state = startProgram(this.rules.content, this.rules.chosen.values.values, this.rules.chosen.segment);
    return order.every(({ item }) => {
      const called = callNext(state, item.element, { bonus: false });
      state = called.state;
      return called.reasons.length === 0;
    });
  }

  private value(order: readonly Measured[]): number {
    let front = new Map<StateNode, readonly number[]>([[this.graph.start, this.day.weights.map(() => 1)]]);
    let sum = 0;
    for (const { item } of order) {
      const after = new Map<StateNode, number[]>();
      for (const [node, chances] of front) {
        item.outcomes.forEach((outcome, o) => {
          const arc = this.graph.arc(node, item, o, outcome);
          const there = after.get(arc.next) ?? chances.map(() => 0);
          after.set(arc.next, there);
          arc.brings[EARLY].forEach(({ p, gain }, z) => {
            sum += (this.day.weights[z] ?? 0) * (chances[z] ?? 0) * gain;
            there[z] = (there[z] ?? 0) + (chances[z] ?? 0) * p;
          });
        });
      }
      front = after;
    }
    return sum;
  }
}
