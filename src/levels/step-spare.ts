import { clusterMoves } from './step-clusters.ts';
import { featuresOf, levelOfCount, levelWhen, rankOf, type CalledLevel, type StepPlan } from './step-assess.ts';
import { countOfType, eachPoint, walkTypes, type Step, type TypeMoves } from './step-grid.ts';

/** Moves whose single loss lowers the level; a cluster turn takes its cluster with it. */
export function criticalMoves(plan: StepPlan, level: CalledLevel): number[] {
  return plan.moves.flatMap((_, lost) =>
    rankOf(levelWhen(plan, (index) => index !== lost)) < rankOf(level) ? [lost] : [],
  );
}

/**
 * How many counted turns outside the clusters can be lost before the level drops: the fewest whose
 * loss lowers it, less one; null if no such loss lowers it. Exact: per type every number of losses,
 * combined by a smallest-cost walk.
 */
export function spareOf(plan: StepPlan, level: CalledLevel): number | null {
  const inside = clusterMoves(plan.clusters);
  const types = plan.groups.map((group) => lossesOf(group, inside, plan.rules.maxPerType));
  const grid = walkTypes(
    types,
    plan.rules,
    { empty: Infinity, first: 0 },
    (soFar, value) => soFar + value,
    (a, b) => Math.min(a, b),
  );
  const features = featuresOf(plan, plan.clusters.valid);
  let fewest = Infinity;
  eachPoint(grid, (count, losses) => {
    if (losses < fewest && rankOf(levelOfCount(count, features, plan.rules)) < rankOf(level)) fewest = losses;
  });
  return fewest === Infinity ? null : fewest - 1;
}

/** Every way to lose turns of one type outside the clusters, with what remains of the count. */
function lossesOf(group: TypeMoves, inside: ReadonlySet<number>, maxPerType: number): Step[] {
  const { cw, ccw } = group.byDirection;
  const free = (moves: readonly number[]) => moves.filter((index) => !inside.has(index)).length;
  const steps: Step[] = [];
  for (let a = 0; a <= free(cw); a += 1)
    for (let b = 0; b <= free(ccw); b += 1)
      steps.push({ ...countOfType(cw.length - a, ccw.length - b, maxPerType), value: a + b });
  return steps;
}
