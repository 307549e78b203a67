import { formatElement, parseCode, type Element } from '../notation/index.ts';
import type { ProgramElement, SkatedOutcome } from './exact/program.ts';
import { LEVEL_NAMES } from './learn/priors.ts';
import { levelName } from './learn/level-status.ts';

/** Rank of the level of a spin or sequence without `V`; -1 for everything else. */
const levelRank = (element: Element): number =>
  element.kind === 'jump' || (element.kind === 'spin' && element.v > 0) ? -1 : LEVEL_NAMES.indexOf(levelName(element));

/**
 * Which outcomes are the element as planned: its content and level, without call or fall. A code without
 * a level plans the highest that is modelled.
 */
export function asPlanned({ code, outcomes }: Pick<ProgramElement, 'code' | 'outcomes'>): readonly boolean[] {
  const parsed = parseCode(code);
  const wanted = parsed.ok ? formatElement(parsed.value.element) : code;
  const exact = outcomes.map((o) => !o.fall && formatElement(o.element) === wanted);
  const open = parsed.ok && parsed.value.element.kind !== 'jump' && parsed.value.element.level === null;
  if (exact.includes(true) || !open) return exact;
  const highest = Math.max(...outcomes.map((o) => levelRank(o.element)));
  return outcomes.map((o) => highest >= 0 && !o.fall && levelRank(o.element) === highest);
}

/** Chance, 0 to 1, that an element comes off as planned. */
export function reliabilityOf(element: Pick<ProgramElement, 'code' | 'outcomes'>): number {
  const good = asPlanned(element);
  return element.outcomes.reduce((sum, o, i) => sum + (good[i] === true ? o.p : 0), 0);
}

/**
 * The outcomes with chance `reliability` of coming off as planned: what is planned keeps its
 * proportions, and so does everything else. null where there is nothing to move chance to or from.
 */
export function outcomesAt(
  element: Pick<ProgramElement, 'code' | 'outcomes'>,
  reliability: number,
): readonly SkatedOutcome[] | null {
  const good = asPlanned(element);
  const now = reliabilityOf(element);
  if (now <= 0 || now >= 1) return null;
  return element.outcomes.map((o, i) => ({
    ...o,
    p: good[i] === true ? (o.p * reliability) / now : (o.p * (1 - reliability)) / (1 - now),
  }));
}

/** An element with a stated reliability; as it was where it can only come in one way. */
export function atReliability(element: ProgramElement, reliability: number): ProgramElement {
  const outcomes = outcomesAt(element, reliability);
  return outcomes === null ? element : { ...element, outcomes: outcomes.filter((o) => o.p > 0) };
}
