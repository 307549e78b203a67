/** What a command may touch of the world outside. Tests hand in their own. */
export interface Io {
  /** Standard input as bytes. */
  readonly input: () => AsyncIterable<Uint8Array>;
  /** Writes to standard output and waits until the reader keeps up. */
  readonly out: (text: string) => Promise<void>;
  /** Writes to standard error. */
  readonly err: (text: string) => void;
  /** Colour is wanted: the output is a terminal and nobody objects. */
  readonly colour: boolean;
  /** Columns of the output. */
  readonly width: number;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Raises the exit code; it never falls. 1: something to act on. 2: bad usage or nothing readable. */
  readonly exit: (code: ExitCode) => void;
}

export type ExitCode = 0 | 1 | 2;

/** Bad usage found by a command: the message goes to standard error, the exit code is 2. */
export class UsageError extends Error {}

const DEFAULT_WIDTH = 80;

/** The real world: this process. A reader that goes away (`| head`) ends the run quietly. */
export function processIo(process: NodeJS.Process): Io & { readonly code: () => ExitCode } {
  let code: ExitCode = 0;
  const quietly = (error: NodeJS.ErrnoException): void => {
    if (error.code === 'EPIPE') process.exit(code);
    throw error;
  };
  process.stdout.on('error', quietly);
  process.stderr.on('error', quietly);
  return {
    input: () => process.stdin,
    out: (text) => written(process.stdout, text),
    err: (text) => void process.stderr.write(text),
    colour: process.stdout.isTTY && process.env.NO_COLOR === undefined && process.env.TERM !== 'dumb',
    width: process.stdout.isTTY ? process.stdout.columns : DEFAULT_WIDTH,
    env: process.env,
    exit: (wanted) => {
      if (wanted > code) code = wanted;
    },
    code: () => code,
  };
}

function written(stream: NodeJS.WriteStream, text: string): Promise<void> {
  if (stream.write(text)) return Promise.resolve();
  return new Promise((resolve) => stream.once('drain', resolve));
}
