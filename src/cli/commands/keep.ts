import { readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import path from 'node:path';
import type { Command } from 'commander';
import { describeProblem } from '../../notation/index.ts';
import { UsageError, type Io } from '../io.ts';
import { withStore, type OpenStore } from '../with-store.ts';

/** `export`, `backup`, `restore`, `demo`: the store as a file, and the invented season. */
export function register(program: Command, io: Io): void {
  program
    .command('export')
    .description('everything in the store as one file of JSON Lines, to standard output')
    .action(() =>
      withStore(io, async ({ connection, room }) => {
        for await (const line of room.exportLines(connection)) await io.out(line);
      }),
    );
  program
    .command('backup')
    .description('everything into a file, verified by restoring it beside the store')
    .argument('<file>', 'the file to write')
    .action((file: string) =>
      withStore(io, async ({ connection, room }) => {
        const lines: string[] = [];
        for await (const line of room.exportLines(connection)) lines.push(line);
        const text = lines.join('');
        const counted = await trial(room, text);
        await writeWhole(file, text);
        await io.out(`${file}: ${counted.records} records and ${counted.sheets} sheets, verified by restoring them.\n`);
      }),
    );
  program
    .command('restore')
    .description('replaces everything in the store by a backup; all or nothing')
    .argument('<file>', 'a file made by backup or export')
    .action((file: string) =>
      withStore(io, async ({ connection, room }) => {
        const text = await readFile(file, 'utf8').catch(() => {
          throw new UsageError(`${file}: cannot be opened; check the path. Nothing was changed.`);
        });
        const done = await room.importText(connection, text);
        if (!done.ok) throw new UsageError(`${file}, ${describeProblem(done.error)}`);
        await io.out(`${done.value.records} records and ${done.value.sheets} sheets are back.\n`);
        const { loose } = done.value;
        if (loose.length > 0)
          io.err(`${file}: ${loose.length} references lead nowhere, the first in ${loose[0] ?? ''}.\n`);
      }),
    );
  program
    .command('demo')
    .description('loads the invented demo season beside what is there')
    .action(() =>
      withStore(io, async ({ connection, room }) => {
        const { loadDemo } = await import('../../server/index.ts');
        await loadDemo(
          room.recordStore(connection, () => new Date().toISOString()),
          room.sheetStore(connection),
        );
        await io.out('The demo season is in the store: edgeledger serve opens it.\n');
      }),
    );
}

/** Written beside and moved, so that a full disk never leaves half a backup under the good name. */
async function writeWhole(file: string, text: string): Promise<void> {
  const found = await stat(file).catch(() => null);
  if (found?.isDirectory() === true) {
    throw new UsageError(`${file}: is a folder; name a file in it, such as ${path.join(file, 'season.jsonl')}.`);
  }
  const part = `${file}.part`;
  try {
    // Names of children: for the person whose machine it is.
    await writeFile(part, text, { flag: 'w', mode: 0o600 });
    await rename(part, file);
  } catch (error) {
    await rm(part, { force: true }).catch(() => undefined);
    const why = error instanceof Error ? error.message : String(error);
    throw new UsageError(`${file}: cannot be written (${why}). No backup was made; check the path and the space left.`);
  }
}

/** Restores into an empty store of its own, to prove that the text is whole. */
async function trial(room: OpenStore['room'], text: string): Promise<{ records: number; sheets: number }> {
  const empty = await room.connect(':memory:');
  try {
    const done = await room.importText(empty, text);
    if (!done.ok) throw new UsageError(`The backup could not be verified: ${describeProblem(done.error)}`);
    return done.value;
  } finally {
    await empty.close();
  }
}
