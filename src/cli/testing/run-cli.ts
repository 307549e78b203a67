import type { ExitCode, Io } from '../io.ts';
import { run } from '../run.ts';

export interface CliRun {
  readonly out: string;
  readonly err: string;
  readonly code: ExitCode;
}

/** Runs one command line in this process, with `input` as standard input, and collects what it says. */
export async function runCli(
  words: readonly string[],
  input: string | Uint8Array = '',
  env: Io['env'] = {},
): Promise<CliRun> {
  const said = { out: '', err: '', code: 0 as ExitCode };
  const io: Io = {
    // eslint-disable-next-line @typescript-eslint/require-await
    input: async function* () {
      yield typeof input === 'string' ? Buffer.from(input) : input;
    },
    out: (text) => {
      said.out += text;
      return Promise.resolve();
    },
    err: (text) => void (said.err += text),
    colour: false,
    width: 80,
    env,
    exit: (code) => {
      if (code > said.code) said.code = code;
    },
  };
  await run(words, io);
  return said;
}
