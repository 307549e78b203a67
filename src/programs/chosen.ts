import { fail, ok, parseCategory, parseSeason, type Result } from '../notation/index.ts';
import { chooseRules, type ChosenRules, type Library, type RuleQuery } from '../rulebook/index.ts';
import type { Layout } from '../scoring/index.ts';

/** What may be asked instead of what the form says. */
export interface RuleOverride {
  readonly rulebook?: string | undefined;
  /** `BODY/CATEGORY`, e.g. `isu/advanced novice women`; the category alone where the form names the body. */
  readonly as?: string | undefined;
  readonly season?: string | undefined;
}

const queryOf = (form: Layout): RuleQuery => ({
  rulebook: form.rulebook ?? undefined,
  body: form.body ?? undefined,
  season: form.season ?? undefined,
  date: form.date ?? undefined,
  category: form.category ?? undefined,
  segment: form.segment ?? undefined,
});

const notAsCategory = (as: string) =>
  fail({
    code: 'programs.as',
    at: '--as',
    found: `“${as}”`,
    expected: 'BODY/CATEGORY, such as isu/advanced novice women, or a category of the body that the form names',
    advice: 'Name the issuing body, a slash, and the category.',
  });

/** Without a body before the slash the form's own is meant, named or that of its rulebook (`isu/2025-26`). */
function queryAs(query: RuleQuery, as: string): Result<RuleQuery> {
  const slash = as.indexOf('/');
  const category = parseCategory(as.slice(slash + 1));
  const body = slash < 0 ? (query.body ?? query.rulebook?.split('/')[0]) : as.slice(0, slash);
  if (body === undefined || body === '' || !category.ok) return notAsCategory(as);
  return ok({ ...query, rulebook: undefined, body, category: category.value });
}

/** The rules for a layout or inventory: as the form says, unless something else is asked. */
export function rulesFor(library: Library, form: Layout, override: RuleOverride = {}): Result<ChosenRules> {
  const own = queryOf(form);
  const asked = override.as === undefined ? ok(own) : queryAs(own, override.as);
  if (!asked.ok) return asked;
  const season = override.season === undefined ? {} : { season: override.season, date: undefined, rulebook: undefined };
  const rulebook = override.rulebook === undefined ? {} : { rulebook: override.rulebook };
  return chooseRules(library, { ...asked.value, ...season, ...rulebook });
}

/** The season after this one: 2025/26 -> 2026/27. */
export function seasonAfter(season: string): Result<string> {
  const parsed = parseSeason(season);
  if (!parsed.ok) return parsed;
  const year = Number(parsed.value.slice(0, 4)) + 1;
  return ok(`${year}/${String((year + 1) % 100).padStart(2, '0')}`);
}
