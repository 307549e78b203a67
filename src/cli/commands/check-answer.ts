import { ok, type Result } from '../../notation/index.ts';
import {
  changesJson,
  changesText,
  checkJson,
  checkLayout,
  checkText,
  layoutChanges,
  rulesFor,
  seasonAfter,
} from '../../programs/index.ts';
import { libraryInUse } from '../overlays.ts';
import { readLayout, type Layout } from '../../scoring/index.ts';
import type { Answer } from '../answer-each.ts';
import type { CheckOptions } from './check.ts';

/** Answers `check` for one layout. */
export function answerCheck(value: unknown, options: CheckOptions): Result<Answer> {
  const layout = readLayout(value);
  if (!layout.ok) return layout;
  const elsewhere = options.season !== undefined || options.nextSeason === true;
  return elsewhere ? answerChanges(layout.value, options) : answerPlain(layout.value, options);
}

function answerPlain(layout: Layout, { rulebook, as }: CheckOptions): Result<Answer> {
  const rules = rulesFor(libraryInUse(), layout, { rulebook, as });
  if (!rules.ok) return rules;
  const result = checkLayout(layout, rules.value);
  if (!result.ok) return result;
  return ok({
    json: checkJson(result.value),
    text: () => checkText(result.value),
    act: result.value.legal === false,
  });
}

function answerChanges(layout: Layout, { rulebook, as, season }: CheckOptions): Result<Answer> {
  const library = libraryInUse();
  const before = rulesFor(library, layout, { rulebook });
  if (!before.ok) return before;
  const wanted = season === undefined ? seasonAfter(before.value.content.season) : ok(season);
  if (!wanted.ok) return wanted;
  const after = rulesFor(library, layout, { as, season: wanted.value });
  if (!after.ok) return after;
  const result = layoutChanges(layout, before.value, after.value);
  if (!result.ok) return result;
  return ok({
    json: changesJson(result.value),
    text: () => changesText(result.value),
    act: result.value.after.legal === false,
  });
}
