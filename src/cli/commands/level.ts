import type { Command } from 'commander';

import {
  answerPlan,
  looksLikeSteps,
  printSpin,
  printSpins,
  printSteps,
  readPlan,
  readStepsText,
  type PlanAnswer,
} from '../../levels/index.ts';
import { ok, type Result } from '../../notation/index.ts';
import { answerEach, type Answer } from '../answer-each.ts';
import type { Io } from '../io.ts';
import { ruleChooser, type RuleChooser } from '../rules.ts';
import { readYaml, type OtherReader } from '../values.ts';

interface Options {
  readonly json?: boolean;
  readonly rulebook?: string;
}

/** `edgeledger level FILE`: the level of planned step sequences and spins, and how safe it is. */
export function register(program: Command, io: Io): void {
  program
    .command('level')
    .description('the level of planned step sequences and spins, what it hangs on, and its chances')
    .argument('<file>', 'forms steps, spin, spins, or a line of moves; - for standard input')
    .option('--json', 'one JSON value per plan')
    .option('--rulebook <id>', 'rules to use whatever the form says')
    .action(async (file: string, options: Options) => {
      const rules = ruleChooser(options.rulebook);
      await answerEach(io, file, { json: options.json === true, other: textOrYaml }, (value) =>
        answerOne(value, rules, io.width),
      );
    });
}

/** A line of moves with headings, or else YAML. */
const textOrYaml: OtherReader = async (bytes, name) => {
  const text = bytes.toString('utf8');
  return looksLikeSteps(text) && !/^\s*[[{]/.test(text) ? readStepsText(text) : readYaml(bytes, name);
};

function answerOne(value: unknown, rules: RuleChooser, width: number): Result<Answer> {
  const form = readPlan(value);
  if (!form.ok) return form;
  const chosen = rules.choose(form.value);
  if (!chosen.ok) return chosen;
  const answer = answerPlan(form.value, chosen.value);
  return ok({ json: answer, text: () => printed(answer, width), act: false });
}

function printed(answer: PlanAnswer, width: number): string {
  if (answer.kind === 'steps') return printSteps(answer, width);
  return answer.kind === 'spin' ? printSpin(answer, width) : printSpins(answer, width);
}
