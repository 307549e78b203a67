import type { ProgramModel, SkatedOutcome } from '../../forecast/index.ts';
import { contentKey, formatElement, ok, parseCode, type Element, type Result } from '../../notation/index.ts';
import {
  callNext,
  elementValue,
  goeOfGrade,
  startProgram,
  type Inventory,
  type LayoutElement,
} from '../../scoring/index.ts';
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
  /** So many items from the start are the entries and the most promising of what was built. */
  readonly core: number;
  /** Nothing that could be built is missing; else no bound on layouts is known. */
  readonly complete: boolean;
}

/** Most combinations that are built: more cannot be searched in any time that somebody waits. */
const MOST_BUILT = 3000;

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

/** Tells which elements can stand in no layout of the segment; the same element is asked about once. */
class Bars {
  private readonly plans = new Map<Element, string | null>();
  private readonly gaps = new Map<Element, string | null>();
  private readonly rules: SegmentRules;
  private readonly never: readonly string[];

  constructor(rules: SegmentRules, never: readonly string[]) {
    this.rules = rules;
    this.never = never;
  }

  /** Why; null: it can. */
  of({ element, outcomes }: DraftItem): string | null {
    const why = this.plan(element);
    if (why !== null) return why;
    for (const one of [element, ...outcomes.map((o) => o.element)]) {
      const gap = remembered(this.gaps, one, () => valueGaps(one, this.rules)[0] ?? null);
      if (gap !== null) return `the value of ${gap} is not known in this season`;
    }
    return null;
  }

  /** The same by the plan alone, whatever may happen on the ice. */
  plan(element: Element): string | null {
    return remembered(this.plans, element, () => this.askPlan(element));
  }

  private askPlan(element: Element): string | null {
    const { rules } = this;
    if (this.never.some((code) => meant(code, element))) return 'you ruled it out';
    const { values } = rules.chosen.values;
    const fresh = startProgram({ ...rules.content, axelRequired: null }, values, rules.chosen.segment);
    const [reason] = callNext(fresh, element, { bonus: false }).reasons;
    if (reason !== undefined) return `the rules of the segment give it no full value (${reason.rule})`;
    return levelAboveCap(element, rules) ? 'its level is above the highest that counts in the category' : null;
  }
}

function remembered<K, V>(known: Map<K, V>, key: K, make: () => V): V {
  const found = known.get(key);
  if (found !== undefined) return found;
  const fresh = make();
  known.set(key, fresh);
  return fresh;
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

/** Entries with the same code and outcomes are one that may be used more often; `caps` gains what it takes over. */
function merged(drafts: readonly DraftItem[], caps: number[]): readonly DraftItem[] {
  const known = new Map<string, number>();
  return drafts.filter(({ element, outcomes, uses: [entry = 0], source }) => {
    const key = JSON.stringify([source?.code, element, outcomes, source?.outcomes == null]);
    const first = known.get(key);
    known.set(key, first ?? entry);
    if (first !== undefined) caps[first] = (caps[first] ?? 0) + (caps[entry] ?? 0);
    return first === undefined;
  });
}

/** Expected points alone, roughly: only to tell the better of two jumps of a kind. */
const roughWorth =
  ({ chosen }: SegmentRules) =>
  ({ outcomes }: DraftItem): number =>
    outcomes.reduce((sum, { p, element, grades, fall }) => {
      const { row, base } = elementValue(chosen.values, element);
      const mean = grades.reduce((of, one) => of + one.p * ((row && goeOfGrade(row, one.grade)) ?? 0), 0);
      return sum + p * ((base ?? 0) + mean - (fall ? ROUGH_FALL : 0));
    }, 0);

/** Hundredths. */
const ROUGH_FALL = 100;

/**
 * Everything that a layout may be made of. `model` holds the outcomes of the entries, stated or learnt.
 * Entries that the coach holds back, that she ruled out, that break a rule alone or whose value is not
 * known stay out and are named. `date` is the day the layout is for (ISO), null where none is given.
 * Stopped, it holds the entries and the pairs of their best jumps, and whatever else was built by then.
 */
export function makePool(
  inventory: Inventory,
  model: ProgramModel,
  rules: SegmentRules,
  date: string | null,
  shouldStop: () => boolean,
): Result<Pool> {
  const planned = readPlannedElements(inventory, rules);
  if (!planned.ok) return planned;
  const excluded: Excluded[] = [];
  const entries = planned.value.flatMap((one, index): readonly DraftItem[] => {
    const why = heldBack(one, date);
    const outcomes = (model.elements[index]?.outcomes ?? []).filter((o) => o.p > 0);
    if (why === null)
      return [{ element: one.element, outcomes, uses: [index], source: inventory.elements[index] ?? null }];
    excluded.push({ code: one.code, why });
    return [];
  });
  const bars = new Bars(rules, inventory.constraints.never);
  const items: PoolItem[] = [];
  let outcomeId = 0;
  const take = (draft: DraftItem): void => {
    const outcomes = draft.outcomes.map((o) => ({ ...o, id: outcomeId++ }));
    items.push({ ...draft, id: items.length, code: formatElement(draft.element), outcomes });
  };
  for (const draft of entries) {
    const why = bars.of(draft);
    if (why !== null) excluded.push({ code: draft.source?.code ?? formatElement(draft.element), why });
  }
  const caps = planned.value.map((one) => one.max ?? 1);
  const drafts = merged(entries, caps);
  for (const draft of drafts) if (bars.of(draft) === null) take(draft);
  const listed = items.length;
  let core = listed;
  let complete = true;
  if (inventory.combine === 'auto') {
    const mayStand = (element: Element): boolean => bars.plan(element) === null;
    for (const built of builtItems(drafts, { rules, caps, worth: roughWorth(rules), mayStand })) {
      if (!built.needed && (items.length - listed >= MOST_BUILT || shouldStop())) {
        complete = false;
        break;
      }
      if (bars.of(built.draft) === null) take(built.draft);
      if (built.core) core = items.length;
    }
  }
  return ok({ items, caps, excluded, core, complete });
}
