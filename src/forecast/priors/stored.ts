import type { Priors } from '../learn/priors.ts';
import { OPEN_DATA_PRIORS } from './open-data.ts';

/** The priors that come with the program, for forecasts; a backtest estimates its own from earlier lines. */
export const storedPriors = (): Priors => OPEN_DATA_PRIORS;
