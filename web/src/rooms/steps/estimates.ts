import type { Move } from '../../../../src/levels/index.ts';

/** What the coach estimates of the whole pattern, where the line itself says nothing of it. */
export interface Estimates {
  readonly left: boolean;
  readonly right: boolean;
  readonly body: boolean;
}

export const NO_ESTIMATES: Estimates = { left: false, right: false, body: false };

/** Where the line itself says nothing of rotation and body, the coach's estimate stands on equal parts of it. */
export function withEstimates(moves: readonly Move[], estimates: Estimates): Move[] {
  if (moves.some((m) => m.body || m.rotation !== null)) return [...moves];
  const third = Math.ceil(moves.length / 3);
  return moves.map((m, i) => ({
    ...m,
    body: estimates.body && i < third,
    rotation:
      estimates.left && i < third
        ? ('left' as const)
        : estimates.right && i >= moves.length - third
          ? ('right' as const)
          : null,
  }));
}
