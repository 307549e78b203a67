import {
  buildModel,
  chanceOf,
  distributionOf,
  moments,
  quantile,
  type BuiltModel,
  type Evidence,
  type Pmf,
} from '../forecast/index.ts';
import type { Result } from '../notation/index.ts';
import type { ChosenRules } from '../rulebook/index.ts';
import type { Layout } from '../scoring/index.ts';
import type { Objective } from './best/objective.ts';

/** What a layout is worth. Points as numbers; a chance from 0 to 1. */
export interface Worth {
  readonly value: number;
  readonly expected: number;
  readonly sd: number;
  readonly built: BuiltModel;
  readonly pmf: Pmf;
}

/** The objective of a distribution: points, or a chance. */
export function objectiveOf(pmf: Pmf, objective: Objective): number {
  if (objective.kind === 'chance') return chanceOf(pmf, objective.target);
  if (objective.kind === 'quantile') return quantile(pmf, objective.level) / 100;
  return moments(pmf).mean / 100;
}

/** Worth of a layout by the exact distribution of its total. */
export function worthOf(layout: Layout, chosen: ChosenRules, objective: Objective, evidence: Evidence): Result<Worth> {
  const built = buildModel(layout, chosen, evidence);
  if (!built.ok) return built;
  const pmf = distributionOf(built.value.model);
  if (!pmf.ok) return pmf;
  const { mean, sd } = moments(pmf.value);
  return {
    ok: true,
    value: {
      value: objectiveOf(pmf.value, objective),
      expected: mean / 100,
      sd: sd / 100,
      built: built.value,
      pmf: pmf.value,
    },
  };
}

/** A difference of expected scores below this share of a program's spread is not told apart. */
export const NOISE_SHARE = 0.1;

export const isNoise = (gain: number, sd: number): boolean => Math.abs(gain) < NOISE_SHARE * sd;
