/** Door of the room `forecast`: outcome models, exact score distributions, calibration. */
export { chanceOf, cumulative, moments, quantile, type Pmf } from './pmf.ts';
export { distributionOf } from './exact/distribution.ts';
export { dayChances, dayWeights } from './exact/day-chances.ts';
export type { ComponentPart, ProgramElement, ProgramModel, ScoreOf, SkatedOutcome } from './exact/program.ts';
export {
  forecast,
  forecastEvent,
  forecastOf,
  eventDistribution,
  CHANCES_FROM,
  type Forecast,
  type ForecastOptions,
} from './forecast.ts';
export { buildModel, timeOf, type Basis, type BuiltModel, type Evidence } from './model.ts';
export { earlierProgram, type EarlierProgram, type Skated } from './learn/skated.ts';
export { estimatePriors } from './learn/estimate.ts';
export type { Priors } from './learn/priors.ts';
export { storedPriors } from './priors/stored.ts';
export { FORECAST_CAUTION, daysOf20, estimate, forecastLines } from './words.ts';
export { backtest, type Backtest, type BacktestOptions } from './backtest/backtest.ts';
export { backtestLine, type Line as BacktestLine } from './backtest/line.ts';
export { RIVALS, type Rival } from './backtest/rivals.ts';
export type { BacktestSummary, Figures, Prediction } from './backtest/summary.ts';
export { backtestLines } from './backtest/words.ts';
export { takeInHand, type ElementInHand } from './exact/what-if.ts';
export { normalPmf, placeChances } from './place.ts';
export { meanGains, sensitivityOf, type MeanGain, type Sensitivity } from './sensitivity.ts';
export { betaCdf, betaQuantile, normalCdf, normalQuantile, studentCdf, studentQuantile } from './math/special.ts';
export { normalNodes } from './math/hermite.ts';
export { asPlanned, outcomesAt, reliabilityOf } from './reliability.ts';
export { PRACTICE_LAST, PRACTICE_SHARE, practiceRows, type LoggedRunThrough } from './learn/practice.ts';
export { readRunThrough } from './learn/practice-form.ts';
export { summarise, type Summary } from './answer.ts';
