import { fail, ok, parseCode, type Element, type Result } from '../../notation/index.ts';
import type { ChosenRules, ContentRules } from '../../rulebook/index.ts';
import { bonusPlaces, type Layout, type LayoutElement } from '../../scoring/index.ts';
import type { SkatedOutcome } from './program.ts';

/** A planned code, parsed: the element and what its trailing marks say. */
export interface Planned {
  readonly element: Element;
  readonly half: boolean;
}

/** Parses the planned codes; a layout that was read by `readLayout` has none that cannot be parsed. */
export function plannedElements(layout: Layout): Result<readonly Planned[]> {
  const planned: Planned[] = [];
  for (const [i, { code }] of layout.elements.entries()) {
    const parsed = parseCode(code);
    if (!parsed.ok) return fail({ ...parsed.error, at: `elements[${i}].code` });
    planned.push({ element: parsed.value.element, half: parsed.value.half });
  }
  return ok(planned);
}

/**
 * Which elements stand on a place that earns the second-half factor. Where the rulebook does not know
 * how many do, a place that the layout marks outright is taken at its word.
 */
export function bonusOf(
  layout: Layout,
  planned: readonly Planned[],
  content: ContentRules | undefined,
): readonly boolean[] {
  const halves = layout.elements.map((e, i) => e.half ?? (planned[i]?.half === true ? true : null));
  const jumps = planned.map(({ element }) => element.kind === 'jump');
  if (content === undefined || content.bonusLast === null)
    return halves.map((half, i) => half === true && jumps[i] === true);
  const placements = layout.elements.map((e, i) => ({
    isJump: jumps[i] === true,
    half: halves[i] ?? null,
    start: e.start,
  }));
  return bonusPlaces(placements, content);
}

/** The outcomes a layout states for an element; null where it leaves them to the learnt model. */
export function statedOutcomes(
  element: LayoutElement,
  index: number,
  rules: ChosenRules,
): Result<readonly SkatedOutcome[] | null> {
  if (element.outcomes === null) return ok(null);
  const { min, max } = rules.values.values.goe;
  const outcomes: SkatedOutcome[] = [];
  for (const [k, outcome] of element.outcomes.entries()) {
    const at = `elements[${index}].outcomes[${k}]`;
    const parsed = parseCode(outcome.code);
    if (!parsed.ok) return fail({ ...parsed.error, at: `${at}.code` });
    const off = outcome.grades.find(({ grade }) => grade < min || grade > max);
    if (off) return fail(offScale(`${at}.grade`, off.grade, min, max));
    const { p, grades, fall } = outcome;
    outcomes.push({ p, element: parsed.value.element, grades, fall: fall || parsed.value.fall });
  }
  return ok(outcomes);
}

const offScale = (at: string, grade: number, min: number, max: number) => ({
  code: 'forecast.grade',
  at,
  found: String(grade),
  expected: `a panel grade from ${min} to ${max}`,
  advice: 'Correct the grade, or name the season whose scale it belongs to.',
});
