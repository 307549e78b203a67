import type { Command } from 'commander';

import { UsageError, type Io } from '../io.ts';

/** What `season` takes. */
export interface SeasonFlags {
  readonly history?: string;
  readonly target: readonly number[];
  readonly events: number;
  readonly rulebook?: string;
  readonly json?: boolean;
}

function targetOf(text: string, before: readonly number[]): readonly number[] {
  const points = Number(text.replace(',', '.'));
  if (text.trim() === '' || !Number.isFinite(points)) {
    throw new UsageError(`--target takes points such as 45.00, found “${text}”.`);
  }
  return [...before, points];
}

function eventsOf(text: string): number {
  const events = Number(text);
  if (!Number.isInteger(events) || events < 1 || events > 50) {
    throw new UsageError(`--events takes a whole number from 1 to 50, found “${text}”.`);
  }
  return events;
}

/** `edgeledger season SKATER`: trends against the noise, what changed, levels, calls, bests. */
export function register(program: Command, io: Io): void {
  program
    .command('season')
    .description('one skater’s season: usual ranges, trends, what changed since last time, levels, calls, bests')
    .argument('<skater>', 'as named in the protocols')
    .option('--history <file>', 'protocols to read from; without it those of the store')
    .option('--target <points>', 'chance of this total at least once; may be repeated; coach only', targetOf, [])
    .option('--events <number>', 'in how many events to come', eventsOf, 1)
    .option('--rulebook <id>', 'use this rulebook')
    .option('--json', 'one compact JSON value')
    .action(async (skater: string, flags: SeasonFlags) => {
      const { answerSeason } = await import('./season-answer.ts');
      await answerSeason(io, skater, flags);
    });
}
