import { ok, type Result } from '../notation/index.ts';
import { nodesFor } from './exact/distribution.ts';
import { programGraph } from './exact/graph.ts';
import { meanOf } from './exact/moments.ts';
import type { ProgramModel, ScoreOf } from './exact/program.ts';
import { tiltGraph, tiltLevel } from './exact/tilted.ts';
import { takeInHand } from './exact/what-if.ts';
import { chanceOf, cumulative, moments, quantile, type Pmf } from './pmf.ts';
import { outcomesAt, reliabilityOf } from './reliability.ts';

/** What one per cent more reliability of one element brings. */
export interface Sensitivity {
  readonly no: number;
  /** Chance, as modelled, that it comes as planned: content and level, without call or fall. */
  readonly reliability: number;
  /** Points of the mean and of the median per per cent. */
  readonly mean: number;
  readonly median: number;
  /** Change of each target's chance per per cent. */
  readonly chances: readonly number[];
}

const STEP = 0.01;

/** Median between the hundredths, so that a small change shows. */
function median(pmf: Pmf): number {
  const at = quantile(pmf, 0.5);
  const p = pmf.p[at - pmf.from] ?? 0;
  return at - (p > 0 ? (cumulative(pmf, at) - 0.5) / p : 0);
}

/** Of one element (index from 0); null where its reliability is certain or it is never as planned. */
export function sensitivityOf(
  model: ProgramModel,
  index: number,
  on: ScoreOf,
  targets: readonly number[],
): Result<Sensitivity | null> {
  const element = model.elements[index];
  if (element === undefined) return ok(null);
  const reliability = reliabilityOf(element);
  const step = Math.min(STEP, 1 - reliability);
  const more = outcomesAt(element, reliability + step);
  if (more === null) return ok(null);
  const hand = takeInHand(model, index, on);
  if (!hand.ok) return hand;
  const before = hand.value.with(element.outcomes);
  const after = hand.value.with(more);
  if (!before.ok) return before;
  if (!after.ok) return after;
  const per = STEP / step;
  return ok({
    no: element.no,
    reliability,
    mean: (per * (moments(after.value).mean - moments(before.value).mean)) / 100,
    median: (per * (median(after.value) - median(before.value))) / 100,
    chances: targets.map(
      (t) =>
        per * (chanceOf(after.value, Math.ceil(t * 100 - 1e-6)) - chanceOf(before.value, Math.ceil(t * 100 - 1e-6))),
    ),
  });
}

/** Points of the mean that one per cent more reliability of an element brings. */
export type MeanGain = Pick<Sensitivity, 'no' | 'mean'>;

/**
 * What one per cent more reliability of each element brings on average, without the distribution:
 * a pass over the outcomes each, in a small part of the time of `sensitivityOf`. Elements whose
 * reliability cannot be moved are left out.
 */
export function meanGains(model: ProgramModel, on: ScoreOf): Result<readonly MeanGain[]> {
  const graph = programGraph(model, on === 'total');
  if (!graph.ok) return graph;
  const nodes = nodesFor(model.formSd);
  const levels = tiltGraph(graph.value, model.formSd, nodes);
  const before = meanOf(levels, nodes);
  return ok(
    graph.value.levels.flatMap((level, i) => {
      const reliability = reliabilityOf(level.element);
      const step = Math.min(STEP, 1 - reliability);
      const outcomes = outcomesAt(level.element, reliability + step);
      if (outcomes === null) return [];
      const moved = tiltLevel({ ...level, element: { ...level.element, outcomes } }, model.formSd, nodes);
      const after = meanOf(
        levels.map((one, k) => (k === i ? moved : one)),
        nodes,
      );
      return [{ no: level.element.no, mean: ((STEP / step) * (after - before)) / 100 }];
    }),
  );
}
