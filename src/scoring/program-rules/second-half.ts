import type { ContentRules } from '../../rulebook/index.ts';

/** Where an element stands in its program, as far as a plan says. */
export interface Placement {
  readonly isJump: boolean;
  /** Said outright. */
  readonly half: boolean | null;
  /** Seconds into the music. */
  readonly start: number | null;
}

/**
 * Does each element start in the second half? By `half`, else by `start` against half of the required
 * time (tolerance left aside), else element i of n starts at i/n of it. null: start given, time unknown.
 */
export function inSecondHalf(placements: readonly Placement[], content: ContentRules): readonly (boolean | null)[] {
  const { seconds } = content.duration;
  return placements.map(({ half, start }, i) => {
    if (half !== null) return half;
    if (start !== null) return seconds === null ? null : 2 * start >= seconds;
    return 2 * i >= placements.length;
  });
}

/**
 * Which elements earn the second-half factor: the last `bonusLast` jump elements among those that start
 * in the second half, every one of them, or none. Unknown rules and unknown places earn nothing.
 */
export function bonusPlaces(placements: readonly Placement[], content: ContentRules): readonly boolean[] {
  const late = inSecondHalf(placements, content);
  let left = content.bonusLast === 'all' ? placements.length : (content.bonusLast ?? 0);
  const earns = placements.map(() => false);
  for (let i = placements.length - 1; i >= 0 && left > 0; i--) {
    if (placements[i]?.isJump !== true || late[i] !== true) continue;
    earns[i] = true;
    left--;
  }
  return earns;
}
