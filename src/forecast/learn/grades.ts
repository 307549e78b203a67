import { normalCdf, studentCdf } from '../math/special.ts';

/** What is known of a panel grade before her own are looked at; in shares of the scale. */
export interface GradePrior {
  readonly mean: number;
  /** Spread of one grade. */
  readonly sd: number;
  /** Grades that the prior mean is worth. */
  readonly strength: number;
}

/** A weighted grade of her own, as a share of the scale. */
export interface WeightedGrade {
  readonly grade: number;
  readonly weight: number;
}

/** Student's t: centre, scale and degrees of freedom of the next grade. */
export interface GradeForecast {
  readonly centre: number;
  readonly scale: number;
  readonly df: number;
}

/** Grades that the prior spread is worth. */
const SPREAD_STRENGTH = 6;

/**
 * Normal-inverse-gamma posterior of a panel grade, predictive for the next one. Few grades of her own
 * leave it near the prior and wide.
 */
export function nextGrade(prior: GradePrior, own: readonly WeightedGrade[]): GradeForecast {
  const n = own.reduce((sum, g) => sum + g.weight, 0);
  const mean = n > 0 ? own.reduce((sum, g) => sum + g.weight * g.grade, 0) / n : prior.mean;
  const squares = own.reduce((sum, g) => sum + g.weight * (g.grade - mean) ** 2, 0);
  const strength = prior.strength + n;
  const df = SPREAD_STRENGTH + n;
  const between = ((prior.strength * n) / strength) * (mean - prior.mean) ** 2;
  const variance = (SPREAD_STRENGTH * prior.sd ** 2 + squares + between) / df;
  return {
    centre: (prior.strength * prior.mean + n * mean) / strength,
    scale: Math.sqrt(variance * (1 + 1 / strength)),
    df,
  };
}

/** Grades are laid out in halves: finer steps change no quantile of a program by 0.02 points. */
const STEP = 0.5;
/** Grades rarer than this are left to their neighbours. */
const RARE = 1e-4;

/**
 * Cuts a forecast grade into half grades on a season's scale. What lies beyond the ends of the scale
 * stands at the ends.
 */
export function onScale(
  forecast: GradeForecast,
  scale: { readonly min: number; readonly max: number },
): readonly { readonly grade: number; readonly p: number }[] {
  const cdf = (grade: number): number => {
    const x = (grade / scale.max - forecast.centre) / forecast.scale;
    return forecast.df > 200 ? normalCdf(x) : studentCdf(x, forecast.df);
  };
  const cells: { grade: number; p: number }[] = [];
  for (let grade = scale.min; grade <= scale.max; grade += STEP) {
    const low = grade === scale.min ? 0 : cdf(grade - STEP / 2);
    const high = grade === scale.max ? 1 : cdf(grade + STEP / 2);
    if (high - low > RARE) cells.push({ grade, p: high - low });
  }
  const total = cells.reduce((sum, cell) => sum + cell.p, 0);
  return cells.map(({ grade, p }) => ({ grade, p: p / total }));
}
