import type { Hundredths } from '../rulebook/index.ts';
import { chanceOf, moments, quantile, type Pmf } from './pmf.ts';

/** The levels that every forecast prints. */
export const QUANTILE_LEVELS = ['0.025', '0.1', '0.25', '0.5', '0.75', '0.9', '0.975'] as const;
export type QuantileLevel = (typeof QUANTILE_LEVELS)[number];

/** A score distribution in the numbers that are printed; points are numbers with two decimals. */
export interface Summary {
  readonly mean: number;
  readonly sd: number;
  readonly quantiles: Readonly<Record<QuantileLevel, number>>;
  /** null: too few protocols of her own to print a chance. */
  readonly chances: readonly { readonly target: number; readonly p: number }[] | null;
  readonly pmf?: { readonly from: Hundredths; readonly p: readonly number[] };
}

const quantilesOf = (pmf: Pmf): Record<QuantileLevel, number> => {
  const at = (level: QuantileLevel): number => quantile(pmf, Number(level)) / 100;
  return {
    '0.025': at('0.025'),
    '0.1': at('0.1'),
    '0.25': at('0.25'),
    '0.5': at('0.5'),
    '0.75': at('0.75'),
    '0.9': at('0.9'),
    '0.975': at('0.975'),
  };
};

/** Targets are points; a target between two hundredths is reached from the next hundredth on. */
const needed = (target: number): Hundredths => Math.ceil(Number((target * 100).toFixed(6)));

/** What is printed of a distribution. `chances` null suppresses them; `pmf` adds the whole distribution. */
export function summarise(
  pmf: Pmf,
  options: { readonly targets: readonly number[] | null; readonly pmf: boolean },
): Summary {
  const { mean, sd } = moments(pmf);
  return {
    mean: mean / 100,
    sd: sd / 100,
    quantiles: quantilesOf(pmf),
    chances: options.targets?.map((target) => ({ target, p: chanceOf(pmf, needed(target)) })) ?? null,
    ...(options.pmf ? { pmf: { from: pmf.from, p: [...pmf.p] } } : {}),
  };
}
