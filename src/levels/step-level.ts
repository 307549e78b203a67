import type { StepRules } from '../rulebook/index.ts';
import { clustersMet, type Cluster } from './step-clusters.ts';
import { levelChances, type StepChances } from './step-chances.ts';
import { featuresOf, levelOfCount, planOf, rankOf, type CalledLevel, type StepPlan } from './step-assess.ts';
import { countTurns, turnLevelOf, type TypeMoves } from './step-grid.ts';
import { breaksIn, type Move, type Note } from './step-sequence.ts';
import { criticalMoves, spareOf } from './step-spare.ts';
import type { TurnLevel } from './feedback-steps.ts';

/** Why a move or a part does not count. */
export interface Uncounted {
  readonly index: number;
  readonly reason: string;
}

/** What holds a step sequence at its level. */
export type StepLimit = 'turns' | 'rotation' | 'body' | 'clusters' | 'cap';

export interface StepLevel {
  readonly level: CalledLevel;
  /** `StSq3`; without a level `StSq`. */
  readonly code: string;
  /** Every part that holds the level where it is; repairing one of several does not raise it alone. */
  readonly limitedBy: readonly StepLimit[];
  readonly counted: readonly number[];
  readonly uncounted: readonly Uncounted[];
  readonly spare: number | null;
  readonly critical: readonly number[];
  readonly chances: StepChances;
  readonly turns: { readonly level: TurnLevel; readonly counted: number; readonly directions: number };
  readonly rotation: { readonly met: boolean; readonly left: number; readonly right: number };
  readonly body: { readonly met: boolean; readonly share: number };
  readonly clusters: {
    readonly met: boolean;
    readonly attempts: readonly Cluster[];
    readonly reason: string | null;
  };
  readonly notes: readonly Note[];
  readonly warnings: readonly string[];
}

/**
 * The level of a planned step sequence, what it hangs on, and the exact chance of each level.
 * Level, counted turns and spare take every turn as credited; only the chances use `credit`.
 */
export function stepLevel(moves: readonly Move[], rules: StepRules): StepLevel {
  const plan = planOf(moves, rules);
  const everything = () => true;
  const count = countTurns(plan.groups, rules, everything);
  const met = clustersMet(plan.clusters, everything);
  const level = levelOfCount(count, featuresOf(plan, met), rules);
  const counted = plan.groups.flatMap((group) => countedOf(group, rules.maxPerType)).sort((a, b) => a - b);
  return {
    level,
    code: level === 'none' ? 'StSq' : `StSq${level}`,
    limitedBy: limitsOf(plan, level),
    counted,
    uncounted: uncountedOf(moves, rules, new Set(counted)),
    spare: spareOf(plan, level),
    critical: criticalMoves(plan, level),
    chances: levelChances(plan),
    turns: { level: turnLevelOf(count, rules), counted: count.sum, directions: count.cells },
    rotation: { met: plan.rotation, left: plan.shares.left, right: plan.shares.right },
    body: { met: plan.body, share: plan.shares.body },
    clusters: { met, attempts: plan.clusters.attempts, reason: plan.clusters.reason },
    notes: breaksIn(moves),
    warnings: warningsOf(plan),
  };
}

/** The executions of a type that count: one in each direction first, then in skating order. */
function countedOf({ byDirection }: TypeMoves, most: number): number[] {
  const firsts = [byDirection.cw[0], byDirection.ccw[0]].filter((index) => index !== undefined);
  const rest = [...byDirection.cw, ...byDirection.ccw].filter((index) => !firsts.includes(index));
  return [...firsts, ...rest.sort((a, b) => a - b)].slice(0, most);
}

function uncountedOf(moves: readonly Move[], rules: StepRules, counted: ReadonlySet<number>): Uncounted[] {
  return moves.flatMap((move, index) => {
    if (counted.has(index)) return [];
    const reason = rules.countable.includes(move.turn)
      ? `${move.turn}: no type counts more than ${timesWord(rules.maxPerType)}`
      : `a ${move.turn === 'three' ? 'three turn' : move.turn} never counts`;
    return [{ index, reason }];
  });
}

const timesWord = (n: number): string => (n === 1 ? 'once' : n === 2 ? 'twice' : `${n} times`);

function limitsOf(plan: StepPlan, level: CalledLevel): StepLimit[] {
  const rank = rankOf(level);
  if (rank <= 0) return ['turns'];
  if (rank === 4) return [];
  const count = countTurns(plan.groups, plan.rules, () => true);
  const features = featuresOf(plan, plan.clusters.valid);
  const limits: StepLimit[] = [];
  if (turnLevelOf(count, plan.rules) === rank) limits.push('turns');
  if (1 + features === rank) limits.push(...missingFeatures(plan));
  if (plan.rules.cap === rank) limits.push('cap');
  return limits;
}

function missingFeatures(plan: StepPlan): StepLimit[] {
  const missing: StepLimit[] = [];
  if (!plan.rotation) missing.push('rotation');
  if (!plan.body) missing.push('body');
  if (!plan.clusters.valid) missing.push('clusters');
  return missing;
}

function warningsOf(plan: StepPlan): string[] {
  const capless = 'The highest level of this category is not known: no cap was applied.';
  return [...plan.clusters.flags, ...(plan.rules.cap === null ? [capless] : [])];
}
