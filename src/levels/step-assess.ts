import type { Level } from '../notation/index.ts';
import type { StepRules } from '../rulebook/index.ts';
import { clustersMet, findClusters, type Clusters } from './step-clusters.ts';
import { countTurns, groupByType, turnLevelOf, type TurnCount, type TypeMoves } from './step-grid.ts';
import type { Move } from './step-sequence.ts';
import { levelFrom, levelNumber } from './feedback-steps.ts';

/** A level, or `none`: below what Basic asks for. */
export type CalledLevel = Level | 'none';

/** -1 for none, 0 for Basic, then 1 to 4. */
export const rankOf = (level: CalledLevel): number => (level === 'none' ? -1 : levelNumber(level));

/** Shares are sums of doubles; a third is met at a third less this. */
export const SHARE_TOLERANCE = 1e-9;

/** What a planned sequence fixes, whatever the panel credits. */
export interface StepPlan {
  readonly moves: readonly Move[];
  readonly rules: StepRules;
  readonly groups: readonly TypeMoves[];
  readonly clusters: Clusters;
  readonly rotation: boolean;
  readonly body: boolean;
  readonly shares: { readonly left: number; readonly right: number; readonly body: number };
}

/** Reads off everything that does not depend on credit. */
export function planOf(moves: readonly Move[], rules: StepRules): StepPlan {
  const shares = {
    left: shareOf(moves, (move) => move.rotation === 'left'),
    right: shareOf(moves, (move) => move.rotation === 'right'),
    body: shareOf(moves, (move) => move.body),
  };
  const needed = rules.share.of / rules.share.parts - SHARE_TOLERANCE;
  return {
    moves,
    rules,
    groups: groupByType(moves, rules),
    clusters: findClusters(moves, rules),
    rotation: shares.left >= needed && shares.right >= needed,
    body: shares.body >= needed,
    shares,
  };
}

const shareOf = (moves: readonly Move[], has: (move: Move) => boolean): number =>
  moves.reduce((sum, move) => (has(move) ? sum + move.share : sum), 0);

/** Features met besides the turns, without and with the clusters. */
export const featuresOf = (plan: StepPlan, withClusters: boolean): number =>
  Number(plan.rotation) + Number(plan.body) + Number(withClusters);

/** The level of a count with `features` further features met (0 to 3). */
export function levelOfCount(count: TurnCount, features: number, rules: StepRules): CalledLevel {
  if (rules.minimumForBasic !== null && count.sum < rules.minimumForBasic) return 'none';
  return levelFrom(turnLevelOf(count, rules), features, rules.cap);
}

/** The level when exactly the moves that `isCredited` accepts are credited. */
export function levelWhen(plan: StepPlan, isCredited: (index: number) => boolean): CalledLevel {
  const count = countTurns(plan.groups, plan.rules, isCredited);
  return levelOfCount(count, featuresOf(plan, clustersMet(plan.clusters, isCredited)), plan.rules);
}
