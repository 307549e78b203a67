import { randomUUID } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { Command } from 'commander';
import { describeProblem } from '../../notation/index.ts';
import { readProtocol, type Protocol } from '../../scoring/index.ts';
import type { SheetRead } from '../../intake/index.ts';
import type { RecordOf, SheetStore, Store } from '../../store/index.ts';
import type { Io } from '../io.ts';
import { libraryInUse } from '../overlays.ts';
import { withStore } from '../with-store.ts';

interface Options {
  readonly skater?: string;
  readonly keepFile?: boolean;
}

/** `edgeledger import FILE…`: reads sheets and keeps those of the coach's own skaters. */
export function register(program: Command, io: Io): void {
  program
    .command('import')
    .description('read sheets and keep those of your own skaters; a file of hers alone is kept with them')
    .argument('<files...>', 'PDF, web page, text, table, photograph')
    .option('--skater <name>', 'keep the sheets of this skater, adding her if she is new')
    .option('--keep-file', 'keep the file as it came even where it names skaters who are not yours')
    .action((files: string[], options: Options) =>
      withStore(io, async ({ connection, room }) => {
        const store = room.recordStore(connection, () => new Date().toISOString());
        const sheets = room.sheetStore(connection);
        // One file after another: what is wrong with one keeps none of the others away.
        for (const file of files) await importFile(io, file, options, store, sheets);
      }),
    );
}

async function importFile(io: Io, file: string, options: Options, store: Store, sheets: SheetStore): Promise<void> {
  const refuse = (why: string): void => {
    io.exit(2);
    io.err(`${file}: ${why}\n`);
  };
  const bytes = await readFile(file).catch(() => null);
  if (bytes === null) {
    refuse('cannot be opened; check the path. Nothing of it was kept.');
    return;
  }
  const { sheetReader } = await import('../../server/index.ts');
  const name = path.basename(file);
  const read = await sheetReader(libraryInUse())(bytes, name, () => undefined, new AbortController().signal);
  if (read.protocols.length === 0) {
    refuse(read.problems[0] ?? 'no protocol was found in it.');
    return;
  }
  const { keeping, left } = await sorted(read, options.skater ?? null, store);
  // A file that holds other children's names stays where it came from, unless the coach says otherwise.
  const isHersAlone = left.every(({ kind }) => kind === 'doubt');
  const isKept = keeping.length > 0 && (isHersAlone || options.keepFile === true);
  const { hashOf } = await import('../../store/index.ts');
  // By this the same bytes are known again, whether they themselves are kept or not.
  const hash = hashOf(bytes).slice(0, 32);
  const original = { id: isKept ? await keepSheet(sheets, bytes, name, hash) : hash, kept: isKept };
  const ids = new Set<string>();
  for (const { form, protocol, skater } of keeping) {
    const record = await recordOf(protocol, form, skater, original, store);
    await store.put('skaters', [skater]);
    await store.put('protocols', [{ ...record, id: unusedId(record.id, ids) }]);
  }
  await tell(io, file, keeping.length, left, isKept);
}

async function tell(io: Io, file: string, kept: number, left: readonly Left[], isKept: boolean): Promise<void> {
  await io.out(`${file}: ${kept} of ${kept + left.length} kept.\n`);
  if (left.length === 0) return;
  if (kept === 0 || left.some(({ kind }) => kind !== 'stranger')) io.exit(1);
  // Of a whole field that is not hers one line is enough.
  const told = kept === 0 ? left.slice(0, MOST_TOLD) : left.filter(({ kind }) => kind !== 'stranger');
  for (const { who, why } of told) await io.out(`  ${who}: ${why}\n`);
  if (kept === 0 && left.length > MOST_TOLD) await io.out(`  and ${left.length - MOST_TOLD} more.\n`);
  if (kept > 0 && !isKept) {
    await io.out('  The file names others too, so the file itself was not kept; --keep-file keeps it.\n');
  }
}

const MOST_TOLD = 5;

/** A sheet that was not kept, and why. */
interface Left {
  readonly who: string;
  readonly why: string;
  /** stranger: not one of the coach's skaters, which in a field is as it should be; doubt: hers, not clear. */
  readonly kind: 'stranger' | 'doubt' | 'broken';
}

