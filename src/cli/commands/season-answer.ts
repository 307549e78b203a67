import { seasonLines, seasonProgram, seasonView, type SeasonProgram } from '../../season/index.ts';
import { readEarlier, videoOf } from '../earlier-protocols.ts';
import { UsageError, type Io } from '../io.ts';
import { ruleChooser } from '../rules.ts';
import { wrapped } from '../style.ts';
import type { SeasonFlags } from './season.ts';

/** Runs `season` for one skater. */
export async function answerSeason(io: Io, skater: string, flags: SeasonFlags): Promise<void> {
  if (flags.history === undefined) {
    throw new UsageError('season needs her protocols: season SKATER --history FILE.jsonl');
  }
  const { protocols, given, warnings } = await readEarlier(flags.history, io);
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
    throw new UsageError(
      `${flags.history} holds no protocol of “${skater}”. It holds ${known.length} skaters: ${known.slice(0, 8).join(', ')}${known.length > 8 ? ' …' : ''}.`,
    );
  }
  const view = seasonView(skater, programs, { targets: flags.target, events: flags.events });
  if (flags.json === true) await io.out(`${JSON.stringify(view)}\n`);
  else
    await io.out(
      `${seasonLines(view)
        .map((line) => (line === '' ? '' : wrapped(line, io.width)))
        .join('\n')}\n`,
    );
}
