import type { Element } from '../notation/index.ts';
import type { Hundredths, Rulebook } from '../rulebook/index.ts';
import { elementValue, type PanelRule } from '../scoring/index.ts';
import { blendOf, CODE_CAUSES, type Blend } from './blend.ts';
import { causeOrder, CAUSES, isObliging, type Cause } from './causes.ts';
import { add, fraction, subtract, ZERO, type Fraction } from './fraction.ts';
import { goeOfFractions, meanGrade, present } from './grades.ts';
import { gradeGap, obligedGrades, type ObligedByCause } from './obliged.ts';
import type { Reference, Skated } from './sides.ts';

/** The element as a question of causes: `values[set]` is its score when the causes in `set` happened. */
export interface ElementGame {
  /** Causes present, in the fixed order; bit i of a set stands for `causes[i]`. */
  readonly causes: readonly Cause[];
  /** 2^causes scores; the last is the sheet's, the first the reference's. */
  readonly values: readonly Hundredths[];
  readonly obliged: ObligedByCause;
}

/** What an element's score is computed with. */
export interface ValueContext {
  readonly rulebook: Rulebook;
  readonly panel: PanelRule;
}

/**
 * All scores between the sheet and the reference. Where a score in between is not known (a row that the
 * season's table does not have), the causes on the code are taken together under the gravest. Null
 * where one of the two ends is not known: such an element is left out on both sides.
 */
export function elementGame(skated: Skated, reference: Reference, context: ValueContext): ElementGame | null {
  if (offScale(skated, context.rulebook)) return null;
  const gap = gradeGap(reference.grade, meanGrade(skated.marks, context.panel));
  const obliged = obligedGrades(skated, context.rulebook.reductions(), gap);
  const blend = blendOf(skated.element, reference.element);
  const causes = causesPresent(blend, skated, reference);
  const scoreUnder = (has: (cause: Cause) => boolean): Hundredths | null => {
    const half = has('second-half') ? skated.half : (reference.half ?? skated.half);
    return score(blend.under(has), half, marksUnder(has, skated, reference, obliged), context);
  };
  const groups = [causes.map((cause) => [cause]), together(causes, CODE_CAUSES), together(causes, CAUSES)];
  for (const players of groups) {
    const values = allScores(players, scoreUnder);
    if (values !== null) return { causes: players.flatMap((player) => player[0] ?? []), values, obliged };
  }
  return null;
}

/** The causes of `from` as one player, named by the gravest of them; the others as they are. */
function together(causes: readonly Cause[], from: readonly Cause[]): (readonly Cause[])[] {
  const joined = causes.filter((cause) => from.includes(cause));
  const gravest = GRAVEST.find((cause) => joined.includes(cause));
  if (gravest === undefined) return causes.map((cause) => [cause]);
  const player = [gravest, ...joined.filter((cause) => cause !== gravest)];
  return causes.flatMap((cause) => (cause === gravest ? [player] : joined.includes(cause) ? [] : [[cause]]));
}

const GRAVEST: readonly Cause[] = ['no-value', 'content', 'V', 'level', ...CAUSES];

/** Scores of all sets of players, bit i for player i; null as soon as one is not known. */
function allScores(
  players: readonly (readonly Cause[])[],
  scoreUnder: (has: (cause: Cause) => boolean) => Hundredths | null,
): Hundredths[] | null {
  const values: Hundredths[] = [];
  for (let set = 0; set < 1 << players.length; set += 1) {
    const happened = players.flatMap((player, place) => (((set >> place) & 1) === 1 ? player : []));
    const value = scoreUnder((cause) => happened.includes(cause));
    if (value === null) return null;
    values.push(value);
  }
  return values;
}

const offScale = (skated: Skated, rulebook: Rulebook): boolean =>
  present(skated.marks).some((mark) => mark < rulebook.values.goe.min || mark > rulebook.values.goe.max);

function causesPresent(blend: Blend, skated: Skated, reference: Reference): Cause[] {
  const causes = [...blend.causes];
  if (reference.half !== null && reference.half !== skated.half) causes.push('second-half');
  if (skated.fall) causes.push('fall');
  if (present(skated.marks).length > 0) causes.push('execution');
  return causes.sort((a, b) => causeOrder(a) - causeOrder(b));
}

/**
 * Judges' marks when only some causes happened: with execution the printed marks plus all obliged
 * grades, else the reference grade; less the obliged grades of the calls that happened.
 */
function marksUnder(
  has: (cause: Cause) => boolean,
  skated: Skated,
  reference: Reference,
  obliged: ObligedByCause,
): Fraction[] {
  const sum = (wanted: (cause: Cause) => boolean): Fraction =>
    [...obliged].reduce((total, [cause, grades]) => (wanted(cause) ? add(total, grades.booked) : total), ZERO);
  const taken = sum(has);
  if (!has('execution')) return [subtract(reference.grade, taken)];
  const restored = subtract(sum(isObliging), taken);
  return present(skated.marks).map((mark) => add(fraction(mark), restored));
}

/** Base and grades of an element; 0 without value, null where the season's value is not known. */
export function score(
  element: Element,
  half: boolean,
  marks: readonly Fraction[],
  context: ValueContext,
): Hundredths | null {
  const value = elementValue(context.rulebook, element, { half });
  if (!value.hasValue) return 0;
  if (value.base === null || value.row === null) return null;
  const goe = goeOfFractions(value.row, marks, context.panel);
  return goe === null ? null : value.base + goe;
}
