import type { Move } from '../../../../src/levels/index.ts';

/** A turn as it is spoken of: LFO rocker. */
export const nameOf = (move: Pick<Move, 'edge' | 'turn'> | undefined): string =>
  move === undefined ? '' : `${move.edge} ${move.turn}`;
