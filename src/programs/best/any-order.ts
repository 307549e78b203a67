import { envelope, tailOver, type Ahead, type Tail } from './grid.ts';
import type { Measured } from './measured.ts';
import type { StateGraph, StateNode } from './state-graph.ts';
import type { ByNode, TailParts } from './tail-parts.ts';
import type { PlaceIndex } from './values.ts';

/** Elements to be put into an order, and what follows them. */
export interface Unordered {
  readonly graph: StateGraph;
  readonly members: readonly Measured[];
  /** Places in skating order, one for each member. */
  readonly queue: readonly PlaceIndex[];
  /** The place of each member. */
  readonly own: readonly PlaceIndex[];
  /** Tail of everything that is added, at each node. */
  readonly end: ByNode<Tail>;
}

/**
 * The largest tail that any order of elements has, called as the rules ask: which element comes next may
 * hang on what happened so far and on what is still needed. No order that is fixed beforehand is better,
 * and little is lost, for the elements themselves are fixed.
 */
export class AnyOrder {
  private readonly known = new Map<StateNode, (ByNode<Tail> | undefined)[]>();
  private readonly parts: TailParts;
  readonly asked: Unordered;

  constructor(parts: TailParts, asked: Unordered) {
    this.parts = parts;
    this.asked = asked;
  }

  /** From the first place. */
  whole(): ByNode<Tail> {
    return this.at((1 << this.asked.members.length) - 1, this.asked.graph.start);
  }

  /** With the members of a bit mask still to come. */
  at(mask: number, state: StateNode): ByNode<Tail> {
    if (mask === 0) return this.asked.end;
    const byMask = this.known.get(state) ?? [];
    this.known.set(state, byMask);
    const found = byMask[mask] ?? this.compute(mask, state);
    byMask[mask] = found;
    return found;
  }

  /** The members that may come next, by number. */
  next(mask: number): readonly number[] {
    const { members, own } = this.asked;
    const place = this.place(mask);
    return members.flatMap((m, i) => {
      if ((mask & (1 << i)) === 0 || own[i] !== place) return [];
      const twin = members.findIndex((other, j) => other === m && (mask & (1 << j)) !== 0 && own[j] === own[i]);
      return twin === i ? [i] : [];
    });
  }

  /** The place that is filled next. */
  place(mask: number): PlaceIndex {
    const { queue } = this.asked;
    let left = 0;
    for (let rest = mask; rest !== 0; rest &= rest - 1) left++;
    return queue[queue.length - left] ?? 0;
  }

  private compute(mask: number, state: StateNode): ByNode<Tail> {
    const place = this.place(mask);
    const branches = this.next(mask).map((i) => this.through(mask, state, i, place));
    return this.parts.byNode((z) => envelope(branches.flatMap((tails) => tails[z] ?? [])));
  }

  private through(mask: number, state: StateNode, i: number, place: PlaceIndex): ByNode<Tail> {
    const { graph, members } = this.asked;
    const m = members[i];
    if (m === undefined) return [];
    const steps = this.parts.stepsFrom(graph, state, m, place);
    const after = steps.map(({ next, cells }) => ({ tails: this.at(mask & ~(1 << i), next), cells }));
    return this.parts.byNode((z) =>
      tailOver(
        after.flatMap(({ tails, cells }): Ahead[] => {
          const [tail, here] = [tails[z], cells[z]];
          return tail === undefined || here === undefined || here.length === 0 ? [] : [[tail, here]];
        }),
      ),
    );
  }
}
