import { cdfAt, crpsOf, quantilesOf } from './predictive.ts';
import { normalCrps, RIVALS, type Rival } from './rivals.ts';
import type { Forecasted } from './walk.ts';

/** One scored forecast. */
export interface Scored {
  readonly id: string | null;
  readonly key: string;
  readonly n: number;
  readonly crps: Readonly<Record<'model' | Rival, number>>;
  /** Chance that the model gave to a score at most as high as the one that came. */
  readonly pit: number;
}

/** Scores a forecast against what came. */
export function scoreOf({ line, n, model, rivals }: Forecasted): Scored {
  const y = line.total;
  const crps = { model: crpsOf(model, y) } as Record<'model' | Rival, number>;
  for (const rival of RIVALS) crps[rival] = normalCrps(rivals[rival], y);
  return { id: line.id, key: `${line.category} ${line.segment}`, n, crps, pit: cdfAt(model, y) };
}

/** Averages over some of the scored forecasts. */
export interface Figures {
  readonly n: number;
  readonly crps: Readonly<Record<'model' | Rival, number>>;
  /** Model over the best rival of these lines. */
  readonly ratio: number;
  /** Share of the scores inside the middle 50, 80, 95 per cent. */
  readonly coverage: Readonly<Record<'0.5' | '0.8' | '0.95', number>>;
  /** Scores by tenth of the model's distribution; flat if the model is calibrated. */
  readonly pit: readonly number[];
}

const BINS = 10;

/** Summarises scored forecasts; with none every average is NaN-free 0. */
export function figuresOf(scored: readonly Scored[]): Figures {
  const n = scored.length;
  const mean = (of: (s: Scored) => number): number => (n === 0 ? 0 : scored.reduce((sum, s) => sum + of(s), 0) / n);
  const crps = { model: mean((s) => s.crps.model) } as Record<'model' | Rival, number>;
  for (const rival of RIVALS) crps[rival] = mean((s) => s.crps[rival]);
  const best = Math.min(...RIVALS.map((rival) => crps[rival]));
  const inside = (level: number): number => mean((s) => (Math.abs(s.pit - 0.5) <= level / 2 ? 1 : 0));
  const pit = new Array<number>(BINS).fill(0);
  for (const s of scored) {
    const bin = Math.min(BINS - 1, Math.floor(s.pit * BINS));
    pit[bin] = (pit[bin] ?? 0) + 1;
  }
  return {
    n,
    crps,
    ratio: best > 0 ? crps.model / best : 0,
    coverage: { '0.5': inside(0.5), '0.8': inside(0.8), '0.95': inside(0.95) },
    pit,
  };
}

/** Group names by number of her own earlier protocols. */
const byCount = (n: number): string => (n >= 3 ? '3 or more' : String(n));

export interface BacktestSummary extends Figures {
  readonly bySegment: Readonly<Record<string, Figures>>;
  readonly byEarlier: Readonly<Record<string, Figures>>;
  /** Lines with at least one earlier protocol of the skater. */
  readonly withOwn: Figures;
}

function grouped(scored: readonly Scored[], keyOf: (s: Scored) => string): Record<string, Figures> {
  const keys = [...new Set(scored.map(keyOf))].sort();
  return Object.fromEntries(keys.map((key) => [key, figuresOf(scored.filter((s) => keyOf(s) === key))]));
}

export function summaryOf(scored: readonly Scored[]): BacktestSummary {
  return {
    ...figuresOf(scored),
    withOwn: figuresOf(scored.filter((s) => s.n > 0)),
    bySegment: grouped(scored, (s) => s.key),
    byEarlier: grouped(scored, (s) => byCount(s.n)),
  };
}

const LEVELS = Array.from({ length: 19 }, (_, i) => (i + 1) / 20);

/** One line of the predictions file. */
export interface Prediction {
  readonly id: string | null;
  readonly quantiles: Readonly<Record<string, number>> | null;
  readonly mean: number | null;
  readonly n: number;
}

const hundredths = (x: number): number => Math.round(x * 100) / 100;

/** Quantiles 0.05 to 0.95 of a forecast, in points; null: there was nothing earlier to forecast from. */
export function predictionOf(id: string | null, forecast: Forecasted | null): Prediction {
  if (forecast === null) return { id, quantiles: null, mean: null, n: 0 };
  const values = quantilesOf(forecast.model, LEVELS);
  const quantiles = Object.fromEntries(LEVELS.map((level, i) => [String(level), hundredths(values[i] ?? 0)]));
  return { id, quantiles, mean: hundredths(forecast.model.mean), n: forecast.n };
}
