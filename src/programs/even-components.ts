import { buildModel, type Evidence } from '../forecast/index.ts';
import { ok, type Result } from '../notation/index.ts';
import type { ChosenRules } from '../rulebook/index.ts';
import type { Layout, LayoutComponent } from '../scoring/index.ts';

/** One of two programs that are set side by side, and what it is called in a sentence. */
export interface ComparedSide {
  readonly form: Layout;
  readonly rules: ChosenRules;
  readonly name: string;
}

/** Components of both sides, so that no difference comes from marks that only one side has. */
export interface EvenComponents {
  readonly a: readonly LayoutComponent[];
  readonly b: readonly LayoutComponent[];
  /** What was missing and what was done about it, as a sentence; null: both sides state their marks, or have none. */
  readonly words: string | null;
}

type Marks = readonly LayoutComponent[];

/** Every mark is stated; null: at least one would have to be learnt. */
const statedIn = ({ components }: Layout): Marks | null =>
  components !== null && components.length > 0 && components.every((c) => c.mean !== null) ? components : null;

/** Some marks are stated, or components are named without marks. */
const isPartly = ({ components }: Layout): boolean => components !== null && components.length > 0;

const listOf = ({ values, category, segment }: ChosenRules) => values.components(category, segment);

const mean = (numbers: readonly number[]): number => numbers.reduce((sum, n) => sum + n, 0) / numbers.length;

/** Marks given for one side as the other side's rules would count them: its names and its factor. */
function under(rules: ChosenRules, marks: Marks): Marks {
  const { list } = listOf(rules);
  if (list.length === 0 || list.length === marks.length) return marks.map((c) => ({ ...c, factor: null }));
  const average = mean(marks.map((c) => c.mean ?? 0));
  const spread = marks.some((c) => c.sd === null) ? null : mean(marks.map((c) => c.sd ?? 0));
  return list.map(({ name }) => {
    const own = marks.find((c) => c.name.toLowerCase() === name.toLowerCase());
    return own === undefined ? { name, factor: null, mean: average, sd: spread } : { ...own, factor: null };
  });
}

const factorless = (rules: ChosenRules, marks: Marks): boolean =>
  marks.some((c) => c.factor === null) && listOf(rules).factor === null;

const without = (why: string): EvenComponents => ({
  a: [],
  b: [],
  words: `${why}: both sides are without components.`,
});

const marked = (evidence: Evidence): boolean => evidence.history.some((p) => p.components.length > 0);

const alike = (a: ChosenRules, b: ChosenRules): boolean =>
  a.values.id === b.values.id && a.category === b.category && a.segment === b.segment;

/** Marks that the first side's own record or field would give. */
function learnt({ form, rules }: ComparedSide, evidence: Evidence): Result<Marks> {
  const components = isPartly(form) ? form.components : null;
  const built = buildModel({ ...form, components }, rules, evidence);
  if (!built.ok) return built;
  return ok(built.value.model.components.map(({ name, mean: m, sd }) => ({ name, factor: null, mean: m, sd })));
}

function neitherStated(a: ComparedSide, b: ComparedSide, evidence: Evidence): Result<EvenComponents> {
  const none = (side: ComparedSide): boolean => side.form.components?.length === 0;
  if (none(a) && none(b)) return ok({ a: [], b: [], words: null });
  const one = a.form === b.form;
  const partly = isPartly(a.form) || isPartly(b.form);
  const why = partly
    ? 'Some component marks are not stated'
    : `${one ? 'The layout states' : 'The layouts state'} no component marks`;
  const known = [a, b].every(({ rules }) => listOf(rules).list.length > 0 && listOf(rules).factor !== null);
  if (none(a) || none(b) || !known || !(marked(evidence) || alike(a.rules, b.rules))) return ok(without(why));
  const marks = learnt(!isPartly(a.form) && isPartly(b.form) ? b : a, evidence);
  if (!marks.ok) return marks;
  const source = marked(evidence) ? 'those learnt from earlier sheets' : 'the usual ones of the category';
  const words = `${why}: ${source} are taken for both, so that they make no difference.`;
  return ok({ a: under(a.rules, marks.value), b: under(b.rules, marks.value), words });
}

/**
 * Component marks for a comparison. What one side lacks it takes from the other; what neither has is learnt
 * once for both, or left out on both sides. A comparison never sets marks against none.
 */
export function evenComponents(a: ComparedSide, b: ComparedSide, evidence: Evidence): Result<EvenComponents> {
  const [ofA, ofB] = [statedIn(a.form), statedIn(b.form)];
  if (ofA === null && ofB === null) return neitherStated(a, b, evidence);
  const even: EvenComponents = {
    a: ofA ?? under(a.rules, ofB ?? []),
    b: ofB ?? under(b.rules, ofA ?? []),
    words: ofA !== null && ofB !== null ? null : lent(ofA === null ? a : b, ofA === null ? b : a),
  };
  const open = [a, b].find((side, i) => factorless(side.rules, i === 0 ? even.a : even.b));
  if (open === undefined) return ok(even);
  return ok(without(`The factor of the components in ${open.rules.category} is not known`));
}

const lent = (lacks: ComparedSide, has: ComparedSide): string =>
  `${lacks.name} has no component marks: those of ${has.name} are taken for both, so that they make no difference.`;
