import { envelope, tailOver, type Ahead, type Tail } from './grid.ts';
import type { Remaining } from './remaining.ts';
import type { StateNode } from './state-graph.ts';
import type { ByNode, TailParts } from './tail-parts.ts';
import { PLACE_INDEX } from './values.ts';

/**
 * The largest tail that any order of elements has, called as the rules ask: which element comes next may
 * hang on what happened so far and on what is still needed. No order that is fixed beforehand is better,
 * and little is lost, for the elements themselves are fixed.
 */
export class AnyOrder {
  private readonly known = new Map<StateNode, (ByNode<Tail> | undefined)[]>();
  private readonly parts: TailParts;
  /** Tail of everything that is added, at each node. */
  private readonly end: ByNode<Tail>;
  readonly remaining: Remaining;

  constructor(parts: TailParts, remaining: Remaining, end: ByNode<Tail>) {
    this.parts = parts;
    this.remaining = remaining;
    this.end = end;
  }

  /** From the first place. */
  whole(): ByNode<Tail> {
    return this.at(this.remaining.all, this.remaining.graph.start);
  }

  /** With the members of a bit mask still to come. */
  at(mask: number, state: StateNode): ByNode<Tail> {
    if (mask === 0) return this.end;
    let byMask = this.known.get(state);
    if (byMask === undefined) this.known.set(state, (byMask = []));
    return (byMask[mask] ??= this.compute(mask, state));
  }

  private compute(mask: number, state: StateNode): ByNode<Tail> {
    const branches = this.remaining.at(mask).next.map((i) => this.through(mask, state, i));
    return this.parts.byNode((z) => envelope(branches.flatMap((tails) => tails[z] ?? [])));
  }

  private through(mask: number, state: StateNode, i: number): ByNode<Tail> {
    const { graph, members } = this.remaining;
    const m = members[i];
    if (m === undefined) return [];
    const left = mask & ~(1 << i);
    const steps = this.parts.stepsFrom(graph, state, m.what, PLACE_INDEX[m.place], this.remaining.at(left).future);
    const after = steps.map(({ next, cells }) => ({ tails: this.at(left, next), cells }));
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
