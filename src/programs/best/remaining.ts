import type { Future } from './forget.ts';
import type { Measured } from './measured.ts';
import type { Placed } from './places.ts';
import type { StateGraph } from './state-graph.ts';
import { PLACE_INDEX, SLOTS, type PlaceIndex } from './values.ts';

/** What a set of elements still to come leaves open. */
export interface Remainder {
  /** Tells sets of elements with their places apart, in one graph. */
  readonly id: number;
  /** The place that is filled next. */
  readonly place: PlaceIndex;
  /** The members that may come next, by number; of members that are the same the first. */
  readonly next: readonly number[];
  /** What all of them may hold. */
  readonly future: Future;
}

/** Elements with places that are put into an order one after the other; sets of them are bit masks. */
export class Remaining {
  readonly graph: StateGraph;
  readonly members: readonly Placed<Measured>[];
  private readonly known: Remainder[] = [];
  /** Places in skating order, one for each member. */
  private readonly queue: readonly PlaceIndex[];

  constructor(graph: StateGraph, members: readonly Placed<Measured>[]) {
    this.graph = graph;
    this.members = members;
    this.queue = SLOTS.flatMap((place) => members.filter((m) => m.place === place).map(() => PLACE_INDEX[place]));
  }

  /** All of them. */
  get all(): number {
    return (1 << this.members.length) - 1;
  }

  at(mask: number): Remainder {
    return (this.known[mask] ??= this.compute(mask));
  }

  private compute(mask: number): Remainder {
    const { members, queue } = this;
    const left = members.flatMap((m, i) => ((mask & (1 << i)) === 0 ? [] : [{ m, i }]));
    const place = queue[queue.length - left.length] ?? 0;
    const here = left.filter(({ m }) => PLACE_INDEX[m.place] === place);
    const next = here.filter(({ m }, k) => here.findIndex((other) => other.m.what === m.what) === k);
    const key = left.map(({ m }) => `${m.what.item.id}${m.place}`).sort();
    return {
      id: this.graph.setId(key.join(' ')),
      place,
      next: next.map(({ i }) => i),
      future: this.graph.future(left.map(({ m }) => m.what.item)),
    };
  }
}
