import { Option, type Command } from 'commander';

import { answerEach } from '../answer-each.ts';
import type { Io } from '../io.ts';
import { dayFlag } from '../day-flag.ts';

export interface BestCliOptions {
  readonly objective: string;
  readonly top: string;
  readonly rulebook?: string;
  readonly as?: string;
  readonly date?: string;
  readonly history?: string;
  readonly freeze?: string;
  readonly safer?: string;
  readonly explain?: boolean;
  readonly seconds: string;
  readonly json?: boolean;
}

/** `edgeledger best INVENTORY`: the best legal layouts of what a skater can do, proven. */
export function register(program: Command, io: Io): void {
  program
    .command('best')
    .description('the best legal layouts of the elements and reliabilities that you enter')
    .argument('<inventory>', 'an inventory: JSON, JSON Lines or YAML; - is standard input')
    .option('--objective <what>', 'expected, chance:POINTS or quantile:LEVEL', 'expected')
    .option('--top <number>', 'how many layouts', '1')
    .option('--rulebook <id>', 'rules, e.g. isu/2025-26')
    .option('--as <body/category>', 'as another category, e.g. "isu/advanced novice women"')
    .option('--date <day>', 'day of the layout, for entries that are held back until a date', dayFlag('--date'))
    .option('--history <file>', 'her earlier protocols, for what the inventory does not state')
    .option('--freeze <day>', 'from this day on only elements that were skated in competition', dayFlag('--freeze'))
    .option('--safer <code[:n]>', 'what if this element came off n (10) more times in 100?')
    .option('--explain', 'what the best layout leaves out: the rule, and what having it would cost')
    .addOption(new Option('--seconds <number>', 'stop after so many seconds and say what may be missed').default('60'))
    .option('--json', 'one compact JSON value per inventory')
    .action(async (file: string, options: BestCliOptions) => {
      const { bestAnswerer } = await import('./best-answer.ts');
      await answerEach(io, file, { json: options.json === true }, await bestAnswerer(options, io));
    });
}
