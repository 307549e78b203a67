import { callNext, startProgram } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import { AXEL } from './axel.ts';
import { couplingOf, type Component } from './contested.ts';
import type { Day } from './day.ts';
import type { Measured } from './measured.ts';
import { MostAhead, type KnownAhead } from './most-ahead.ts';
import { Moves, type Front } from './moves.ts';
import { placings, type Placing } from './placing.ts';
import type { LatePlaces, Placed } from './places.ts';
import { Remaining } from './remaining.ts';
import { memoryFor, StateGraph, type Memory } from './state-graph.ts';
import { PLACE_INDEX, SLOTS, type ValueBook } from './values.ts';

/** The best order of a choice of jump elements: expected points without deductions. */
export interface OrderedJumps {
  readonly order: readonly Placed<Measured>[];
  readonly value: number;
}

/** Values are compared with this allowance, in hundredths. */
const SLACK = 1e-9;

/** An element with its place, as a key. */
export const placedKey = (m: Placed<Measured>): string => `${m.place} ${m.what.item.id}`;

/** Puts lists of placed elements together, each part of the program in the order of the lists. */
export const inParts = (lists: readonly (readonly Placed<Measured>[])[]): readonly Placed<Measured>[] =>
  SLOTS.flatMap((place) => lists.flat().filter((m) => m.place === place));

/** Searches orders of jump elements; remembers what it has worked out for any part of a program. */
export class OrderSearch {
  private readonly graphs = new Map<Memory, StateGraph>();
  private readonly parts = new Map<string, OrderedJumps | null>();
  private readonly lost = new Map<string, number>();
  private readonly rules: SegmentRules;
  private readonly book: ValueBook;
  private readonly day: Day;
  private readonly moves: Moves;
  private readonly mostAhead: KnownAhead = new Map();
  private readonly latePenalty: number;

  constructor(rules: SegmentRules, book: ValueBook, day: Day, latePenalty: number) {
    this.latePenalty = latePenalty;
    this.rules = rules;
    this.book = book;
    this.day = day;
    this.moves = new Moves(day);
  }

  /**
   * For each placing its best order, the highest value first: all that are worth more than `above` and
   * no more than `within` less than the best. None: no order is legal or worth more.
   */
  best(set: readonly Measured[], places: LatePlaces, above: number, within: number): readonly OrderedJumps[] {
    const { components } = couplingOf(set, this.rules);
    let found: readonly OrderedJumps[] = [];
    let limit = above;
    const sure = this.surelyLost(set, components);
    for (const placing of placings(set, places)) {
      if (placing.sum <= limit + SLACK) break;
      if (sure.some((lost) => placing.sum - lost() <= limit + SLACK)) break;
      const next = this.bestOf(placing, components, limit);
      if (next === null || next.value <= limit) continue;
      found = [...found, next].sort((a, b) => b.value - a.value);
      limit = Math.max(above, (found[0]?.value ?? above) - within);
    }
    return found.filter(({ value }) => value >= limit);
  }

  /** The graph of states in which elements are called that are coupled by these names; null: by everything. */
  graph(names: ReadonlySet<string> | null): StateGraph {
    const memory = memoryFor(names);
    const known = this.graphs.get(memory);
    if (known !== undefined) return known;
    const fresh = new StateGraph(this.rules, this.book, this.day, memory);
    this.graphs.set(memory, fresh);
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

  /**
   * What the rules take from a choice at least, wherever its elements stand and in whatever order: what they take
   * with every element early, for the factor of a bonus place only ever grows with the base value as called.
   * First without the rule about the Axel, which is quickly worked out, then with it.
   */
  private surelyLost(set: readonly Measured[], components: readonly Component<Measured>[]): readonly (() => number)[] {
    if (this.latePenalty !== 0) return [];
    const lost = (list: readonly Component<Measured>[]) => (): number =>
      list.reduce((sum, component) => sum + this.lostEarly(component), 0);
    const axel = components.some(({ names }) => names?.has(AXEL) === true);
    return [...(axel ? [lost(couplingOf(set, this.rules, false).components)] : []), lost(components)];
  }

  private lostEarly({ members, names }: Component<Measured>): number {
    const key = `${memoryFor(names)} ${members.map(({ item }) => item.id).join(' ')}`;
    const known = this.lost.get(key);
    if (known !== undefined) return known;
    const early = members.map((what): Placed<Measured> => ({ what, place: 'early' }));
    const remaining = new Remaining(this.graph(names), early);
    const most = this.aheadOf(remaining).of(this.startOf(remaining.graph), remaining.all);
    const lost = meanOf(early) - most;
    this.lost.set(key, lost);
    return lost;
  }

  private aheadOf(remaining: Remaining): MostAhead {
    return new MostAhead(this.moves, this.day, remaining, this.mostAhead);
  }

  private startOf(graph: StateGraph): Front {
    return new Map([[graph.start, this.day.weights.map(() => 1)]]);
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
    const key = `${memoryFor(names)} ${members.map(placedKey).join(' ')}`;
    const known = this.parts.get(key);
    if (known !== undefined) return known;
    const found = this.searchPart(members, names, -Infinity);
    this.parts.set(key, found);
    return found;
  }

  private searchPart(
    members: readonly Placed<Measured>[],
    names: ReadonlySet<string> | null,
    above: number,
  ): OrderedJumps | null {
    const graph = this.graph(names);
    const remaining = new Remaining(graph, members);
    const ahead = this.aheadOf(remaining);
    const order: Placed<Measured>[] = [];
    let best: OrderedJumps | null = null;
    let limit = above;
    const visit = (front: Front, done: number, mask: number): void => {
      if (mask === 0) {
        if (done > limit && this.isLegal(order)) {
          best = { order: [...order], value: done };
          limit = done;
        }
        return;
      }
      const { next, place } = remaining.at(mask);
      const children = next.flatMap((i) => {
        const m = members[i];
        if (m === undefined) return [];
        const left = mask & ~(1 << i);
        const { future } = remaining.at(left);
        const { gain, front: after } = this.moves.step(graph, front, m.what, place, future);
        return [{ m, left, after, done: done + gain, bound: done + gain + ahead.of(after, left) }];
      });
      for (const child of children.sort((a, b) => b.bound - a.bound)) {
        if (child.bound <= limit) break;
        order.push(child.m);
        visit(child.after, child.done, child.left);
        order.pop();
      }
    };
    const start = this.startOf(graph);
    if (ahead.of(start, remaining.all) > limit) visit(start, 0, remaining.all);
    return best;
  }
}

/** Groups larger than this are searched anew under the limit of the moment. */
const REMEMBERED = 5;

const meanOf = (members: readonly Placed<Measured>[]): number =>
  members.reduce((sum, m) => sum + m.what.mean[PLACE_INDEX[m.place]], 0);

const placedIn = (placing: Placing, component: Component<Measured>): readonly Placed<Measured>[] =>
  placing.members.filter((m) => component.members.includes(m.what));
