import type { Command } from 'commander';

import { answerEach } from '../answer-each.ts';
import type { Io } from '../io.ts';
import { dayFlag } from '../day-flag.ts';

export interface PlanFlags {
  readonly layout?: string;
  readonly objective: string;
  readonly effort?: string;
  readonly freeze?: string;
  readonly date?: string;
  readonly rulebook?: string;
  readonly as?: string;
  readonly history?: string;
  readonly seconds: string;
  readonly json?: boolean;
}

/** `edgeledger plan INVENTORY`: what to change and train until the next competition. */
export function register(program: Command, io: Io): void {
  program
    .command('plan')
    .description('from now to the next competition: what brings most for its work, the planned content, goals')
    .argument('<inventory>', 'what the skater can do: JSON, JSON Lines or YAML; - is standard input')
    .option('--layout <file>', 'the present layout; else the best one of the inventory')
    .option('--objective <what>', 'expected, chance:POINTS or quantile:LEVEL', 'expected')
    .option('--effort <list>', 'weeks of work by kind of change, e.g. order=1,swap=2,safer=4,level=6')
    .option('--freeze <day>', 'from this day on only elements that were skated in competition', dayFlag('--freeze'))
    .option('--date <day>', 'day of the competition', dayFlag('--date'))
    .option('--rulebook <id>', 'rules, e.g. isu/2025-26')
    .option('--as <body/category>', 'as another category, e.g. "isu/advanced novice women"')
    .option('--history <file>', 'her earlier protocols, for what the inventory does not state')
    .option('--seconds <number>', 'stop searching after so many seconds', '30')
    .option('--json', 'one compact JSON value per inventory')
    .action(async (file: string, flags: PlanFlags) => {
      const { planAnswerer } = await import('./plan-answer.ts');
      await answerEach(io, file, { json: flags.json === true }, await planAnswerer(flags, io));
    });
}
