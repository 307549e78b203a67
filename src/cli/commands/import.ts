import { randomUUID } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { Command } from 'commander';
import { readProtocol, type Protocol } from '../../scoring/index.ts';
import type { RecordOf, SheetStore, Store } from '../../store/index.ts';
import { UsageError, type Io } from '../io.ts';
import { libraryInUse } from '../overlays.ts';
import { withStore } from '../with-store.ts';

interface Options {
  readonly skater?: string;
}

/** `edgeledger import FILE…`: reads sheets and keeps those of the coach's own skaters, with their originals. */
export function register(program: Command, io: Io): void {
  program
    .command('import')
    .description('read sheets and keep those of your own skaters, with the originals')
    .argument('<files...>', 'PDF, web page, text, table, photograph')
    .option('--skater <name>', 'keep the sheets of this skater, adding her if she is new')
    .action((files: string[], options: Options) =>
      withStore(io, async ({ connection, room }) => {
        const store = room.recordStore(connection, () => new Date().toISOString());
        const sheets = room.sheetStore(connection);
        for (const file of files) await importFile(io, file, options.skater ?? null, store, sheets);
      }),
    );
}

async function importFile(
  io: Io,
  file: string,
  wanted: string | null,
  store: Store,
  sheets: SheetStore,
): Promise<void> {
  const bytes = await readFile(file).catch(() => {
    throw new UsageError(`${file}: cannot be opened; check the path.`);
  });
  const { sheetReader } = await import('../../server/index.ts');
  const read = await sheetReader(libraryInUse())(
    bytes,
    path.basename(file),
    () => undefined,
    new AbortController().signal,
  );
  if (read.protocols.length === 0)
    throw new UsageError(`${file}: ${read.problems[0] ?? 'no protocol was found in it'}`);
  const protocols = read.protocols.flatMap(({ form, doubts }) => {
    const protocol = readProtocol(form);
    return protocol.ok ? [{ form, doubts: doubts.length, protocol: protocol.value }] : [];
  });
  const known = await store.list('skaters');
  const alone = protocols.length === 1;
  let kept = 0;
  for (const { form, doubts, protocol } of protocols) {
    const skater = await skaterFor(protocol, known, wanted, alone, store);
    if (skater === null) continue;
    if (doubts > 0) {
      io.exit(1);
      await io.out(
        `${file}: ${skater.name} has ${doubts} figures in doubt and was not kept; settle them in the app under Add a sheet.\n`,
      );
      continue;
    }
    const sheetId = await keepSheet(sheets, bytes, path.basename(file));
    await store.put('protocols', [await recordOf(protocol, form, skater, sheetId, store)]);
    kept += 1;
  }
  await io.out(`${file}: ${kept} of ${protocols.length} kept.\n`);
}

type Skater = RecordOf<'skaters'>;

/** A skater of the store with that name; a sheet of one skater may add her, a field never does. */
async function skaterFor(
  protocol: Protocol,
  known: readonly Skater[],
  wanted: string | null,
  alone: boolean,
  store: Store,
): Promise<Skater | null> {
  const name = protocol.skater ?? wanted;
  if (name === null || (wanted !== null && name.toLowerCase() !== wanted.toLowerCase())) return null;
  const match = known.find((s) => s.name.toLowerCase() === name.toLowerCase());
  if (match !== undefined) return match;
  if (!alone && wanted === null) return null;
  const skater: Skater = {
    id: randomUUID(),
    name,
    category: protocol.category ?? 'novice women',
    body: protocol.body,
    nextLesson: null,
    notNow: [],
    archived: false,
  };
  await store.put('skaters', [skater]);
  return skater;
}

const keepSheet = (sheets: SheetStore, bytes: Uint8Array, name: string): Promise<string> =>
  sheets.keepOnce({
    id: randomUUID(),
    name,
    media: 'application/octet-stream',
    bytes,
    receivedAt: new Date().toISOString(),
  });

async function recordOf(
  p: Protocol,
  form: object,
  skater: Skater,
  sheetId: string,
  store: Store,
): Promise<RecordOf<'protocols'>> {
  const segment = p.segment ?? 'free';
  const events = await store.list('competitions');
  const event = events.find((e) => e.name === p.competition);
  return {
    // The same sheet again gives the same record: nothing is kept twice.
    id: `${sheetId}-${skater.id}-${segment}`.slice(0, 80),
    skaterId: skater.id,
    competitionId: event?.id ?? null,
    sheetId,
    category: p.category ?? skater.category,
    segment,
    season: p.season ?? '',
    date: p.date,
    practice: false,
    tes: p.tes,
    pcs: p.pcs,
    total: p.total,
    form: { ...form },
    reader: '1',
    onHerPage: [],
    releasedAt: null,
  };
}
