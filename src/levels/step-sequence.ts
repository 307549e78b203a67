import type { TurnType } from '../rulebook/index.ts';
import { footOf, partsOf, turnGeometry, type Direction, type Edge } from './turns.ts';

/** One turn or step of a planned sequence. */
export interface Move {
  readonly turn: TurnType;
  /** Entry edge. */
  readonly edge: Edge;
  /** Part of the pattern's length, 0 to 1. */
  readonly share: number;
  /** Body movement on this part. */
  readonly body: boolean;
  /** Full-body rotation on this part. */
  readonly rotation: 'left' | 'right' | null;
  /** A twizzle or choctaw turned the unusual way; null: the usual one. */
  readonly direction: Direction | null;
  /** Chance that the panel credits it, 0 to 1. */
  readonly credit: number;
  /** A step to the other foot or a change of edge written before this move; null: none. */
  readonly change: 'foot' | 'edge' | null;
}

/** Rotational direction of the body in this move. */
export const directionOf = (move: Move): Direction => turnGeometry(move.turn, move.edge, move.direction).direction;

/** The next move begins on the very edge that this one leaves on, with nothing written between. */
export const connects = (move: Move, next: Move): boolean =>
  next.change === null && turnGeometry(move.turn, move.edge).exits.includes(next.edge);

/** What a person should know about one move; `index` counts moves (or parts) from 0. */
export interface Note {
  readonly index: number;
  readonly note: string;
}

/** A note at every place where the edges do not lead into each other and no change is written. */
export function breaksIn(moves: readonly Move[]): Note[] {
  return moves.flatMap((move, index) => {
    const before = moves[index - 1];
    if (before === undefined || move.change !== null || connects(before, move)) return [];
    const { exits } = turnGeometry(before.turn, before.edge);
    const from = exits.length === 1 ? exits[0] : `${before.edge.slice(0, 1)} foot`;
    return [
      {
        index,
        note: `${before.turn} leaves on ${String(from)}, ${move.turn} begins on ${move.edge}: ${bridge(exits, move.edge)}`,
      },
    ];
  });
}

/** What the skater must do between two edges that do not connect. */
function bridge(exits: readonly Edge[], next: Edge): string {
  const sameFoot = exits.some((exit) => footOf(exit) === footOf(next));
  if (!sameFoot) return 'a step to the other foot is needed here.';
  const sameTravel = exits.some((exit) => partsOf(exit).travel === partsOf(next).travel);
  return sameTravel ? 'a change of edge is needed here.' : 'another turn is needed here.';
}
