import { sameElement, type Element, type JumpElement } from '../notation/index.ts';

/** How a skated element differs in content from the planned one. */
export type ContentChange = 'missing-partner' | 'fewer-turns' | 'other';

/** Null where both are the same element; calls and levels are left aside. */
export function contentChange(planned: Element, skated: Element): ContentChange | null {
  if (sameElement(planned, skated)) return null;
  if (planned.kind !== 'jump' || skated.kind !== 'jump') return 'other';
  if (skated.jumps.length < planned.jumps.length) return 'missing-partner';
  return turnsOf(skated) < turnsOf(planned) ? 'fewer-turns' : 'other';
}

const turnsOf = (element: JumpElement): number => element.jumps.reduce((sum, jump) => sum + jump.turns, 0);
