import type { Result } from '../notation/index.ts';
import { chooseRules, type ChosenRules, type Library, type Rulebook, type RuleQuery } from '../rulebook/index.ts';
import { UsageError } from './io.ts';
import { libraryInUse } from './overlays.ts';

/** What a form says about its rules; null where it is silent. */
interface RuleHints {
  readonly rulebook: string | null;
  readonly body: string | null;
  readonly season: string | null;
  readonly date: string | null;
  readonly category: string | null;
  readonly segment: 'short' | 'free' | null;
}

/** Chooses rules for one form after another; the same hints are answered from memory. */
export interface RuleChooser {
  readonly library: Library;
  choose(hints: RuleHints): Result<ChosenRules>;
}

/** Kept choices; a file has a handful of different headings, dates apart. */
const REMEMBERED = 500;

/**
 * `--rulebook ID`, else the form's own `rulebook`, else chosen from body, season or date, category and
 * segment. An unknown `--rulebook` is bad usage.
 */
export function ruleChooser(wanted: string | undefined, library: Library = libraryInUse()): RuleChooser {
  if (wanted !== undefined && library.rulebook(wanted) === undefined) {
    throw new UsageError(`No rulebook is called “${wanted}”. There are: ${library.list().join(', ')}.`);
  }
  const kept = new Map<string, Result<ChosenRules>>();
  return {
    library,
    choose(hints) {
      const query = queryOf(hints, wanted);
      const key = JSON.stringify(query);
      const chosen = kept.get(key) ?? chooseRules(library, query);
      if (kept.size > REMEMBERED) kept.clear();
      kept.set(key, chosen);
      return chosen;
    },
  };
}

const queryOf = (hints: RuleHints, wanted: string | undefined): RuleQuery => ({
  rulebook: wanted ?? hints.rulebook ?? undefined,
  body: hints.body ?? undefined,
  season: hints.season ?? undefined,
  date: hints.date ?? undefined,
  category: hints.category ?? undefined,
  segment: hints.segment ?? undefined,
});

/** The rulebooks of the same body for other seasons, the nearest first. */
export function otherSeasons(library: Library, rulebook: Rulebook): readonly Rulebook[] {
  return library
    .list()
    .flatMap((id) => library.rulebook(id) ?? [])
    .filter((other) => other.body === rulebook.body && other.season !== rulebook.season)
    .sort((a, b) => distance(a, rulebook) - distance(b, rulebook));
}

const distance = (a: Rulebook, b: Rulebook): number => Math.abs(parseInt(a.season, 10) - parseInt(b.season, 10));
