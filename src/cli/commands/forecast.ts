import type { Command } from 'commander';

import { UsageError, type Io } from '../io.ts';

/** What `forecast` takes. */
export interface ForecastFlags {
  readonly target: readonly number[];
  readonly on: 'tes' | 'pcs' | 'total' | 'event';
  readonly pmf?: boolean;
  readonly history?: string;
  readonly practice?: string;
  readonly sensitivity?: boolean;
  readonly field?: string;
  readonly video?: 'yes' | 'no';
  readonly rulebook?: string;
  readonly json?: boolean;
}

const ON = ['tes', 'pcs', 'total', 'event'] as const;

function targetOf(text: string, before: readonly number[]): readonly number[] {
  const points = Number(text.replace(',', '.'));
  if (text.trim() === '' || !Number.isFinite(points)) {
    throw new UsageError(`--target takes points such as 45.00, found “${text}”.`);
  }
  return [...before, points];
}

function scoreOf(text: string): ForecastFlags['on'] {
  const found = ON.find((on) => on === text);
  if (found === undefined) throw new UsageError(`--on takes ${ON.join(', ')}; found “${text}”.`);
  return found;
}

function videoOf(text: string): 'yes' | 'no' {
  if (text === 'yes' || text === 'no') return text;
  throw new UsageError(`--video takes yes or no, found “${text}”.`);
}

/** `edgeledger forecast LAYOUT…`: the whole distribution of the score, exact on the hundredths grid. */
export function register(program: Command, io: Io): void {
  program
    .command('forecast')
    .description('what a layout will score: ranges, chances of targets, and what moves the score most')
    .argument('<layouts...>', 'layouts as JSON, JSON Lines or YAML; - for standard input; two for --on event')
    .option('--target <points>', 'chance of this many points or more; may be repeated', targetOf, [])
    .option('--on <score>', `which score: ${ON.join(', ')}`, scoreOf, 'total')
    .option('--history <file>', 'her earlier protocols, to learn from')
    .option('--practice <file>', 'logged run-throughs, to learn from beside the protocols (each counts a quarter)')
    .option('--field <file>', 'rivals of the event, for the chance of a place: layouts, or {"mean", "sd"} lines')
    .option('--video <answer>', 'will the panel have video review: yes or no; unlike events then count less', videoOf)
    .option('--sensitivity', 'what one per cent more reliability brings, element by element')
    .option('--pmf', 'with the whole distribution (JSON)')
    .option('--rulebook <id>', 'use this rulebook')
    .option('--json', 'one compact JSON value per layout')
    .action(async (files: readonly string[], flags: ForecastFlags) => {
      const { answerForecasts } = await import('./forecast-answer.ts');
      await answerForecasts(io, files, flags);
    });
}
