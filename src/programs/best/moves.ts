import type { Day } from './day.ts';
import type { Future } from './forget.ts';
import type { Measured } from './measured.ts';
import type { StateGraph, StateNode } from './state-graph.ts';
import { PLACES, type PlaceIndex } from './values.ts';

/** Chance of every state, at each node of the day. */
export type Front = ReadonlyMap<StateNode, readonly number[]>;

/** What an element does in one state: expected points, and the chances of the states after it, by node. */
interface Move {
  readonly gain: readonly number[];
  readonly to: readonly (readonly [StateNode, readonly number[]])[];
}

/** Remembers what every element does in every state. */
export class Moves {
  private readonly known = new Map<StateNode, Move[][]>();
  private readonly day: Day;

  constructor(day: Day) {
    this.day = day;
  }

  /** One element further, `future` still to come: expected points brought, and the chances of the states after it. */
  step(
    graph: StateGraph,
    front: Front,
    m: Measured,
    place: PlaceIndex,
    future: Future,
  ): { gain: number; front: Front } {
    const { weights } = this.day;
    let gain = 0;
    const after = new Map<StateNode, number[]>();
    for (const [node, chances] of front) {
      const move = this.move(graph, node, m, place, future);
      for (let z = 0; z < weights.length; z++) gain += (weights[z] ?? 0) * (chances[z] ?? 0) * (move.gain[z] ?? 0);
      for (const [next, p] of move.to) {
        const there = after.get(next);
        if (there === undefined)
          after.set(
            next,
            chances.map((chance, z) => chance * (p[z] ?? 0)),
          );
        else for (let z = 0; z < there.length; z++) there[z] = (there[z] ?? 0) + (chances[z] ?? 0) * (p[z] ?? 0);
      }
    }
    return { gain, front: after };
  }

  /** What an element does in a state. */
  move(graph: StateGraph, node: StateNode, m: Measured, place: PlaceIndex, future: Future): Move {
    let byItem = this.known.get(node);
    if (byItem === undefined) this.known.set(node, (byItem = []));
    const key = m.item.id * PLACES.length + place;
    const byFuture = (byItem[key] ??= []);
    return (byFuture[future.id] ??= this.make(graph, node, m, place, future));
  }

  private make(graph: StateGraph, node: StateNode, m: Measured, place: PlaceIndex, future: Future): Move {
    const gain = this.day.weights.map(() => 0);
    const to = new Map<StateNode, number[]>();
    m.item.outcomes.forEach((outcome, o) => {
      const arc = graph.arc(node, m.item, o, outcome);
      const next = graph.forget(arc.next, future);
      const there = to.get(next) ?? gain.map(() => 0);
      to.set(next, there);
      arc.brings[place].forEach((brings, z) => {
        gain[z] = (gain[z] ?? 0) + brings.gain;
        there[z] = (there[z] ?? 0) + brings.p;
      });
    });
    return { gain, to: [...to] };
  }
}
