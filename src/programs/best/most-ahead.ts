import type { Day } from './day.ts';
import type { Front, Moves } from './moves.ts';
import type { Remaining } from './remaining.ts';
import type { StateNode } from './state-graph.ts';

/** What is known of a state, by the set still to come: it is the same for all choices of elements. */
export type KnownAhead = Map<StateNode, (readonly number[])[]>;

/**
 * The most expected points that elements still to come can bring from a state, if the next one may be
 * chosen by what happened so far: no order that is fixed beforehand brings more.
 */
export class MostAhead {
  private readonly known: KnownAhead;
  private readonly moves: Moves;
  private readonly day: Day;
  private readonly remaining: Remaining;

  constructor(moves: Moves, day: Day, remaining: Remaining, known: KnownAhead) {
    this.known = known;
    this.moves = moves;
    this.day = day;
    this.remaining = remaining;
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
    let bySet = this.known.get(node);
    if (bySet === undefined) this.known.set(node, (bySet = []));
    return (bySet[this.remaining.at(mask).id] ??= this.compute(node, mask));
  }

  private compute(node: StateNode, mask: number): readonly number[] {
    const zero = this.day.weights.map(() => 0);
    if (mask === 0) return zero;
    const best = zero.map(() => -Infinity);
    const { next, place } = this.remaining.at(mask);
    for (const i of next) {
      const m = this.remaining.members[i];
      if (m === undefined) continue;
      const left = mask & ~(1 << i);
      const { gain, to } = this.moves.move(this.remaining.graph, node, m.what, place, this.remaining.at(left).future);
      const after = to.map(([state, p]) => [this.at(state, left), p] as const);
      for (let z = 0; z < best.length; z++) {
        let sum = gain[z] ?? 0;
        for (const [most, p] of after) sum += (p[z] ?? 0) * (most[z] ?? 0);
        best[z] = Math.max(best[z] ?? -Infinity, sum);
      }
    }
    return best;
  }
}
