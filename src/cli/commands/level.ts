import { writeFile } from 'node:fs/promises';

import { Option, type Command } from 'commander';

import {
  PATTERNS,
  RINKS,
  SPIN_ASSUMPTIONS,
  answerPlan,
  drawSteps,
  inferMissedPositions,
  inferStepCredit,
  looksLikeSteps,
  printPositions,
  printSpin,
  printSpins,
  printStepInference,
  printSteps,
  readEvidence,
  readPlan,
  readStepsText,
  type Evidence,
  type Foot,
  type Pattern,
  type PlanAnswer,
  type PlanForm,
  type Rink,
  type SearchConstraints,
} from '../../levels/index.ts';
import { describeProblem, ok, type Result } from '../../notation/index.ts';
import type { ChosenRules } from '../../rulebook/index.ts';
import { answerEach, type Answer } from '../answer-each.ts';
import { UsageError, type Io } from '../io.ts';
import { ruleChooser, type RuleChooser } from '../rules.ts';
import { readValues, readYaml, type OtherReader } from '../values.ts';

interface Options {
  readonly json?: boolean;
  readonly rulebook?: string;
  readonly sheets?: string;
  readonly draw?: string;
  readonly rink: Rink;
  readonly pattern: Pattern;
  readonly advice?: boolean;
  readonly keep?: string;
  readonly avoid?: string;
  readonly prefer?: Foot;
}

/** `edgeledger level FILE`: the level of planned step sequences and spins, and how safe it is. */
export function register(program: Command, io: Io): void {
  program
    .command('level')
    .description('the level of planned step sequences and spins, what it hangs on, and its chances')
    .argument('<file>', 'forms steps, spin, spins, or a line of moves; - for standard input')
    .option('--json', 'one JSON value per plan')
    .option('--rulebook <id>', 'rules to use whatever the form says')
    .option('--sheets <file>', 'protocols of the season: what their levels and letters say about the plan')
    .option('--advice', 'look for the best change of one move (always done for people)')
    .option('--keep <moves>', 'moves that the advice leaves alone, e.g. 1,2,3')
    .option('--avoid <names>', 'turns and edges that the advice does not use, e.g. "choctaw,RBI,LFO rocker"')
    .addOption(new Option('--prefer <foot>', 'foot for new moves').choices(['L', 'R']))
    .option('--draw <file>', 'write the step sequence as an SVG drawing')
    .addOption(new Option('--rink <size>', 'rink of the drawing').choices(Object.keys(RINKS)).default('60x30'))
    .addOption(new Option('--pattern <shape>', 'shape of the drawing').choices([...PATTERNS]).default('serpentine'))
    .action(async (file: string, options: Options) => {
      const rules = ruleChooser(options.rulebook);
      const evidence = options.sheets === undefined ? null : await readSheets(options.sheets, io);
      const job: Job = {
        rules,
        options,
        evidence,
        constraints: constraintsOf(options),
        wantsAdvice: options.json !== true || options.advice === true,
        width: io.width,
      };
      await answerEach(io, file, { json: options.json === true, other: textOrYaml }, (value) => answerOne(value, job));
    });
}

interface Job {
  readonly rules: RuleChooser;
  readonly options: Options;
  readonly evidence: Evidence | null;
  readonly constraints: SearchConstraints;
  /** A search takes its time: for JSON only where it is asked for, so that long files stay quick. */
  readonly wantsAdvice: boolean;
  readonly width: number;
}

/** A line of moves with headings, or else YAML. */
const textOrYaml: OtherReader = async (bytes, name) => {
  const text = bytes.toString('utf8');
  return looksLikeSteps(text) && !/^\s*[[{]/.test(text) ? readStepsText(text) : readYaml(bytes, name);
};

/** People count moves from 1, indexes begin at 0. */
function constraintsOf({ keep, avoid, prefer }: Options): SearchConstraints {
  const numbers = split(keep).map(Number);
  if (numbers.some((n) => !Number.isInteger(n) || n < 1))
    throw new UsageError(`--keep takes the numbers of moves, such as 1,2,3; found “${keep ?? ''}”.`);
  return { keep: numbers.map((n) => n - 1), avoid: split(avoid), prefer: prefer ?? null };
}

const split = (text: string | undefined): string[] =>
  (text ?? '')
    .split(',')
    .map((one) => one.trim())
    .filter((one) => one !== '');

/** Every readable protocol of the file as evidence; one that cannot be read is said and left out. */
async function readSheets(file: string, io: Io): Promise<Evidence> {
  const steps: Evidence['steps'][number][] = [];
  const spins: Evidence['spins'][number][] = [];
  for await (const { line, read } of readValues(file, io)) {
    const evidence = read.ok ? readEvidence(read.value) : read;
    if (!evidence.ok) {
      io.err(`${file}, line ${line}: ${describeProblem(evidence.error)}\n`);
      io.exit(1);
      continue;
    }
    steps.push(...evidence.value.steps);
    spins.push(...evidence.value.spins);
  }
  return { steps, spins };
}

async function answerOne(value: unknown, job: Job): Promise<Result<Answer>> {
  const form = readPlan(value);
  if (!form.ok) return form;
  const chosen = job.rules.choose(form.value);
  if (!chosen.ok) return chosen;
  const answer = answerPlan(form.value, chosen.value, job.wantsAdvice ? job.constraints : null);
  const season = seasonFor(form.value, chosen.value, job.evidence);
  await draw(form.value, chosen.value, job.options);
  const text = () => [printed(answer, job.width), ...(season === null ? [] : [season.text(job.width)])].join('\n\n');
  return ok({ json: season === null ? answer : { ...answer, season: season.json }, text, act: false });
}

function printed(answer: PlanAnswer, width: number): string {
  if (answer.kind === 'steps') return printSteps(answer, width);
  return answer.kind === 'spin' ? printSpin(answer, width) : printSpins(answer, width);
}

interface SeasonAnswer {
  readonly json: object;
  readonly text: (width: number) => string;
}

function seasonFor(form: PlanForm, rules: ChosenRules, evidence: Evidence | null): SeasonAnswer | null {
  if (evidence === null) return null;
  if (form.kind === 'steps') {
    const found = inferStepCredit(form.moves, rules.levels.steps(rules.category), evidence.steps);
    return { json: found, text: (width) => printStepInference(found, width) };
  }
  const positions = inferMissedPositions(evidence.spins);
  return {
    json: { positions, assumptions: SPIN_ASSUMPTIONS },
    text: (width) => printPositions(positions, SPIN_ASSUMPTIONS, width),
  };
}

async function draw(form: PlanForm, rules: ChosenRules, { draw: file, rink, pattern }: Options): Promise<void> {
  if (file === undefined || form.kind !== 'steps') return;
  const title = `Step plan${form.id === null ? '' : ` ${form.id}`}`;
  const { svg } = drawSteps(form.moves, rules.levels.steps(rules.category), { rink, pattern, title });
  await writeFile(file, svg).catch(() => {
    throw new UsageError(`${file}: the drawing cannot be written there; check the path.`);
  });
}
