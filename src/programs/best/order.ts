import { callNext, startProgram } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import { couplingOf, type Component } from './contested.ts';
import type { Day } from './day.ts';
import type { Measured } from './measured.ts';
import { placings, type Placing } from './placing.ts';
import type { LatePlaces, Placed } from './places.ts';
import { keptKey, StateGraph, type StateNode } from './state-graph.ts';
import { PLACE_INDEX, type Place, type PlaceIndex, type ValueBook } from './values.ts';

/** The best order of a choice of jump elements: expected points without deductions. */
export interface OrderedJumps {
  readonly order: readonly Placed<Measured>[];
  readonly value: number;
}

/** Places in skating order. */
export const SLOTS: readonly Place[] = ['early', 'late', 'bonus'];

/** Values are compared with this allowance, in hundredths. */
const SLACK = 1e-9;

/** Chance of every state, at each node of the day. */
type Front = ReadonlyMap<StateNode, readonly number[]>;

/** One element further: expected points brought, and the chances of the states after it. */
function step(
  graph: StateGraph,
  day: Day,
  front: Front,
  m: Measured,
  place: PlaceIndex,
): { gain: number; front: Front } {
  const { weights } = day;
  let gain = 0;
  const after = new Map<StateNode, number[]>();
  for (const [node, chances] of front) {
    m.item.outcomes.forEach((outcome, o) => {
      const arc = graph.arc(node, m.item, o, outcome);
      const brings = arc.brings[place];
      let there = after.get(arc.next);
      if (there === undefined) after.set(arc.next, (there = new Array<number>(weights.length).fill(0)));
      for (let z = 0; z < weights.length; z++) {
        const chance = chances[z] ?? 0;
        gain += (weights[z] ?? 0) * chance * (brings[z]?.gain ?? 0);
        there[z] = (there[z] ?? 0) + chance * (brings[z]?.p ?? 0);
      }
    });
  }
  return { gain, front: after };
}

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
  private readonly day: Day;

  constructor(rules: SegmentRules, book: ValueBook, day: Day) {
    this.rules = rules;
    this.book = book;
    this.day = day;
  }

  /**
   * For each placing its best order, the highest value first: all that are worth more than `above` and
   * no more than `within` less than the best. None: no order is legal or worth more.
   */
  best(set: readonly Measured[], places: LatePlaces, above: number, within: number): readonly OrderedJumps[] {
    const { components } = couplingOf(set, this.rules);
    let found: readonly OrderedJumps[] = [];
    let limit = above;
    for (const placing of placings(set, places)) {
      if (placing.sum <= limit + SLACK) break;
      const next = this.bestOf(placing, components, limit);
      if (next === null || next.value <= limit) continue;
      found = [...found, next].sort((a, b) => b.value - a.value);
      limit = Math.max(above, (found[0]?.value ?? above) - within);
    }
    return found.filter(({ value }) => value >= limit);
  }

  /** The graph of the states that matter for these names; null: of whole states. */
  graph(names: ReadonlySet<string> | null): StateGraph {
    const key = keptKey(names);
    const known = this.graphs.get(key);
    if (known !== undefined) return known;
    const fresh = new StateGraph(this.rules, this.book, this.day, names);
    this.graphs.set(key, fresh);
    return fresh;
  }

  /** Slots of a short program can make an order illegal that another order of the same elements is not. */
  isLegal(order: readonly Placed<Measured>[]): boolean {
    const { content, chosen } = this.rules;
    if (content.slots === null) return true;
    let state = startProgram(content, chosen.values.values, chosen.segment);
    return order.every(({ what }) => {
      const called = callNext(state, what.item.element, { bonus: false });
      state = called.state;
      return called.reasons.length === 0;
    });
  }

  /** Each component in its best order; they do not see each other. */
  private bestOf(placing: Placing, components: readonly Component<Measured>[], above: number): OrderedJumps | null {
    const orders: (readonly Placed<Measured>[])[] = [];
    let value = placing.sum;
    const taken = new Set<Placed<Measured>>();
    for (const component of components) {
      const members = placedIn(placing, component);
      const sum = meanOf(members);
      // The others are worth no more than alone.
      const best = this.bestPart(members, component.names, above - value + sum);
      if (best === null) return null;
      for (const m of members) taken.add(m);
      orders.push(best.order);
      value += best.value - sum;
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
    if (members.length > REMEMBERED) return this.searchPart(members, names, above);
    const key = `${keptKey(names)} ${members.map(placedKey).join(' ')}`;
    const known = this.parts.get(key);
    if (known !== undefined) return known;
    const found = this.searchPart(members, names, -Infinity);
    this.parts.set(key, found);
    return found;
  }

  private searchPart(
    given: readonly Placed<Measured>[],
    names: ReadonlySet<string> | null,
    above: number,
  ): OrderedJumps | null {
    const graph = this.graph(names);
    // Axel types are tried last: their place at the end is the safe one where the Axel may be lost.
    const members = [...given].sort((a, b) => Number(mayBeAxel(a.what)) - Number(mayBeAxel(b.what)));
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
        const index = PLACE_INDEX[place];
        const { gain, front: after } = step(graph, this.day, front, m.what, index);
        const still = left - m.what.mean[index] + gain;
        order.push(m);
        if (still - this.axelLoss(after, members, order) > limit) visit(after, still);
        order.pop();
      }
    };
    visit(new Map([[graph.start, this.day.weights.map(() => 1)]]), meanOf(members));
    return best;
  }

  /** What is lost at least where the last place is refused for want of an Axel that can no longer come. */
  private axelLoss(front: Front, members: readonly Placed<Measured>[], done: readonly Placed<Measured>[]): number {
    const { axelRequired, jumpElements, slots } = this.rules.content;
    if (axelRequired !== true || slots !== null || jumpElements.max === null || members.length < jumpElements.max)
      return 0;
    const left = members.filter((m) => !done.includes(m));
    if (left.length === 0 || left.some((m) => mayBeAxel(m.what))) return 0;
    const lost = this.day.weights.map((_, z) => {
      const means = left.map((m) => m.what.meanByNode[PLACE_INDEX[m.place]][z] ?? 0);
      let lacking = 0;
      for (const [node, chances] of front) if (!node.state.axelDone) lacking += chances[z] ?? 0;
      return lacking * Math.max(0, Math.min(...means));
    });
    return this.day.mix(lost);
  }
}

/** Groups larger than this are searched anew under the limit of the moment. */
const REMEMBERED = 5;

const meanOf = (members: readonly Placed<Measured>[]): number =>
  members.reduce((sum, m) => sum + m.what.mean[PLACE_INDEX[m.place]], 0);

const placedIn = (placing: Placing, component: Component<Measured>): readonly Placed<Measured>[] =>
  placing.members.filter((m) => component.members.includes(m.what));
