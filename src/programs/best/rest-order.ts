import { callNext, spinCharacter, startProgram } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import type { Measured } from './measured.ts';
import { permutations } from './permutations.ts';
import { StateGraph, type StateNode } from './state-graph.ts';
import type { ValueBook } from './values.ts';

/** Spins and sequences in their best order: expected points without deductions. */
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
  private readonly graph: StateGraph;
  private readonly rules: SegmentRules;

  constructor(rules: SegmentRules, book: ValueBook) {
    this.rules = rules;
    this.graph = new StateGraph(rules, book, null);
  }

  /** The best order; where no outcome can disturb another the given one. */
  best(chosen: readonly Measured[]): OrderedRest {
    const alone = chosen.reduce((sum, m) => sum + m.mean[0], 0);
    if (!chosen.some(wanders)) return { order: chosen, value: alone };
    let best: OrderedRest = { order: chosen, value: -Infinity };
    for (const order of permutations(chosen)) {
      if (!this.isLegal(order)) continue;
      const value = this.value(order);
      if (value > best.value) best = { order, value };
    }
    return best;
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
    let front = new Map<StateNode, number>([[this.graph.start, 1]]);
    let sum = 0;
    for (const { item } of order) {
      const after = new Map<StateNode, number>();
      for (const [node, chance] of front) {
        for (const outcome of item.outcomes) {
          const arc = this.graph.arc(node, outcome);
          sum += chance * outcome.p * arc.called.mean[0];
          after.set(arc.next, (after.get(arc.next) ?? 0) + chance * outcome.p);
        }
      }
      front = after;
    }
    return sum;
  }
}