interface Kept {
  readonly form: object;
  readonly protocol: Protocol;
  readonly skater: Skater;
}

/** Which sheets of a file are kept, and with whom; nothing is written. */
async function sorted(
  read: SheetRead,
  wanted: string | null,
  store: Store,
): Promise<{ keeping: Kept[]; left: Left[] }> {
  // A skater who is added by one sheet of the file is known to the next.
  const known = await everySkater(store);
  const names = new Set(read.protocols.map(({ form }) => nameIn(form).toLowerCase()));
  const isOneSkaters = names.size === 1;
  const keeping: Kept[] = [];
  const left: Left[] = [];
  for (const { form, doubts } of read.protocols) {
    const protocol = readProtocol(form);
    const printed = nameIn(form);
    const who = printed === '' ? (wanted ?? 'a sheet without a name') : printed;
    const leave = (kind: Left['kind'], why: string): void => void left.push({ who, why, kind });
    if (!protocol.ok) {
      leave('broken', describeProblem(protocol.error));
      continue;
    }
    const skater = skaterFor(protocol.value, known, wanted, isOneSkaters);
    if (skater === null) leave('stranger', strangerBecause(protocol.value, wanted));
    else if (doubts.length > 0) {
      leave('doubt', `${doubts.length} figures are in doubt; settle them in the app under Add a sheet.`);
    } else {
      if (!known.includes(skater)) known.push(skater);
      keeping.push({ form, protocol: protocol.value, skater });
    }
  }
  return { keeping, left };
}

function strangerBecause({ skater }: Protocol, wanted: string | null): string {
  if (skater === null) return 'the sheet prints no name that could be read; say whose it is with --skater NAME.';
  return wanted === null
    ? 'not one of your skaters; --skater NAME adds her.'
    : `not ${wanted}, whose sheets were asked for.`;
}

const nameIn = (form: object): string => ('skater' in form && typeof form.skater === 'string' ? form.skater : '');

const PAGE = 1000;

async function everySkater(store: Store): Promise<Skater[]> {
  const all: Skater[] = [];
  for (;;) {
    const last = all.at(-1);
    const after = last === undefined ? undefined : { sort: last.name, id: last.id };
    const page = await store.list('skaters', { limit: PAGE, after });
    all.push(...page);
    if (page.length < PAGE) return all;
  }
}

type Skater = RecordOf<'skaters'>;

/** A skater of the store with that name; a file of one skater may add her, a field never does. */
function skaterFor(
  protocol: Protocol,
  known: readonly Skater[],
  wanted: string | null,
  isOneSkaters: boolean,
): Skater | null {
  const name = protocol.skater ?? wanted;
  if (name === null || (wanted !== null && name.toLowerCase() !== wanted.toLowerCase())) return null;
  const match = known.find((s) => s.name.toLowerCase() === name.toLowerCase());
  if (match !== undefined) return match;
  if (!isOneSkaters && wanted === null) return null;
  return {
    id: randomUUID(),
    name,
    category: protocol.category ?? 'novice women',
    body: protocol.body,
    nextLesson: null,
    notNow: [],
    archived: false,
  };
}

/** A file may hold several free skates of one skater: those after the first are numbered. */
function unusedId(id: string, used: Set<string>): string {
  let free = id;
  for (let no = 2; used.has(free); no += 1) free = `${no}-${id}`.slice(0, 80);
  used.add(free);
  return free;
}

const keepSheet = (sheets: SheetStore, bytes: Uint8Array, name: string, id: string): Promise<string> =>
  sheets.keepOnce({
    id,
    name,
    media: 'application/octet-stream',
    bytes,
    receivedAt: new Date().toISOString(),
  });

async function recordOf(
  p: Protocol,
  form: object,
  skater: Skater,
  original: { readonly id: string; readonly kept: boolean },
  store: Store,
): Promise<RecordOf<'protocols'>> {
  const segment = p.segment ?? 'free';
  const events = await store.list('competitions');
  const event = events.find((e) => e.name === p.competition);
  return {
    // The same sheet again gives the same record: nothing is kept twice.
    id: `${original.id}-${skater.id}-${segment}`.slice(0, 80),
    skaterId: skater.id,
    competitionId: event?.id ?? null,
    sheetId: original.kept ? original.id : null,
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
