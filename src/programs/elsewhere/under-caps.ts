import { formatElement, parseCode, type Element } from '../../notation/index.ts';
import type { Inventory, Layout, LayoutElement } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';

/** An inventory as another category would call it, and the planned codes that count as less there. */
export interface UnderCaps {
  readonly inventory: Inventory;
  readonly lowered: readonly string[];
}

/** An element at the highest level that counts in the category, where its own is above it. */
export function underCap(element: Element, { chosen }: SegmentRules): Element {
  if (element.kind !== 'spin' && element.kind !== 'steps') return element;
  const rules = element.kind === 'spin' ? chosen.levels.spins(chosen.category) : chosen.levels.steps(chosen.category);
  const { cap } = rules;
  if (typeof element.level !== 'number' || (cap !== 1 && cap !== 2 && cap !== 3) || element.level <= cap)
    return element;
  return { ...element, level: cap };
}

/** The same for a code; one that cannot be read, or counts as it is, stays as written. */
function lower(code: string, rules: SegmentRules): string {
  const parsed = parseCode(code);
  if (!parsed.ok) return code;
  const { element } = parsed.value;
  const capped = underCap(element, rules);
  return capped === element ? code : formatElement(capped);
}

const elementsUnder = (elements: readonly LayoutElement[], to: (code: string) => string): readonly LayoutElement[] =>
  elements.map((e) => ({
    ...e,
    code: to(e.code),
    outcomes: e.outcomes?.map((o) => ({ ...o, code: to(o.code) })) ?? null,
  }));

/** A layout as another category would call it: levels above its cap count as the cap. */
export const layoutUnderCaps = (layout: Layout, rules: SegmentRules): Layout => ({
  ...layout,
  elements: elementsUnder(layout.elements, (code) => lower(code, rules)),
});

/** Features above the cap of a category are ignored: levels above it count as the cap, in plans and outcomes. */
export function underCaps(inventory: Inventory, rules: SegmentRules): UnderCaps {
  const to = (code: string): string => lower(code, rules);
  const { must, never } = inventory.constraints;
  return {
    inventory: {
      ...inventory,
      elements: elementsUnder(inventory.elements, to),
      constraints: { ...inventory.constraints, must: must.map(to), never: never.map(to) },
    },
    lowered: inventory.elements.flatMap(({ code }) => (to(code) === code ? [] : [`${code} as ${to(code)}`])),
  };
}
