import { formatElement, parseCode } from '../../notation/index.ts';
import type { Inventory } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';

/** An inventory as another category would call it, and the planned codes that count as less there. */
export interface UnderCaps {
  readonly inventory: Inventory;
  readonly lowered: readonly string[];
}

/** A code with the highest level that counts in the category, where its own is above it. */
function lower(code: string, { chosen }: SegmentRules): string {
  const parsed = parseCode(code);
  if (!parsed.ok) return code;
  const { element } = parsed.value;
  if (element.kind !== 'spin' && element.kind !== 'steps') return code;
  const rules = element.kind === 'spin' ? chosen.levels.spins(chosen.category) : chosen.levels.steps(chosen.category);
  const { cap } = rules;
  if (typeof element.level !== 'number' || (cap !== 1 && cap !== 2 && cap !== 3) || element.level <= cap) return code;
  return formatElement({ ...element, level: cap });
}

/** Features above the cap of a category are ignored: levels above it count as the cap, in plans and outcomes. */
export function underCaps(inventory: Inventory, rules: SegmentRules): UnderCaps {
  const to = (code: string): string => lower(code, rules);
  const { must, never } = inventory.constraints;
  return {
    inventory: {
      ...inventory,
      elements: inventory.elements.map((e) => ({
        ...e,
        code: to(e.code),
        outcomes: e.outcomes?.map((o) => ({ ...o, code: to(o.code) })) ?? null,
      })),
      constraints: { ...inventory.constraints, must: must.map(to), never: never.map(to) },
    },
    lowered: inventory.elements.flatMap(({ code }) => (to(code) === code ? [] : [`${code} as ${to(code)}`])),
  };
}
