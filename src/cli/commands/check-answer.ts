import { storedPriors } from '../../forecast/index.ts';
import { ok, type Result } from '../../notation/index.ts';
import {
  changesJson,
  changesText,
  checkJson,
  checkLayout,
  checkText,
  layoutChanges,
  moveLines,
  moveTo,
  noRulesText,
  rulesFor,
  seasonAfter,
  type Move,
} from '../../programs/index.ts';
import type { ChosenRules } from '../../rulebook/index.ts';
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
  const move = as === undefined ? null : moveFrom(layout, rules.value, rulebook);
  return ok({
    json: { ...checkJson(result.value), ...(move === null ? {} : { move }) },
    text: () => [checkText(result.value), ...(move === null ? [] : moveLines(move))].join('\n'),
    act: result.value.legal === false,
  });
}

/** What the other category means for the layout; null where its own rules cannot be told. */
function moveFrom(layout: Layout, rules: ChosenRules, rulebook: string | undefined): Move | null {
  const own = rulesFor(libraryInUse(), layout, { rulebook });
  if (!own.ok) return null;
  const moved = moveTo(layout, own.value, rules, MOVE);
  return moved.ok ? moved.value : null;
}

/** A layout is taken as it stands: nothing is searched. */
const MOVE = {
  objective: { kind: 'expected' },
  date: null,
  evidence: { history: [], rulesOf: () => null, priors: storedPriors() },
  shouldStop: () => false,
} as const;

function answerChanges(layout: Layout, { rulebook, as, season }: CheckOptions): Result<Answer> {
  const library = libraryInUse();
  const before = rulesFor(library, layout, { rulebook });
  if (!before.ok) return before;
  const wanted = season === undefined ? seasonAfter(before.value.content.season) : ok(season);
  if (!wanted.ok) return wanted;
  const after = rulesFor(library, layout, { as, season: wanted.value });
  if (!after.ok) return after;
  if (after.value.content.season !== wanted.value && sameRules(before.value, after.value)) {
    return answerNone(layout, before.value, wanted.value);
  }
  const result = layoutChanges(layout, before.value, after.value);
  if (!result.ok) return result;
  return ok({
    json: changesJson(result.value),
    text: () => changesText(result.value),
    act: result.value.after.legal === false,
  });
}

const sameRules = (a: ChosenRules, b: ChosenRules): boolean =>
  a.id === b.id && a.content.id === b.content.id && a.category === b.category;

/**
 * The season asked for has no rules here, and the nearest ones are those of the layout itself: nothing is
 * compared, which is said rather than "nothing changes".
 */
function answerNone(layout: Layout, rules: ChosenRules, season: string): Result<Answer> {
  const result = layoutChanges(layout, rules, rules);
  if (!result.ok) return result;
  return ok({
    json: { ...changesJson(result.value), missing: season },
    text: () => noRulesText(result.value, season),
    act: result.value.after.legal === false,
  });
}
