import { describeProblem, type Result } from '../notation/index.ts';
import { UsageError, type Io } from './io.ts';
import { readValues, type OtherReader } from './values.ts';

/** At most this many lines of trouble are told. */
const TOLD = 5;

/**
 * All values of a side file (a layout, a history), held at once. A line that cannot be read is told on
 * standard error and passed over (exit 1); none readable is bad usage.
 */
export async function allValues<T>(
  file: string,
  io: Io,
  reader: (value: unknown) => Result<T>,
  other?: OtherReader,
): Promise<readonly T[]> {
  const found: T[] = [];
  const troubles: string[] = [];
  for await (const { line, read } of readValues(file, io, other)) {
    const value = read.ok ? reader(read.value) : read;
    if (value.ok) found.push(value.value);
    else troubles.push(`${file}, line ${line}: ${describeProblem(value.error)}`);
  }
  if (found.length === 0)
    throw new UsageError(
      troubles.length === 0 ? `${file}: nothing to read in it.` : troubles.slice(0, TOLD).join('\n'),
    );
  for (const trouble of troubles.slice(0, TOLD)) io.err(`${trouble}\n`);
  if (troubles.length > 0) io.exit(1);
  return found;
}
