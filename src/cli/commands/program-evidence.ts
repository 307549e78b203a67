import { storedPriors, timeOf, type Evidence } from '../../forecast/index.ts';
import { chooseRules } from '../../rulebook/index.ts';
import type { Layout } from '../../scoring/index.ts';
import { readEarlier } from '../earlier-protocols.ts';
import type { Io } from '../io.ts';
import { libraryInUse } from '../overlays.ts';

/** Evidence for one layout or inventory: her own earlier protocols out of a history. */
export type EvidenceFor = (form: Layout) => Evidence;

/** Reads a history once; without one the learnt parts of a model rest on the stored rates alone. */
export async function evidenceFrom(history: string | undefined, io: Io): Promise<EvidenceFor> {
  const earlier = history === undefined ? null : await readEarlier(history, io);
  for (const warning of earlier?.warnings ?? []) io.err(`${warning}\n`);
  const library = libraryInUse();
  return (form) => {
    const own = (earlier?.protocols ?? []).filter(
      (p) =>
        (form.skater === null || p.skater === form.skater) &&
        (form.date === null || p.date === null || p.date < form.date),
    );
    return {
      history: [...own].sort((a, b) => (timeOf(a) ?? 0) - (timeOf(b) ?? 0)),
      priors: storedPriors(),
      rulesOf: ({ rulebook, body, season, date, category, segment }) => {
        const chosen = chooseRules(library, {
          rulebook: rulebook ?? undefined,
          body: body ?? undefined,
          season: season ?? undefined,
          date: date ?? undefined,
          category: category ?? undefined,
          segment: segment ?? undefined,
        });
        return chosen.ok ? chosen.value : null;
      },
    };
  };
}
