import type { ParsedCode } from '../notation/index.ts';
import type { ChosenRules } from '../rulebook/index.ts';
import type { LayoutElement } from '../scoring/index.ts';

interface PlannedEntry {
  readonly entry: LayoutElement;
  readonly parsed: ParsedCode;
}

/**
 * Which planned elements count on the second-half bonus: `half` as written, else by `start`, among the
 * last jump elements that the season rewards. Null (as printed) where the whole layout is silent or
 * the rules of the segment do not say; in a layout that speaks of halves, silence means first half.
 */
export function plannedHalves(entries: readonly PlannedEntry[], rules: ChosenRules): (boolean | null)[] {
  if (entries.every((one) => one.entry.half === null && one.entry.start === null && !one.parsed.half))
    return entries.map(() => null);
  const rewarded = rewardedPlaces(entries, rules);
  const middle = middleOf(rules);
  return entries.map(({ entry, parsed }, place) => {
    if (parsed.element.kind !== 'jump') return null;
    if (entry.half !== null) return entry.half;
    if (parsed.half) return true;
    if (entry.start === null) return false;
    if (rewarded === null || middle === null) return null;
    return entry.start >= middle && rewarded.has(place);
  });
}

/** Half of the required time in seconds; null where it is not known. */
function middleOf(rules: ChosenRules): number | null {
  const seconds = rules.content.content(rules.category, rules.segment)?.duration.seconds ?? null;
  return seconds === null ? null : seconds / 2;
}

/** Places of the last jump elements that may earn the bonus; null where the number is not known. */
function rewardedPlaces(entries: readonly PlannedEntry[], rules: ChosenRules): ReadonlySet<number> | null {
  const last = rules.content.content(rules.category, rules.segment)?.bonusLast ?? null;
  if (last === null) return null;
  const jumps = entries.flatMap(({ parsed }, place) => (parsed.element.kind === 'jump' ? [place] : []));
  if (last === 'all') return new Set(jumps);
  return new Set(last === 0 ? [] : jumps.slice(-last));
}
