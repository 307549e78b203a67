import { formatElement, ok, parseCode, type Result } from '../notation/index.ts';
import type { ProgramElement, ProgramModel, ScoreOf, SkatedOutcome } from './exact/program.ts';
import { takeInHand } from './exact/what-if.ts';
import { chanceOf, cumulative, moments, quantile, type Pmf } from './pmf.ts';

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

/** Outcomes that are the element as planned. */
function asPlanned(element: ProgramElement): readonly boolean[] {
  const parsed = parseCode(element.code);
  const wanted = parsed.ok ? formatElement(parsed.value.element) : element.code;
  return element.outcomes.map((o) => !o.fall && formatElement(o.element) === wanted);
}

/** One per cent moved to the planned outcomes from all the others; null where nothing can be moved. */
function moved(outcomes: readonly SkatedOutcome[], good: readonly boolean[], reliability: number) {
  if (reliability <= 0 || reliability >= 1) return null;
  const step = Math.min(STEP, 1 - reliability);
  return {
    step,
    outcomes: outcomes.map((o, i) => ({
      ...o,
      p:
        good[i] === true
          ? (o.p * (reliability + step)) / reliability
          : (o.p * (1 - reliability - step)) / (1 - reliability),
    })),
  };
}

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
  const good = asPlanned(element);
  const reliability = element.outcomes.reduce((sum, o, i) => sum + (good[i] === true ? o.p : 0), 0);
  const more = moved(element.outcomes, good, reliability);
  if (more === null) return ok(null);
  const hand = takeInHand(model, index, on);
  if (!hand.ok) return hand;
  const before = hand.value.with(element.outcomes);
  const after = hand.value.with(more.outcomes);
  if (!before.ok) return before;
  if (!after.ok) return after;
  const per = STEP / more.step;
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
