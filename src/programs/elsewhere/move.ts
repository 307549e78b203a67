import {
  buildModel,
  distributionOf,
  moments,
  quantile,
  type Evidence,
  type ProgramModel,
} from '../../forecast/index.ts';
import { ok, type Category, type Result } from '../../notation/index.ts';
import type { ChosenRules, Citation } from '../../rulebook/index.ts';
import type { Inventory, Layout } from '../../scoring/index.ts';
import { bestLayouts } from '../best/best.ts';
import type { Objective } from '../best/objective.ts';
import { makePool, type Excluded } from '../best/pool.ts';
import { evenComponents } from '../even-components.ts';
import { segmentRules } from '../segment-rules.ts';
import { figuresOf, type Figure } from './figures.ts';
import { missingFrom } from './missing.ts';
import { underCaps } from './under-caps.ts';

/** Ages of a category as its rulebook gives them, with the source; null: the rulebook has none. */
export interface CategoryAges {
  /** Years, reached on the day; null: no lower limit is known. */
  readonly min: number | null;
  /** Younger than so many years; null: no upper limit is known. */
  readonly under: number | null;
  /** The day that counts. */
  readonly on: string;
  readonly citation: Citation;
}

/** Where most of her scores would lie: the middle and the range of eight days in ten, in points. */
export interface ExpectedRange {
  readonly codes: readonly string[];
  readonly expected: number;
  readonly low: number;
  readonly high: number;
}

/** What a category is to a skater who is in another one. */
export interface Move {
  readonly from: Place;
  readonly to: Place;
  readonly ages: CategoryAges | null;
  /** Elements that count fully where she is and could not stand in a layout there, and why. */
  readonly illegal: readonly Excluded[];
  /** Elements of which less counts there: `FSSp4 as FSSp3`. */
  readonly lowered: readonly string[];
  /** What the segment asks there and these elements do not hold. */
  readonly missing: readonly string[];
  /** Figures of the rules that differ: numbers, caps, factors, deductions. */
  readonly figures: readonly Figure[];
  /** In her category and there; null where no layout can be made or a figure for it is not known. */
  readonly range: { readonly here: ExpectedRange | null; readonly there: ExpectedRange | null };
  /** What was done about component marks that are missing; null: the ranges hold those stated. */
  readonly components: string | null;
  readonly warnings: readonly string[];
}

interface Place {
  readonly rulebook: string;
  readonly category: Category;
}

export interface MoveOptions {
  readonly objective: Objective;
  readonly date: string | null;
  readonly evidence: Evidence;
  readonly shouldStop: () => boolean;
}

/** A layout's or inventory's elements without the factors of the category that it was written for. */
const withoutFactors = <T extends Layout>(form: T): T => ({
  ...form,
  components: form.components?.map((component) => ({ ...component, factor: null })) ?? null,
});

const LOW = 0.1;
const HIGH = 0.9;

function rangeOf(model: ProgramModel, codes: readonly string[]): ExpectedRange | null {
  const pmf = distributionOf(model);
  if (!pmf.ok) return null;
  return {
    codes,
    expected: moments(pmf.value).mean / 100,
    low: quantile(pmf.value, LOW) / 100,
    high: quantile(pmf.value, HIGH) / 100,
  };
}

/** The range of a layout as it stands. */
function layoutRange(layout: Layout, chosen: ChosenRules, { evidence }: MoveOptions): ExpectedRange | null {
  const built = buildModel(layout, chosen, evidence);
  if (!built.ok) return null;
  return rangeOf(
    built.value.model,
    layout.elements.map((e) => e.code),
  );
}

/** The range of the best layout of an inventory. */
function bestRange(inventory: Inventory, chosen: ChosenRules, options: MoveOptions): ExpectedRange | null {
  const result = bestLayouts(inventory, chosen, options.objective, { ...options, top: 1 });
  if (!result.ok) return null;
  const [best] = result.value.layouts;
  return best === undefined ? null : { codes: best.codes, expected: best.expected, low: best.low, high: best.high };
}

function agesOf({ content, category }: ChosenRules): CategoryAges | null {
  const ages = content.ages(category);
  return ages === undefined ? null : { ...ages, citation: content.citation(`ages.${category}`) };
}

/** Entries that the rules of the segment bar alone; what the coach holds back is no matter of the category. */
function barred(inventory: Inventory, chosen: ChosenRules, evidence: Evidence): Result<readonly Excluded[]> {
  const rules = segmentRules(chosen);
  const built = buildModel(inventory, chosen, evidence);
  if (!built.ok) return built;
  const everything: Inventory = {
    ...inventory,
    combine: 'listed',
    elements: inventory.elements.map((e) => ({ ...e, stage: null, notBefore: null })),
    constraints: { ...inventory.constraints, never: [] },
  };
  const pool = makePool(everything, built.value.model, rules, null, () => false);
  return pool.ok ? ok(pool.value.excluded) : pool;
}

/**
 * What another category's rules do to what a skater can do: what becomes illegal, what is missing, which
 * figures change, the ages, and the range to expect. A layout is taken as it is, an inventory in its
 * best layouts. Whether she may enter there is for the federation to say.
 */
export function moveTo(
  form: Layout | Inventory,
  before: ChosenRules,
  after: ChosenRules,
  options: MoveOptions,
): Result<Move> {
  const bare = withoutFactors(form);
  const even = evenComponents(
    { form: bare, rules: before, name: 'Here' },
    { form: bare, rules: after, name: 'There' },
    options.evidence,
  );
  if (!even.ok) return even;
  const held = { ...bare, components: even.value.a };
  const inventory = isInventory(held) ? held : asInventory(held);
  const capped = underCaps(inventory, segmentRules(after));
  const here = barred(inventory, before, options.evidence);
  if (!here.ok) return here;
  const there = barred(capped.inventory, after, options.evidence);
  if (!there.ok) return there;
  const known = new Set(here.value.map(({ code }) => code));
  const range = (of: Inventory, chosen: ChosenRules): ExpectedRange | null =>
    isInventory(bare) ? bestRange(of, chosen, options) : layoutRange(of, chosen, options);
  return ok({
    from: { rulebook: before.content.id, category: before.category },
    to: { rulebook: after.content.id, category: after.category },
    ages: agesOf(after),
    illegal: there.value.filter(({ code }) => !known.has(code)),
    lowered: capped.lowered,
    missing: missingFrom(inventory, segmentRules(after), isInventory(bare) ? 'inventory' : 'layout'),
    figures: figuresOf(segmentRules(before), segmentRules(after)),
    range: {
      here: range(underCaps(inventory, segmentRules(before)).inventory, before),
      there: range({ ...capped.inventory, components: even.value.b }, after),
    },
    components: even.value.words,
    warnings: after.warnings,
  });
}

const isInventory = (form: Layout | Inventory): form is Inventory => 'combine' in form;

const asInventory = (layout: Layout): Inventory => ({
  ...layout,
  combine: 'listed',
  constraints: { must: [], never: [], latePenalty: 0 },
});
