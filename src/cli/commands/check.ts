import type { Command } from 'commander';

import { answerEach } from '../answer-each.ts';
import type { Io } from '../io.ts';

/** `edgeledger check LAYOUT`: every rule of the segment as a verdict, with its source and its cost. */
export function register(program: Command, io: Io): void {
  program
    .command('check')
    .description('is a layout legal? Every rule as a verdict, with its source and what it costs on the day')
    .argument('<layout>', 'a layout: JSON, JSON Lines or YAML; - is standard input')
    .option('--rulebook <id>', 'rules to check against, e.g. isu/2025-26')
    .option('--as <body/category>', 'check as another category, e.g. "isu/advanced novice women"')
    .option('--season <season>', 'what would the rules of that season do to this layout?')
    .option('--next-season', 'what do the rules of the next season do to this layout?')
    .option('--json', 'one compact JSON value per layout')
    .action(async (file: string, options: CheckOptions) => {
      const { answerCheck } = await import('./check-answer.ts');
      await answerEach(io, file, { json: options.json === true }, (value) => answerCheck(value, options));
    });
}

export interface CheckOptions {
  readonly rulebook?: string;
  readonly as?: string;
  readonly season?: string;
  readonly nextSeason?: boolean;
  readonly json?: boolean;
}
