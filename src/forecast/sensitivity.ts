import { ok, type Result } from '../notation/index.ts';
import type { ProgramModel, ScoreOf } from './exact/program.ts';
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
