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

/** A placing taken apart for the distributions of its orders. */
export interface OrderParts {
  readonly free: readonly Placed<Measured>[];
  readonly groups: readonly {
    readonly graph: StateGraph;
    readonly key: string;
    readonly orders: readonly (readonly Placed<Measured>[])[];
  }[];
}

const keptKey = (names: ReadonlySet<string> | null): string => (names === null ? 'all' : [...names].sort().join(' '));

/** An element with its place, as a key. */
export const placedKey = (m: Placed<Measured>): string => `${m.place} ${m.what.item.id}`;

const mayBeAxel = ({ item }: Measured): boolean =>
  item.outcomes.some(
    ({ element }) => element.kind === 'jump' && element.jumps.some((j) => j.name === 'A' && j.turns >= 1),
  );

/** Puts lists of placed elements together, each part of the program in the order of the lists. */
export const inParts = (lists: readonly (readonly Placed<Measured>[])[]): readonly Placed<Measured>[] =>
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
      const found = this.bestOf(placing, components, limit);
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

  /** The groups of a placing that rules couple, each with every legal order of its members, and the free ones. */
  partsOf(placing: Placing): OrderParts {
    const { components } = couplingOf(
      placing.members.map((m) => m.what),
      this.rules,
    );
    const groups = components.map(({ names, members }) => {
      const placed = placing.members.filter((m) => members.includes(m.what));
      const orders = [...ordersWithin(placed)].filter((order) => this.isLegal(order));
      return { graph: this.graph(keptKey(names), names), key: keptKey(names), orders };
    });
    const inside = new Set(groups.flatMap((group) => group.orders[0] ?? []));
    return { free: placing.members.filter((m) => !inside.has(m)), groups };
  }

  /** Each component in its best order; they do not see each other. */
  private bestOf(placing: Placing, components: readonly Component<Measured>[], above = -Infinity): OrderedJumps | null {
    const orders: (readonly Placed<Measured>[])[] = [];
    let value = placing.sum;
    const taken = new Set<Placed<Measured>>();
    for (const component of components) {
      const members = placedIn(placing, component);
      const best = this.bestPart(members, component.names, above);
      if (best === null) return null;
      for (const m of members) taken.add(m);
      orders.push(best.order);
      value += best.value - members.reduce((sum, m) => sum + m.what.mean[INDEX[m.place]], 0);
    }
    const free = placing.members.filter((m) => !taken.has(m));
    return { order: inParts([free, ...orders]), value };
  }

  /** Best order of the members of one component in their places; of a whole program only if worth more than `above`. */
  private bestPart(
    members: readonly Placed<Measured>[],
    names: ReadonlySet<string> | null,
    above: number,
  ): OrderedJumps | null {
    const kept = keptKey(names);
    if (names === null) return this.searchPart(members, this.graph(kept, null), above);
    const key = `${kept} ${members.map(placedKey).join(' ')}`;
    const known = this.parts.get(key);
    if (known !== undefined) return known;
    const found = this.searchPart(members, this.graph(kept, names), -Infinity);
    this.parts.set(key, found);
    return found;
  }

  private searchPart(given: readonly Placed<Measured>[], graph: StateGraph, above: number): OrderedJumps | null {
    // Axel types are tried last: their place at the end is the safe one where the Axel may be lost.
    const members = [...given].sort((a, b) => Number(mayBeAxel(a.what)) - Number(mayBeAxel(b.what)));
    const sum = members.reduce((total, m) => total + m.what.mean[INDEX[m.place]], 0);
    const queue = SLOTS.flatMap((place) => members.filter((m) => m.place === place).map(() => place));
    const order: Placed<Measured>[] = [];
    let best: OrderedJumps | null = null;
    let limit = above;
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
        order.push(m);
        if (still - this.axelLoss(after, members, order) > limit) visit(after, still);
        order.pop();
      }
    };
    visit(new Map([[graph.start, 1]]), sum);
    return best;
  }

  /** What is lost at least where the last place is refused for want of an Axel that can no longer come. */
  private axelLoss(front: Front, members: readonly Placed<Measured>[], done: readonly Placed<Measured>[]): number {
    const { axelRequired, jumpElements, slots } = this.rules.content;
    if (axelRequired !== true || slots !== null || jumpElements.max === null || members.length < jumpElements.max)
      return 0;
    const left = members.filter((m) => !done.includes(m));
    if (left.length === 0 || left.some((m) => mayBeAxel(m.what))) return 0;
    let lacking = 0;
    for (const [node, chance] of front) if (!node.state.axelDone) lacking += chance;
    return lacking * Math.min(...left.map((m) => m.what.mean[INDEX[m.place]]));
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
