import { readProtocol } from '../../scoring/index.ts';
import { seasonLines, seasonProgram, seasonView, type SeasonProgram } from '../../season/index.ts';
import { readEarlier, videoOf } from '../earlier-protocols.ts';
import { UsageError, type Io } from '../io.ts';
import { ruleChooser } from '../rules.ts';
import { wrapped } from '../style.ts';
import { withStore } from '../with-store.ts';
import type { SeasonFlags } from './season.ts';

/** Runs `season` for one skater: from a file of protocols, else from the store. */
export async function answerSeason(io: Io, skater: string, flags: SeasonFlags): Promise<void> {
  const programs =
    flags.history === undefined
      ? await keptPrograms(io, skater, flags)
      : await programsOfFile(io, skater, flags.history, flags);
  const view = seasonView(skater, programs, { targets: flags.target, events: flags.events });
  if (flags.json === true) await io.out(`${JSON.stringify(view)}\n`);
  else
    await io.out(
      `${seasonLines(view)
        .map((line) => (line === '' ? '' : wrapped(line, io.width)))
        .join('\n')}\n`,
    );
}

async function programsOfFile(io: Io, skater: string, history: string, flags: SeasonFlags): Promise<SeasonProgram[]> {
  const { protocols, given, warnings } = await readEarlier(history, io);
  for (const warning of warnings) io.err(`${warning}\n`);
  if (warnings.length > 0) io.exit(1);
  const rules = ruleChooser(flags.rulebook);
  const programs: SeasonProgram[] = [];
  protocols.forEach((protocol, i) => {
    if (protocol.skater !== skater) return;
    const chosen = rules.choose(protocol);
    if (chosen.ok) programs.push(seasonProgram(protocol, chosen.value, i, videoOf(given[i]) ?? 'unknown'));
  });
  if (programs.length === 0) {
    const known = [...new Set(protocols.flatMap((p) => p.skater ?? []))];
    throw new UsageError(`${history} holds no protocol of “${skater}”. ${listed('It holds', known)}`);
  }
  return programs;
}

/** The skater's kept protocols in order of date, mock events left out. */
async function keptPrograms(io: Io, skater: string, flags: SeasonFlags): Promise<SeasonProgram[]> {
  const programs: SeasonProgram[] = [];
  await withStore(io, async ({ connection, room }) => {
    const store = room.recordStore(connection, () => new Date().toISOString());
    const named = (await store.list('skaters', { find: skater })).filter((s) => alike(s.name, skater));
    const who = named.length === 0 ? await store.get('skaters', skater) : named[0];
    if (who == null || named.length > 1) {
      const all = (await store.list('skaters')).map((s) => `${s.name} (${s.id})`);
      throw new UsageError(
        `${named.length > 1 ? 'more than one kept skater is' : 'no kept skater is'} named “${skater}”. ${listed('Kept:', all)} Give the name, the id, or --history FILE.jsonl.`,
      );
    }
    const video = new Map((await store.list('competitions')).map((c) => [c.id, c.video]));
    const rules = ruleChooser(flags.rulebook);
    (await store.list('protocols', { skaterId: who.id }))
      .filter((record) => !record.practice)
      .forEach((record, i) => {
        const protocol = readProtocol({ ...record.form, date: record.date ?? undefined, body: who.body ?? undefined });
        const chosen = protocol.ok ? rules.choose(protocol.value) : protocol;
        if (protocol.ok && chosen.ok) {
          programs.push(
            seasonProgram(protocol.value, chosen.value, i, video.get(record.competitionId ?? '') ?? 'unknown'),
          );
        }
      });
    if (programs.length === 0)
      throw new UsageError(`no protocol of “${skater}” is kept. Add one: edgeledger import FILE.`);
  });
  return programs;
}

const alike = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

const MOST_NAMED = 8;
const listed = (before: string, names: readonly string[]): string =>
  `${before} ${names.length} skaters: ${names.slice(0, MOST_NAMED).join(', ')}${names.length > MOST_NAMED ? ' …' : ''}.`;
