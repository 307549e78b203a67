import { formatElement, type Element } from '../../notation/index.ts';
import type { Hundredths, Rulebook } from '../../rulebook/index.ts';
import { elementValue, goeOfGrade, type Called } from '../../scoring/index.ts';
import type { PoolOutcome } from './pool.ts';

/** Where a jump element stands: first half, second half with the factor, second half without. */
export const PLACES = ['early', 'bonus', 'late'] as const;
export type Place = (typeof PLACES)[number];
/** Places in skating order. */
export const SLOTS: readonly Place[] = ['early', 'late', 'bonus'];
export const EARLY = 0;
export const BONUS = 1;
export const LATE = 2;
/** A place as an index into what is kept by place. */
export type PlaceIndex = typeof EARLY | typeof BONUS | typeof LATE;
export const PLACE_INDEX = { early: EARLY, bonus: BONUS, late: LATE } as const;

/** An outcome as the program makes the panel call it: points by place. */
export interface CalledOutcome {
  readonly element: Element;
  /** Points for each grade of the outcome, by place. */
  readonly points: readonly [readonly Hundredths[], readonly Hundredths[], readonly Hundredths[]];
  /** Mean of the points, by place. */
  readonly mean: readonly [number, number, number];
}

const clip = (grade: number, { goe }: Rulebook['values']): number => Math.min(goe.max, Math.max(goe.min, grade));

/** The values of a season, remembered by outcome and call. `latePenalty` grades are taken off in the second half. */
export class ValueBook {
  private readonly known = new Map<string, CalledOutcome>();
  /** By the element as called: many combinations share one. */
  private readonly names = new WeakMap<Element, string>();
  private readonly early = new WeakMap<Element, ReturnType<typeof elementValue>>();
  private readonly late = new WeakMap<Element, ReturnType<typeof elementValue>>();
  private readonly rulebook: Rulebook;
  private readonly latePenalty: number;

  constructor(rulebook: Rulebook, latePenalty: number) {
    this.rulebook = rulebook;
    this.latePenalty = latePenalty;
  }

  /** Points of an outcome as called. Outcomes whose value is not known must not come here. */
  of(outcome: PoolOutcome, called: Pick<Called, 'element' | 'lowestGrade'>): CalledOutcome {
    const key = `${outcome.id} ${called.lowestGrade} ${this.nameOf(called.element)}`;
    const known = this.known.get(key);
    if (known !== undefined) return known;
    const fresh = this.compute(outcome, called);
    this.known.set(key, fresh);
    return fresh;
  }

  private nameOf(element: Element): string {
    const name = this.names.get(element) ?? formatElement(element);
    this.names.set(element, name);
    return name;
  }

  private valueOf(element: Element, half: boolean): ReturnType<typeof elementValue> {
    const known = half ? this.late : this.early;
    const value = known.get(element) ?? elementValue(this.rulebook, element, { half });
    known.set(element, value);
    return value;
  }

  private compute(outcome: PoolOutcome, called: Pick<Called, 'element' | 'lowestGrade'>): CalledOutcome {
    const points = [
      this.pointsAt(outcome, called, false, 0),
      this.pointsAt(outcome, called, true, this.latePenalty),
      this.pointsAt(outcome, called, false, this.latePenalty),
    ] as const;
    const mean = (list: readonly Hundredths[]): number =>
      outcome.grades.reduce((sum, { p }, i) => sum + p * (list[i] ?? 0), 0);
    return { element: called.element, points, mean: [mean(points[0]), mean(points[1]), mean(points[2])] };
  }

  private pointsAt(
    outcome: PoolOutcome,
    { element, lowestGrade }: Pick<Called, 'element' | 'lowestGrade'>,
    half: boolean,
    penalty: number,
  ): readonly Hundredths[] {
    const value = this.valueOf(element, half && element.kind === 'jump');
    const { row, base } = value;
    if (!value.hasValue || row === null || base === null) return outcome.grades.map(() => 0);
    const taken = element.kind === 'jump' ? penalty : 0;
    return outcome.grades.map(({ grade }) => {
      const counted = lowestGrade ? this.rulebook.values.goe.min : clip(grade - taken, this.rulebook.values);
      return base + (goeOfGrade(row, counted) ?? 0);
    });
  }
}
