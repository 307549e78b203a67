import { readFileSync } from 'node:fs';

import { Command, CommanderError } from 'commander';

import { COMMANDS } from './commands/index.ts';
import { UsageError, type Io } from './io.ts';
import { useOverlays } from './overlays.ts';
import { guarded } from './terminal.ts';

/**
 * Runs one command line, without the names of program and file: `run(['audit', 'sheet.json'], io)`.
 * Never throws; what went wrong is said in one message on standard error.
 */
export async function run(words: readonly string[], world: Io): Promise<void> {
  const io = guarded(world);
  try {
    await programFor(io).parseAsync([...words], { from: 'user' });
  } catch (error) {
    refuse(error, io);
  }
}

function programFor(io: Io): Command {
  const program = new Command('edgeledger')
    .description("Every hundredth of a skater's score accounted for, and the next program planned from it.")
    .version(version())
    .exitOverride()
    .showHelpAfterError('(add --help for what this command takes)')
    .configureOutput({ writeOut: (text) => void io.out(text), writeErr: (text) => io.err(text) });
  program.option('--rulebooks <folder>', 'a folder with rulebook files of your own').hook('preAction', () => {
    const { rulebooks } = program.opts<{ rulebooks?: string }>();
    return useOverlays(io, rulebooks);
  });
  for (const command of COMMANDS) command.register(program, io);
  return program;
}

function version(): string {
  const { version: found }: { version?: string } = JSON.parse(
    readFileSync(new URL('../../package.json', import.meta.url), 'utf8'),
  ) as { version?: string };
  return found ?? 'unknown';
}

function refuse(error: unknown, io: Io): void {
  if (error instanceof CommanderError) {
    // Help and version are asked for; the rest is bad usage that commander has already described.
    if (error.exitCode !== 0) io.exit(2);
    return;
  }
  io.exit(2);
  if (error instanceof UsageError) io.err(`${error.message}\n`);
  else io.err(`edgeledger stopped on a fault of its own: ${error instanceof Error ? error.message : String(error)}\n`);
}
