import { callNext, startProgram } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import { couplingOf, type Component } from './contested.ts';
import type { Measured } from './measured.ts';
import { permutations } from './permutations.ts';
import { placings, type Placing } from './placing.ts';
import type { LatePlaces, Placed } from './places.ts';
import { StateGraph, type StateNode } from './state-graph.ts';
import { BONUS, EARLY, LATE, type Place, type ValueBook } from './values.ts';

/** The best order of a choice of jump elements: expected points without deductions. */
export interface OrderedJumps {
  readonly order: readonly Placed<Measured>[];
  readonly value: number;
}

const SLOTS: readonly Place[] = ['early', 'late', 'bonus'];
const INDEX = { early: EARLY, bonus: BONUS, late: LATE } as const;

/** Values are compared with this allowance, in hundredths. */
const SLACK = 1e-9;

type Front = ReadonlyMap<StateNode, number>;

/** One element further: expected points brought, and the chances of the states after it. */
function step(graph: StateGraph, front: Front, m: Measured, place: 0 | 1 | 2): { gain: number; front: Front } {
  let gain = 0;
  const after = new Map<StateNode, number>();
  for (const [node, chance] of front) {
    for (const outcome of m.item.outcomes) {
      const arc = graph.arc(node, outcome);
      const p = chance * outcome.p;
      gain += p * arc.called.mean[place];
      after.set(arc.next, (after.get(arc.next) ?? 0) + p);
    }
  }
  return { gain, front: after };
}

/** All orders of placed elements that keep the parts of the program apart. */
function* ordersWithin(members: readonly Placed<Measured>[]): Generator<readonly Placed<Measured>[]> {
  const part = (place: Place) => members.filter((m) => m.place === place);
  for (const early of permutations(part('early'))) {
    for (const late of permutations(part('late'))) {
      for (const bonus of permutations(part('bonus'))) yield [...early, ...late, ...bonus];
    }
  }
}

/** Every way to take one of each list. */
function* products<T>(lists: readonly (readonly T[])[]): Generator<readonly T[]> {
  const [first, ...rest] = lists;
  if (first === undefined) {
    yield [];
    return;
  }
  for (const one of first) for (const others of products(rest)) yield [one, ...others];
}

/** Puts lists of placed elements together, each part of the program in the order of the lists. */
const inParts = (lists: readonly (readonly Placed<Measured>[])[]): readonly Placed<Measured>[] =>
  SLOTS.flatMap((place) => lists.flat().filter((m) => m.place === place));

/** Searches orders of jump elements; remembers what it has worked out for any part of a program. */
export class OrderSearch {
  private readonly graphs = new Map<string, StateGraph>();
  private readonly parts = new Map<string, OrderedJumps | null>();
  private readonly rules: SegmentRules;
  private readonly book: ValueBook;

  constructor(rules: SegmentRules, book: ValueBook) {
    this.rules = rules;
    this.book = book;
  }

  /** The best order, or null where no order is worth more than `above` (or none is legal). */
  best(set: readonly Measured[], places: LatePlaces, above = -Infinity): OrderedJumps | null {
    const { components } = couplingOf(set, this.rules);
    let best: OrderedJumps | null = null;
    let limit = above;
    for (const placing of placings(set, places)) {
      if (placing.sum <= limit + SLACK) break;
      const found = this.bestOf(placing, components);
      if (found !== null && found.value > limit) {
        best = found;
        limit = found.value;
      }
    }
    return best;
  }

  /** Every way to place a choice, the highest sum first. */
  placings(set: readonly Measured[], places: LatePlaces): readonly Placing[] {
    return placings(set, places);
  }

  /** Every legal order of a placing that can make a difference, the one with the best expected score first. */
  *ordersOf(placing: Placing): Generator<readonly Placed<Measured>[]> {
    const { components } = couplingOf(
      placing.members.map((m) => m.what),
      this.rules,
    );
    const first = this.bestOf(placing, components);
    if (first === null) return;
    yield first.order;
    const placed = components.map((c) => placedIn(placing, c));
    const free = placing.members.filter((m) => !placed.flat().includes(m));
    for (const chosen of products(placed.map((members) => [...ordersWithin(members)]))) {
      const order = inParts([free, ...chosen]);
      if (this.isLegal(order)) yield order;
    }
  }

  /** Each component in its best order; they do not see each other. */
  private bestOf(placing: Placing, components: readonly Component<Measured>[]): OrderedJumps | null {
    const orders: (readonly Placed<Measured>[])[] = [];
    let value = placing.sum;
    const taken = new Set<Placed<Measured>>();
    for (const component of components) {
      const members = placedIn(placing, component);
      const best = this.bestPart(members, component.names);
      if (best === null) return null;
      for (const m of members) taken.add(m);
      orders.push(best.order);
      value += best.value - members.reduce((sum, m) => sum + m.what.mean[INDEX[m.place]], 0);
    }
    const free = placing.members.filter((m) => !taken.has(m));
    return { order: inParts([free, ...orders]), value };
  }

  /** Best order of the members of one component in their places. */
  private bestPart(members: readonly Placed<Measured>[], names: ReadonlySet<string> | null): OrderedJumps | null {
    const kept = names === null ? 'all' : [...names].sort().join(' ');
    const key = `${kept} ${members.map((m) => `${m.place} ${m.what.item.id}`).join(' ')}`;
    const known = this.parts.get(key);
    if (known !== undefined) return known;
    const found = this.searchPart(members, this.graph(kept, names));
    this.parts.set(key, found);
    return found;
  }

  private searchPart(members: readonly Placed<Measured>[], graph: StateGraph): OrderedJumps | null {
    const sum = members.reduce((total, m) => total + m.what.mean[INDEX[m.place]], 0);
    const queue = SLOTS.flatMap((place) => members.filter((m) => m.place === place).map(() => place));
    const order: Placed<Measured>[] = [];
    let best: OrderedJumps | null = null;
    let limit = -Infinity;
    const visit = (front: Front, left: number): void => {
      const place = queue[order.length];
      if (place === undefined) {
        if (left > limit && this.isLegal(order)) {
          best = { order: [...order], value: left };
          limit = left;
        }
        return;
      }
      for (const m of members) {
        if (m.place !== place || order.includes(m)) continue;
        const index = INDEX[place];
        const { gain, front: after } = step(graph, front, m.what, index);
        const still = left - m.what.mean[index] + gain;
        if (still <= limit) continue;
        order.push(m);
        visit(after, still);
        order.pop();
      }
    };
    visit(new Map([[graph.start, 1]]), sum);
    return best;
  }

  private graph(key: string, kept: ReadonlySet<string> | null): StateGraph {
    const known = this.graphs.get(key);
    if (known !== undefined) return known;
    const fresh = new StateGraph(this.rules, this.book, kept);
    this.graphs.set(key, fresh);
    return fresh;
  }

  /** Slots of a short program can make an order illegal that another order of the same elements is not. */
  private isLegal(order: readonly Placed<Measured>[]): boolean {
    const { content, chosen } = this.rules;
    if (content.slots === null) return true;
    let state = startProgram(content, chosen.values.values, chosen.segment);
    return order.every(({ what }) => {
      const called = callNext(state, what.item.element, { bonus: false });
      state = called.state;
      return called.reasons.length === 0;
    });
  }
}

const placedIn = (placing: Placing, component: Component<Measured>): readonly Placed<Measured>[] =>
  placing.members.filter((m) => component.members.includes(m.what));
