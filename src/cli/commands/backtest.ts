import type { Command } from 'commander';

import { UsageError, type Io } from '../io.ts';

/** What `backtest` takes. */
export interface BacktestFlags {
  readonly from?: number;
  readonly predictions?: string;
  readonly priors?: boolean;
  readonly rulebook?: string;
  readonly json?: boolean;
}

/** An order, or a date read as the day it is. */
function placeInTime(text: string): number {
  const day = /^\d{4}-\d\d-\d\d$/.test(text) ? Date.parse(`${text}T00:00:00Z`) / 86_400_000 : Number(text);
  if (text.trim() === '' || !Number.isFinite(day)) {
    throw new UsageError(`--from takes an order such as 10 or a date such as 2023-10-14, found “${text}”.`);
  }
  return day;
}

/** `edgeledger backtest FILE.jsonl`: how good would forecasts have been, from earlier protocols alone? */
export function register(program: Command, io: Io): void {
  program
    .command('backtest')
    .description('forecast every protocol of a file from the earlier ones and compare with what came')
    .argument('<file>', 'protocols with order or date; - for standard input')
    .option('--from <order>', 'forecast only protocols from this order or date on', placeInTime)
    .option('--predictions <file>', 'write one line per protocol: quantiles 0.05 to 0.95, mean, n')
    .option('--priors', 'use the stored rates of the field instead of those of earlier lines')
    .option('--rulebook <id>', 'use this rulebook')
    .option('--json', 'the summary as one compact JSON value')
    .action(async (file: string, flags: BacktestFlags) => {
      const { answerBacktest } = await import('./backtest-answer.ts');
      await answerBacktest(io, file, flags);
    });
}
