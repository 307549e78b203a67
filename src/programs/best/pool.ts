import type { ProgramModel, SkatedOutcome } from '../../forecast/index.ts';
import { contentKey, formatElement, ok, parseCode, type Element, type Result } from '../../notation/index.ts';
import { callNext, elementValue, startProgram, type Inventory, type LayoutElement } from '../../scoring/index.ts';
import { readPlannedElements, type Planned } from '../planned.ts';
import type { SegmentRules } from '../segment-rules.ts';
import { builtItems } from './combine.ts';

/** One thing that may happen on an element, with a number that is unique in its pool. */
export interface PoolOutcome extends SkatedOutcome {
  readonly id: number;
}

/** An element that a layout may hold. */
export interface PoolItem {
  readonly id: number;
  /** Canonical code as planned. */
  readonly code: string;
  readonly element: Element;
  readonly outcomes: readonly PoolOutcome[];
  /** Inventory entries that one use of the item uses up, by index; an entry may stand twice. */
  readonly uses: readonly number[];
  /** The entry that a layout shows; null for a combination that was built. */
  readonly source: LayoutElement | null;
}

/** An entry that no layout may hold, and why. */
export interface Excluded {
  readonly code: string;
  readonly why: string;
}

export interface Pool {
  readonly items: readonly PoolItem[];
  /** Times each inventory entry may be used. */
  readonly caps: readonly number[];
  readonly excluded: readonly Excluded[];
}

/** An item before it is numbered. */
export interface DraftItem {
  readonly element: Element;
  readonly outcomes: readonly SkatedOutcome[];
  readonly uses: readonly number[];
  readonly source: LayoutElement | null;
}

/** Does a code of a constraint mean this element? A code with a level means that level alone. */
export function meant(code: string, element: Element): boolean {
  const parsed = parseCode(code);
  if (!parsed.ok) return false;
  const wanted = parsed.value.element;
  if (contentKey(wanted) !== contentKey(element)) return false;
  if (wanted.kind === 'jump' || element.kind === 'jump' || wanted.level === null) return true;
  return wanted.level === element.level;
}

/** Why an element can stand in no layout of the segment; null: it can. */
function barred(draft: DraftItem, rules: SegmentRules, never: readonly string[]): string | null {
  const { element } = draft;
  if (never.some((code) => meant(code, element))) return 'you ruled it out';
  const { values } = rules.chosen.values;
  const fresh = startProgram({ ...rules.content, axelRequired: null }, values, rules.chosen.segment);
  const called = callNext(fresh, element, { bonus: false });
  const [reason] = called.reasons;
  if (reason !== undefined) return `the rules of the segment give it no full value (${reason.rule})`;
  if (levelAboveCap(element, rules)) return 'its level is above the highest that counts in the category';
  const unknown = [element, ...draft.outcomes.map((o) => o.element)].flatMap((e) => valueGaps(e, rules));
  if (unknown.length > 0) return `the value of ${unknown[0] ?? ''} is not known in this season`;
  return null;
}

function levelAboveCap(element: Element, { chosen }: SegmentRules): boolean {
  if (element.kind !== 'spin' && element.kind !== 'steps') return false;
  const { cap } = element.kind === 'spin' ? chosen.levels.spins(chosen.category) : chosen.levels.steps(chosen.category);
  return cap !== null && typeof element.level === 'number' && element.level > cap;
}

const valueGaps = (element: Element, { chosen }: SegmentRules): readonly string[] => {
  const value = elementValue(chosen.values, element);
  return value.hasValue && value.row?.grades == null ? [...value.unknown, formatElement(element)] : value.unknown;
};

/** Why the coach has not released an entry; null: it may be used. */
function heldBack(planned: Planned, date: string | null): string | null {
  if (planned.stage === 'off-ice' || planned.stage === 'landed') {
    return `its stage is “${planned.stage}”: not yet in run-throughs`;
  }
  if (planned.notBefore !== null && (date === null || date < planned.notBefore))
    return `not before ${planned.notBefore}`;
  return null;
}

/**
 * Everything that a layout may be made of. `model` holds the outcomes of the entries, stated or learnt.
 * Entries that the coach holds back, that she ruled out, that break a rule alone or whose value is not
 * known stay out and are named. `date` is the day the layout is for (ISO), null where none is given.
 */
export function makePool(
  inventory: Inventory,
  model: ProgramModel,
  rules: SegmentRules,
  date: string | null,
): Result<Pool> {
  const planned = readPlannedElements(inventory, rules);
  if (!planned.ok) return planned;
  const excluded: Excluded[] = [];
  const drafts = planned.value.flatMap((one, index): readonly DraftItem[] => {
    const why = heldBack(one, date);
    const outcomes = (model.elements[index]?.outcomes ?? []).filter((o) => o.p > 0);
    if (why === null)
      return [{ element: one.element, outcomes, uses: [index], source: inventory.elements[index] ?? null }];
    excluded.push({ code: one.code, why });
    return [];
  });
  const all = inventory.combine === 'auto' ? [...drafts, ...builtItems(drafts, rules)] : drafts;
  const items: PoolItem[] = [];
  let outcomeId = 0;
  for (const draft of all) {
    const why = barred(draft, rules, inventory.constraints.never);
    if (why === null) {
      const outcomes = draft.outcomes.map((o) => ({ ...o, id: outcomeId++ }));
      items.push({ ...draft, id: items.length, code: formatElement(draft.element), outcomes });
    } else if (draft.source !== null) excluded.push({ code: draft.source.code, why });
  }
  return ok({ items, caps: planned.value.map((one) => one.max ?? 1), excluded });
}
