import { writeFile } from 'node:fs/promises';
import type { Command } from 'commander';
import { UsageError, type Io } from '../io.ts';
import { libraryInUse } from '../overlays.ts';
import { withStore } from '../with-store.ts';

interface Options {
  readonly out?: string;
}

/** `edgeledger report KIND ID`: a printed page from the store, as words or as PDF. */
export function register(program: Command, io: Io): void {
  program
    .command('report')
    .description(
      'a printed page: reading (a protocol), season or targets (a skater), content (a layout), day (an event)',
    )
    .argument('<kind>', 'reading, season, targets, content, day')
    .argument('<id>', 'id of the record it is about')
    .option('--out <file.pdf>', 'write it as PDF; without it the words are printed')
    .action((kind: string, id: string, options: Options) =>
      withStore(io, async ({ connection, room }) => {
        const { REPORT_KINDS, reportPage, ServerError } = await import('../../server/index.ts');
        const known = REPORT_KINDS.find((k) => k === kind);
        if (known === undefined) throw new UsageError(`found "${kind}"; expected one of ${REPORT_KINDS.join(', ')}.`);
        const now = () => new Date().toISOString();
        const page = await reportPage(known, id, {
          store: room.recordStore(connection, now),
          now,
          library: libraryInUse(),
        }).catch((error: unknown) => {
          throw error instanceof ServerError ? new UsageError(`${error.message} ${error.detail}`) : error;
        });
        const { pdfOf, wordsOf } = await import('../../report/index.ts');
        if (options.out === undefined) await io.out(`${wordsOf(page)}\n`);
        else {
          await writeFile(options.out, await pdfOf([page]));
          await io.out(`${options.out} is written.\n`);
        }
      }),
    );
}
