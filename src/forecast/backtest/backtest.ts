import type { Priors } from '../learn/priors.ts';
import type { Line } from './line.ts';
import { predictionOf, scoreOf, summaryOf, type BacktestSummary, type Prediction, type Scored } from './summary.ts';
import { walk } from './walk.ts';

export interface BacktestOptions {
  /** Only lines at or after this place in time are forecast and summarised; all earlier ones are learnt. */
  readonly from?: number | undefined;
  /** Stored priors; null: priors are estimated from earlier lines alone. */
  readonly priors: Priors | null;
  /** Called now and then with the number of lines done; true stops. */
  readonly shouldStop?: ((done: number) => boolean) | undefined;
}

export interface Backtest {
  readonly summary: BacktestSummary;
  readonly predictions: readonly Prediction[];
  /** Where the rates of the field came from. */
  readonly priors: string;
}

/**
 * Forecasts every line from the lines before it and compares with what came. Lines may stand in any
 * order; predictions keep it. Deterministic: the same lines give the same figures.
 */
export function backtest(lines: readonly Line[], options: BacktestOptions): Backtest {
  const scored: Scored[] = [];
  const made = new Map<Line, Prediction>();
  for (const { line, forecast } of walk(lines, { from: options.from ?? -Infinity, priors: options.priors })) {
    made.set(line, predictionOf(line.id, forecast));
    if (forecast !== null) scored.push(scoreOf(forecast));
    if (options.shouldStop?.(made.size) === true) break;
  }
  return {
    summary: summaryOf(scored),
    predictions: lines.flatMap((line) => made.get(line) ?? []),
    priors:
      options.priors === null ? 'estimated from earlier lines of the file only' : `stored: ${options.priors.source}`,
  };
}
