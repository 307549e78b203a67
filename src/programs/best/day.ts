import { dayChances, dayWeights, type ProgramElement, type ProgramModel } from '../../forecast/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import type { PoolItem } from './pool.ts';
import { BONUS, EARLY, type PlaceIndex } from './values.ts';

/** Chances of every grade of every outcome, `[outcome][grade]`. */
export type Chances = readonly (readonly number[])[];

/** Grades of a late jump with the coach's penalty, kept on the scale. */
export function outcomesAt(
  item: PoolItem,
  place: PlaceIndex,
  rules: SegmentRules,
  latePenalty: number,
): ProgramElement['outcomes'] {
  if (place === EARLY || latePenalty === 0 || item.element.kind !== 'jump') return item.outcomes;
  const { goe } = rules.chosen.values.values;
  const lowered = (grade: number): number => Math.min(goe.max, Math.max(goe.min, grade - latePenalty));
  return item.outcomes.map((o) => ({ ...o, grades: o.grades.map(({ grade, p }) => ({ grade: lowered(grade), p })) }));
}

/** An item at a place of a program, as the forecast takes it. */
export const elementAt = (
  item: PoolItem,
  no: number,
  place: PlaceIndex,
  rules: SegmentRules,
  latePenalty: number,
): ProgramElement => ({
  no,
  code: item.code,
  bonus: place === BONUS,
  outcomes: outcomesAt(item, place, rules, latePenalty),
});

/**
 * The form of the day as a search sees it: given a node of the day factor elements are independent, with
 * chances of their own. Without a day factor there is one node with the chances as entered.
 */
export class Day {
  /** Weight of every node; they sum to 1. */
  readonly weights: readonly number[];
  private readonly known = new Map<number, (readonly Chances[] | undefined)[]>();
  private readonly rules: SegmentRules;
  private readonly formSd: number;
  private readonly latePenalty: number;

  constructor({ formSd }: ProgramModel, rules: SegmentRules, latePenalty: number) {
    this.weights = dayWeights(formSd);
    this.rules = rules;
    this.formSd = formSd;
    this.latePenalty = latePenalty;
  }

  /** By node: the chances of an item at a place. */
  chances(item: PoolItem, place: PlaceIndex): readonly Chances[] {
    const byPlace = this.known.get(item.id) ?? [];
    this.known.set(item.id, byPlace);
    const found = byPlace[place] ?? this.compute(item, place);
    byPlace[place] = found;
    return found;
  }

  /** By node: mean of an item's points at a place; `pointsOf` gives them by grade for an outcome. */
  means(item: PoolItem, place: PlaceIndex, pointsOf: (outcome: number) => readonly number[]): readonly number[] {
    return this.chances(item, place).map((chances) =>
      chances.reduce((sum, grades, o) => sum + weighted(grades, pointsOf(o)), 0),
    );
  }

  /** By node: the chance of a fall. */
  falls(item: PoolItem, place: PlaceIndex): readonly number[] {
    return this.means(item, place, (o) => item.outcomes[o]?.grades.map(() => (item.outcomes[o]?.fall ? 1 : 0)) ?? []);
  }

  /** By node: chance of an outcome, and its points times their chances. */
  outcome(
    item: PoolItem,
    o: number,
    place: PlaceIndex,
    points: readonly number[],
  ): readonly { readonly p: number; readonly gain: number }[] {
    return this.chances(item, place).map((chances) => {
      const grades = chances[o] ?? [];
      return { p: grades.reduce((sum, p) => sum + p, 0), gain: weighted(grades, points) };
    });
  }

  /** A value by node, averaged over the day. */
  mix(byNode: readonly number[]): number {
    return byNode.reduce((sum, x, z) => sum + x * (this.weights[z] ?? 0), 0);
  }

  private compute(item: PoolItem, place: PlaceIndex): readonly Chances[] {
    if (this.weights.length === 1) return [item.outcomes.map((o) => o.grades.map(({ p }) => o.p * p))];
    const element = elementAt(item, 1, place, this.rules, this.latePenalty);
    return dayChances(element, this.rules.chosen, this.formSd);
  }
}

/** Sum of points times chances; not divided by the chance of the outcome. */
const weighted = (chances: readonly number[], points: readonly number[]): number =>
  chances.reduce((sum, p, g) => sum + p * (points[g] ?? 0), 0);
