import {
  distributionOf,
  forecast,
  quantile,
  type Evidence,
  type Pmf,
  type ProgramElement,
  type ProgramModel,
} from '../../forecast/index.ts';
import { formatElement, ok, type Result } from '../../notation/index.ts';
import type { ChosenRules } from '../../rulebook/index.ts';
import type { Layout } from '../../scoring/index.ts';
import { evenComponents } from '../even-components.ts';
import { isNoise, worthOf, type Worth } from '../worth.ts';

/** One side of a comparison, in points. */
export interface Side {
  readonly id: string | null;
  readonly expected: number;
  readonly sd: number;
  /** One program in ten is below, one in ten above. */
  readonly low: number;
  readonly high: number;
}

/** An element that only one of the two has, or that stands on another place for the second-half factor. */
export interface OnlyIn {
  readonly side: 'a' | 'b';
  readonly no: number;
  readonly code: string;
  readonly mean: number;
  readonly sd: number;
}

export interface Comparison {
  readonly a: Side;
  readonly b: Side;
  /** Expected score of A minus that of B. */
  readonly difference: number;
  readonly insideNoise: boolean;
  /** Chance that A scores more than B, ties half: what both have goes alike on that day, the rest independently. */
  readonly aBeatsB: number;
  /** The same for two separate days. */
  readonly separateDays: number;
  readonly differences: readonly OnlyIn[];
  /** Points of the components on average, and what was done where marks were missing; null: left out on both sides. */
  readonly components: { readonly a: number; readonly b: number } | null;
  readonly componentsNote: string | null;
  readonly warnings: readonly string[];
}

/** P(A > B) + half of P(A = B) for independent scores. */
export function chanceHigher(a: Pmf, b: Pmf): number {
  let below = 0;
  let at = 0;
  let chance = 0;
  a.p.forEach((p, i) => {
    const score = a.from + i;
    while (at < b.p.length && b.from + at < score) below += b.p[at++] ?? 0;
    const tie = at < b.p.length && b.from + at === score ? (b.p[at] ?? 0) : 0;
    chance += p * (below + tie / 2);
  });
  return chance;
}

/** Two elements are the same if everything that can happen on them, and their place, is. */
const sameKey = (e: ProgramElement): string =>
  JSON.stringify([e.bonus, e.outcomes.map((o) => [o.p, formatElement(o.element), o.grades, o.fall])]);

/** The elements of each side that the other has not. */
function differing(a: ProgramModel, b: ProgramModel): readonly [readonly ProgramElement[], readonly ProgramElement[]] {
  const open = b.elements.map((e) => ({ e, key: sameKey(e) }));
  const onlyA = a.elements.filter((e) => {
    const twin = open.findIndex((o) => o.key === sameKey(e));
    if (twin >= 0) open.splice(twin, 1);
    return twin < 0;
  });
  return [onlyA, open.map((o) => o.e)];
}

/** Score of some elements and components of a program alone. */
const partOf = (
  model: ProgramModel,
  elements: readonly ProgramElement[],
  components: ProgramModel['components'],
): Result<Pmf> => distributionOf({ ...model, elements, components, otherDeductions: [] });

/** Components of the first program that the second has not just so. */
const otherComponents = ({ components }: ProgramModel, other: ProgramModel): ProgramModel['components'] =>
  components.filter((c) => !other.components.some((o) => JSON.stringify(o) === JSON.stringify(c)));

const componentPoints = ({ components }: ProgramModel): number =>
  components.reduce((sum, { mean, factor }) => sum + (mean * factor) / 100, 0);

const side = (layout: Layout, worth: Worth): Side => ({
  id: layout.id,
  expected: worth.expected,
  sd: worth.sd,
  low: quantile(worth.pmf, 0.1) / 100,
  high: quantile(worth.pmf, 0.9) / 100,
});

function onlyIn(
  which: 'a' | 'b',
  layout: Layout,
  only: readonly ProgramElement[],
  chosen: ChosenRules,
  evidence: Evidence,
): Result<readonly OnlyIn[]> {
  const figures = forecast(layout, chosen, evidence, { on: 'total', targets: [], pmf: false });
  if (!figures.ok) return figures;
  return ok(
    only.map(({ no, code }) => {
      const found = figures.value.byElement.find((e) => e.no === no);
      return { side: which, no, code, mean: found?.mean ?? 0, sd: found?.sd ?? 0 };
    }),
  );
}

/**
 * Compares two layouts: only what differs, and how often A beats B. On the same day what both programs
 * have is taken to go alike, so that only the differences decide; rules that couple the two parts are
 * left out of that one figure. Component marks that only one of them states are held equal.
 */
export function compare(
  givenA: Layout,
  givenB: Layout,
  rules: { readonly a: ChosenRules; readonly b: ChosenRules },
  evidence: Evidence,
): Result<Comparison> {
  const even = evenComponents(
    { form: givenA, rules: rules.a, name: 'A' },
    { form: givenB, rules: rules.b, name: 'B' },
    evidence,
  );
  if (!even.ok) return even;
  const a: Layout = { ...givenA, components: even.value.a };
  const b: Layout = { ...givenB, components: even.value.b };
  const left = worthOf(a, rules.a, { kind: 'expected' }, evidence);
  if (!left.ok) return left;
  const right = worthOf(b, rules.b, { kind: 'expected' }, evidence);
  if (!right.ok) return right;
  const [modelA, modelB] = [left.value.built.model, right.value.built.model];
  const [onlyA, onlyB] = differing(modelA, modelB);
  const partA = partOf(modelA, onlyA, otherComponents(modelA, modelB));
  const partB = partOf(modelB, onlyB, otherComponents(modelB, modelA));
  if (!partA.ok) return partA;
  if (!partB.ok) return partB;
  const listA = onlyIn('a', a, onlyA, rules.a, evidence);
  const listB = onlyIn('b', b, onlyB, rules.b, evidence);
  if (!listA.ok) return listA;
  if (!listB.ok) return listB;
  const difference = left.value.expected - right.value.expected;
  return ok({
    a: side(a, left.value),
    b: side(b, right.value),
    difference,
    insideNoise: isNoise(difference, Math.max(left.value.sd, right.value.sd)),
    aBeatsB: chanceHigher(partA.value, partB.value),
    separateDays: chanceHigher(left.value.pmf, right.value.pmf),
    differences: [...listA.value, ...listB.value],
    components:
      modelA.components.length + modelB.components.length === 0
        ? null
        : { a: componentPoints(modelA), b: componentPoints(modelB) },
    componentsNote: even.value.words,
    warnings: [...new Set([...left.value.built.warnings, ...right.value.built.warnings])],
  });
}
