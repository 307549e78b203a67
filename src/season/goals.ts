import { normalCdf, normalNodes } from '../forecast/index.ts';

/** A score goal: not in our hands, and marked so; habits and levels are goals of another kind. */
export interface ScoreGoal {
  readonly target: number;
  /** Day by which it is wanted, ISO. */
  readonly by: string | null;
}

/** What is known of her scores to come: mean, how unsure that mean is, spread from day to day (points). */
export interface Outlook {
  readonly mean: number;
  readonly levelSd: number;
  readonly daySd: number;
}

const NODES = 15;

/**
 * Chance of reaching the target at least once in a number of events. Her level is the same unknown for
 * all of them, only the days differ: treating the events as independent would promise too much. For the
 * coach alone.
 */
export function chanceWithin(target: number, events: number, { mean, levelSd, daySd }: Outlook): number {
  if (events <= 0) return 0;
  return normalNodes(NODES).reduce((sum, { z, weight }) => {
    const level = mean + levelSd * z;
    const miss = daySd > 0 ? normalCdf((target - 0.005 - level) / daySd) : level >= target ? 0 : 1;
    return sum + weight * (1 - miss ** events);
  }, 0);
}

/** Scores that the prior belief in a usual spread is worth. */
const SPREAD_STRENGTH = 3;
/** Usual spread of one skater's totals as a share of her mean, where few results are known. */
const USUAL_SHARE = 0.08;

/**
 * Outlook from her earlier totals of one segment, oldest first, recent ones weighing more. null with
 * fewer than three: then no chance is printed.
 */
export function outlookOf(totals: readonly number[], kept = 0.85): Outlook | null {
  if (totals.length < 3) return null;
  const weights = totals.map((_, i) => kept ** (totals.length - 1 - i));
  const n = weights.reduce((sum, w) => sum + w, 0);
  const mean = totals.reduce((sum, t, i) => sum + t * (weights[i] ?? 0), 0) / n;
  const squares = totals.reduce((sum, t, i) => sum + (weights[i] ?? 0) * (t - mean) ** 2, 0);
  const usual = (USUAL_SHARE * mean) ** 2;
  const variance = (squares + SPREAD_STRENGTH * usual) / (n - 1 + SPREAD_STRENGTH);
  return { mean, levelSd: Math.sqrt(variance / n), daySd: Math.sqrt(variance) };
}

/** The state of a goal in the words the family may read: never a chance. */
export type GoalState = 'met' | 'on the way' | 'moved';

/** `met` once a result reached it; past its day without that it is `moved`. */
export function goalState(goal: ScoreGoal, results: readonly { readonly total: number }[], today: string): GoalState {
  if (results.some((r) => r.total >= goal.target)) return 'met';
  return goal.by !== null && goal.by < today ? 'moved' : 'on the way';
}
