import { formatElement, ok, type Result } from '../../notation/index.ts';
import type { ChosenRules } from '../../rulebook/index.ts';
import type { Inventory } from '../../scoring/index.ts';
import { checkLayout } from '../check/check.ts';
import { readPlannedElements, type Planned } from '../planned.ts';
import { segmentRules } from '../segment-rules.ts';
import { walk } from '../walk.ts';
import { bestLayouts, type BestLayout, type BestOptions } from './best.ts';
import type { Objective } from './objective.ts';

/** An element of the inventory that the best layout leaves out, and why. */
export interface Idea {
  readonly code: string;
  /** The rules that adding it to the best layout would break, in plain words with what it would cost; empty: none. */
  readonly breaks: readonly string[];
  /** The best layout that holds it; null: there is none, or it was not asked for. */
  readonly instead: { readonly codes: readonly string[]; readonly value: number; readonly less: number } | null;
}

/** Ideas that are told. */
const TOLD = 3;

const grade = ({ base }: { readonly base: number | null }): number => base ?? 0;

/** Entries that the layout leaves out, the highest base value first, one for each code. */
function leftOut(inventory: Inventory, best: BestLayout, excluded: ReadonlySet<string>, chosen: ChosenRules) {
  const rules = segmentRules(chosen);
  const planned = readPlannedElements(inventory, rules);
  if (!planned.ok) return [];
  const used = [...best.codes];
  const left = planned.value.filter(({ code }) => {
    const i = used.indexOf(code);
    if (i >= 0) used.splice(i, 1);
    return i < 0 && !excluded.has(code);
  });
  const base = (one: Planned): number => {
    const checked = checkLayout({ ...inventory, elements: [entryOf(inventory, one.code)] }, chosen);
    return checked.ok ? grade(checked.value) : 0;
  };
  const found = [...new Map(left.map((one) => [one.code, one])).values()];
  return found
    .map((one) => ({ one, base: base(one) }))
    .sort((a, b) => b.base - a.base)
    .slice(0, TOLD)
    .map(({ one }) => one);
}

const entryOf = (inventory: Inventory, code: string) => {
  const entry = inventory.elements.find((e) => e.code === code);
  if (entry === undefined) throw new Error(`no entry ${code}`);
  return { ...entry, start: null, half: null };
};

/** What adding one more element at the end breaks. */
function broken(added: Planned, best: BestLayout, inventory: Inventory, chosen: ChosenRules): readonly string[] {
  const rules = segmentRules(chosen);
  const elements = best.codes.map((code) => ({ ...PLAIN, code }));
  const planned = readPlannedElements({ ...inventory, elements }, rules);
  if (!planned.ok) return [];
  const { called } = walk(
    [...planned.value, { ...added, no: planned.value.length + 1, start: null, half: null }],
    rules,
  );
  const reasons = called.at(-1)?.reasons ?? [];
  if (reasons.length === 0) return [];
  const names = new Set<string>(reasons.map((reason) => reason.rule));
  const layout = { ...inventory, elements: [...elements, { ...PLAIN, code: formatElement(added.element) }] };
  const checked = checkLayout(layout, chosen);
  return checked.ok ? checked.value.verdicts.filter((v) => names.has(v.rule)).map((v) => v.message) : [...names];
}

const PLAIN = {
  start: null,
  half: null,
  grade: null,
  outcomes: null,
  max: null,
  stage: null,
  since: null,
  notBefore: null,
} as const;

/**
 * What the best layout leaves out, the dearest first: the rule that adding it would break, and (with
 * `search`) by how much the best layout that holds it is worth less.
 */
export function ideasAround(
  best: BestLayout,
  inventory: Inventory,
  excluded: readonly string[],
  chosen: ChosenRules,
  objective: Objective,
  options: Partial<BestOptions>,
  search: boolean,
): Result<readonly Idea[]> {
  const ideas: Idea[] = [];
  for (const one of leftOut(inventory, best, new Set(excluded), chosen)) {
    const breaks = broken(one, best, inventory, chosen);
    if (!search) {
      ideas.push({ code: one.code, breaks, instead: null });
      continue;
    }
    const must = [...inventory.constraints.must, one.code];
    const asked = { ...inventory, constraints: { ...inventory.constraints, must } };
    const result = bestLayouts(asked, chosen, objective, { ...options, top: 1 });
    if (!result.ok) return result;
    const [other] = result.value.layouts;
    const instead =
      other === undefined ? null : { codes: other.codes, value: other.value, less: best.value - other.value };
    ideas.push({ code: one.code, breaks, instead });
  }
  return ok(ideas);
}
