import { describeProblem, type Problem, type Result } from '../notation/index.ts';
import { UsageError, type Io } from './io.ts';
import { readValues, type InputValue, type OtherReader } from './values.ts';

/** What a command answers to one value. */
export interface Answer {
  /** The `--json` form; its `id` is replaced by the id of the value as given. */
  readonly json: object;
  /** The form for people, without a line end at the end; may be empty. */
  readonly text: () => string;
  /** Something to act on: exit 1. */
  readonly act: boolean;
}

export interface AnswerOptions {
  readonly json: boolean;
  /** Reads what is not JSON; YAML where absent. */
  readonly other?: OtherReader;
}

/** At most this many lines of trouble are told to people when nothing could be read. */
const TOLD = 5;

/** After so many values without a good one reading ends: this is another kind of file. */
const PATIENCE = 50_000;

/** A value that could not be read: what is told of it, without the value itself. */
interface Trouble {
  readonly id: string | number | null;
  readonly line: number;
  readonly problem: Problem;
}

/**
 * Runs a command over every value of a file or of standard input, in order and in bounded memory.
 * `--json`: one compact JSON value per input value, error lines among good ones. Nothing readable:
 * message on standard error, nothing on standard output, exit 2.
 */
export async function answerEach(
  io: Io,
  file: string,
  options: AnswerOptions,
  answer: (value: unknown) => Result<Answer> | Promise<Result<Answer>>,
): Promise<void> {
  const held: Trouble[] = [];
  let good = 0;
  for await (const value of readValues(file, io, options.other)) {
    const result = value.read.ok ? await answer(value.read.value) : value.read;
    if (!result.ok) {
      const trouble: Trouble = { id: givenId(value), line: value.line, problem: result.error };
      if (good > 0) await tellTrouble(io, file, options, trouble);
      else if (held.push(trouble) >= PATIENCE) break;
    } else {
      for (const one of held.splice(0)) await tellTrouble(io, file, options, one);
      good += 1;
      await tell(io, options, value, result.value);
    }
  }
  if (good === 0) throw new UsageError(nothingReadable(file, held));
}

async function tell(io: Io, options: AnswerOptions, value: InputValue, answer: Answer): Promise<void> {
  if (answer.act) io.exit(1);
  if (options.json) return io.out(`${JSON.stringify(withGivenId(answer.json, value))}\n`);
  const text = answer.text();
  if (text !== '') await io.out(`${text}\n`);
}

async function tellTrouble(io: Io, file: string, options: AnswerOptions, trouble: Trouble): Promise<void> {
  io.exit(1);
  const { id, line, problem } = trouble;
  if (options.json) await io.out(`${JSON.stringify({ id, line, error: problem })}\n`);
  else io.err(`${located(file, trouble)}\n`);
}

const withGivenId = (json: object, value: InputValue): object => {
  const id = givenId(value);
  return id === null ? json : { ...json, id };
};

/** The id of a value that is an object, whatever else is wrong with it. */
function givenId(value: InputValue): string | number | null {
  const given = value.read.ok ? value.read.value : null;
  const id: unknown = typeof given === 'object' && given !== null && 'id' in given ? given.id : null;
  return typeof id === 'string' || typeof id === 'number' ? id : null;
}

/** `sheet.jsonl, line 3: elements[2].goe: found …`; the line is not said twice. */
function located(file: string, { line, problem }: Trouble): string {
  const name = file === '-' ? 'standard input' : file;
  if (problem.at === file) return describeProblem({ ...problem, at: name });
  const told = describeProblem(problem);
  return problem.at.startsWith('line ') ? `${name}, ${told}` : `${name}, line ${line}: ${told}`;
}

function nothingReadable(file: string, held: readonly Trouble[]): string {
  const name = file === '-' ? 'standard input' : file;
  if (held.length === 0) return `${name}: nothing to read in it. Check that this is the right file.`;
  const told = held.slice(0, TOLD).map((one) => located(file, one));
  return [...told, ...more(held.length)].join('\n');
}

const more = (count: number): readonly string[] =>
  count >= PATIENCE
    ? [`… and so on: none of the first ${count} values can be read. Check that this is the right file.`]
    : count > TOLD
      ? [`… and ${count - TOLD} more.`]
      : [];
