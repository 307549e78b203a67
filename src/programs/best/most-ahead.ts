import type { Day } from './day.ts';
import type { Measured } from './measured.ts';
import type { Front, Moves } from './moves.ts';
import type { Placed } from './places.ts';
import type { StateGraph, StateNode } from './state-graph.ts';
import { PLACE_INDEX, type Place } from './values.ts';

/**
 * The most expected points that elements still to come can bring from a state, if the next one may be
 * chosen by what happened so far: no order that is fixed beforehand brings more.
 */
export class MostAhead {
  private readonly known = new Map<StateNode, (readonly number[] | undefined)[]>();
  private readonly graph: StateGraph;
  private readonly moves: Moves;
  private readonly day: Day;
  private readonly members: readonly Placed<Measured>[];
  /** Places in skating order. */
  private readonly queue: readonly Place[];

  constructor(
    graph: StateGraph,
    moves: Moves,
    day: Day,
    members: readonly Placed<Measured>[],
    queue: readonly Place[],
  ) {
    this.graph = graph;
    this.moves = moves;
    this.day = day;
    this.members = members;
    this.queue = queue;
  }

  /** The members, by number, that may come next when those of a bit mask are still to come. */
  next(mask: number): readonly number[] {
    let left = 0;
    for (let rest = mask; rest !== 0; rest &= rest - 1) left++;
    const place = this.queue[this.queue.length - left];
    return this.members.flatMap((m, i) => ((mask & (1 << i)) !== 0 && m.place === place ? [i] : []));
  }

  /** Averaged over the states reached and over the day. */
  of(front: Front, mask: number): number {
    if (mask === 0) return 0;
    const { weights } = this.day;
    let sum = 0;
    for (const [node, chances] of front) {
      const most = this.at(node, mask);
      for (let z = 0; z < weights.length; z++) sum += (weights[z] ?? 0) * (chances[z] ?? 0) * (most[z] ?? 0);
    }
    return sum;
  }

  private at(node: StateNode, mask: number): readonly number[] {
    let byMask = this.known.get(node);
    if (byMask === undefined) this.known.set(node, (byMask = []));
    return (byMask[mask] ??= this.compute(node, mask));
  }

  private compute(node: StateNode, mask: number): readonly number[] {
    const zero = this.day.weights.map(() => 0);
    if (mask === 0) return zero;
    const best = zero.map(() => -Infinity);
    for (const i of this.next(mask)) {
      const m = this.members[i];
      if (m === undefined) continue;
      const { gain, to } = this.moves.move(this.graph, node, m.what, PLACE_INDEX[m.place]);
      const after = to.map(([state, p]) => [this.at(state, mask & ~(1 << i)), p] as const);
      for (let z = 0; z < best.length; z++) {
        let sum = gain[z] ?? 0;
        for (const [most, p] of after) sum += (p[z] ?? 0) * (most[z] ?? 0);
        best[z] = Math.max(best[z] ?? -Infinity, sum);
      }
    }
    return best;
  }
}
