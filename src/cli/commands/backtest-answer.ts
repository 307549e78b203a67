import { writeFile } from 'node:fs/promises';

import { backtest, backtestLine, backtestLines, storedPriors, type BacktestLine } from '../../forecast/index.ts';
import { describeProblem, type Problem, type Result } from '../../notation/index.ts';
import { readProtocol } from '../../scoring/index.ts';
import { UsageError, type Io } from '../io.ts';
import { ruleChooser, type RuleChooser } from '../rules.ts';
import { readSheets } from '../sheets.ts';
import { wrapped } from '../style.ts';
import { readValues } from '../values.ts';
import type { BacktestFlags } from './backtest.ts';

interface ReadLines {
  readonly lines: readonly BacktestLine[];
  readonly troubles: readonly { readonly line: number; readonly problem: Problem }[];
}

async function readLines(file: string, rules: RuleChooser, io: Io): Promise<ReadLines> {
  const lines: BacktestLine[] = [];
  const troubles: { line: number; problem: Problem }[] = [];
  for await (const value of readValues(file, io, readSheets)) {
    const read = value.read.ok ? toLine(value.read.value, rules, value.line) : value.read;
    if (read.ok) lines.push(read.value);
    else troubles.push({ line: value.line, problem: read.error });
  }
  return { lines, troubles };
}

function toLine(value: unknown, rules: RuleChooser, line: number): Result<BacktestLine> {
  const protocol = readProtocol(value);
  if (!protocol.ok) return protocol;
  const chosen = rules.choose(protocol.value);
  return chosen.ok ? backtestLine(protocol.value, chosen.value, line) : chosen;
}

/** Troubles told on standard error before they are only counted. */
const TOLD = 20;

/** Runs `backtest` over one file. */
export async function answerBacktest(io: Io, file: string, flags: BacktestFlags): Promise<void> {
  const { lines, troubles } = await readLines(file, ruleChooser(flags.rulebook), io);
  const told = troubles.slice(0, TOLD).map(({ line, problem }) => `${file}, line ${line}: ${describeProblem(problem)}`);
  if (troubles.length > TOLD) told.push(`… and ${troubles.length - TOLD} more lines.`);
  if (lines.length === 0) {
    throw new UsageError(told.length > 0 ? told.join('\n') : `${file}: nothing to read in it.`);
  }
  for (const line of told) io.err(`${line}\n`);
  if (troubles.length > 0) io.exit(1);
  const result = backtest(lines, { from: flags.from, priors: flags.priors === true ? storedPriors() : null });
  if (flags.predictions !== undefined) await writePredictions(flags.predictions, result.predictions);
  if (flags.json === true) {
    const left = troubles.map(({ line, problem }) => ({ line, error: problem }));
    await io.out(
      `${JSON.stringify({ ...result.summary, priors: result.priors, ...(left.length > 0 ? { leftOut: left } : {}) })}\n`,
    );
  } else
    await io.out(
      `${backtestLines(result)
        .map((text) => wrapped(text, io.width))
        .join('\n')}\n`,
    );
}

async function writePredictions(file: string, predictions: readonly object[]): Promise<void> {
  const text = predictions.map((prediction) => `${JSON.stringify(prediction)}\n`).join('');
  await writeFile(file, text).catch((error: unknown) => {
    throw new UsageError(`${file} cannot be written (${error instanceof Error ? error.message : String(error)}).`);
  });
}
