import type { Element } from '../../notation/index.ts';
import type { ChosenRules } from '../../rulebook/index.ts';
import { elementValue } from '../../scoring/index.ts';
import type { OtherDeduction, SkatedOutcome } from '../exact/program.ts';
import { jumpOutcomes, type WeightedTry } from './jump-model.ts';
import { levelFamily } from './level-status.ts';
import { levelOutcomes, type WeightedLevel } from './level-model.ts';
import { firstJump, matchPlan } from './match.ts';
import type { PracticeRow } from './practice.ts';
import type { Priors } from './priors.ts';
import { recencyWeights } from './recency.ts';
import { shrunk, zeroCounts } from './rates.ts';
import type { EarlierProgram, Skated } from './skated.ts';
import { jumpClass, jumpTry, secondMoved, severityOf } from './status.ts';

/** What her own record says of the elements of one plan. */
export interface OwnRecord {
  readonly programs: readonly EarlierProgram[];
  /** One for each of the programs, then one for each run-through. */
  readonly weights: readonly number[];
  /** `tries[program or run-through][planned element]`. */
  readonly tries: readonly (readonly (Skated | null)[])[];
  /** Programs and run-throughs in which a second jump that is absent was put elsewhere. */
  readonly moved: readonly boolean[];
  /** How far her usual grade lies above the field's, in shares of the scale. */
  readonly offset: number;
}

/** Grades of her own that it takes to believe in half of an offset. */
const OFFSET_STRENGTH = 8;

/** What the field's mean grade would be for something she did. */
function expectedGrade(skated: Skated, priors: Priors): number | null {
  const family = levelFamily(skated.element);
  if (family !== null) return priors.levelGrade[family].mean;
  const first = firstJump(skated.element);
  const one = jumpTry(skated.element, skated);
  if (first === undefined || one === undefined || skated.fall) return null;
  return priors.jumpGrade[jumpClass(first)][severityOf(one)].mean;
}

function offsetOf(programs: readonly EarlierProgram[], weights: readonly number[], priors: Priors): number {
  let sum = 0;
  let n = 0;
  programs.forEach(({ skated }, i) => {
    const w = weights[i] ?? 0;
    for (const s of skated) {
      const expected = expectedGrade(s, priors);
      if (s.grade === null || expected === null) continue;
      sum += w * (s.grade - expected);
      n += w;
    }
  });
  return sum / (n + OFFSET_STRENGTH);
}

/**
 * Sorts her earlier programs (both segments) by what they tell about each planned element. `likeness`
 * lowers the weight of events unlike the one to come (1 where alike or unknown). Run-throughs stand
 * behind the programs, each with its own small weight; they tell of jumps alone.
 */
export function ownRecord(
  planned: readonly Element[],
  programs: readonly EarlierProgram[],
  rules: ChosenRules,
  priors: Priors,
  likeness: readonly number[] = [],
  practice: readonly PracticeRow[] = [],
): OwnRecord {
  const weights = recencyWeights(programs, rules.ageGroup).map((w, i) => w * (likeness[i] ?? 1));
  const rows = [...programs, ...practice];
  return {
    programs,
    weights: [...weights, ...practice.map((p) => p.weight)],
    tries: rows.map(({ skated }) => matchPlan(planned, skated)),
    moved: rows.map(({ skated }) => secondMoved(planned, skated)),
    offset: offsetOf(programs, weights, priors),
  };
}

/** A try of the same first jump in another element counts half, and says nothing of the second jump. */
const RELATED = 0.5;

function jumpTries(planned: readonly Element[], index: number, record: OwnRecord): readonly WeightedTry[] {
  const plan = planned[index];
  const first = plan === undefined ? undefined : firstJump(plan);
  if (plan === undefined || first === undefined) return [];
  return record.tries.flatMap((row, p) =>
    row.flatMap((skated, i): readonly WeightedTry[] => {
      const other = planned[i];
      const otherFirst = other === undefined ? undefined : firstJump(other);
      if (skated === null || other === undefined || otherFirst === undefined) return [];
      const weight = record.weights[p] ?? 0;
      const one = jumpTry(other, skated, record.moved[p]);
      if (one === undefined) return [];
      if (i === index) return [{ one, weight }];
      const related = otherFirst.name === first.name && otherFirst.turns === first.turns;
      return related ? [{ one: { ...one, second: null }, weight: RELATED * weight }] : [];
    }),
  );
}

/** Spins and sequences of the same family; another spin of the family counts half. */
function levelTries(plan: Element, index: number, record: OwnRecord): readonly WeightedLevel[] {
  const family = levelFamily(plan);
  return record.programs.flatMap(({ skated }, p) => {
    const own = record.tries[p]?.[index] ?? null;
    const weight = record.weights[p] ?? 0;
    return skated
      .filter((s) => levelFamily(s.element) === family)
      .map((s) => ({ element: s.element, grade: s.grade, weight: s === own ? weight : RELATED * weight }));
  });
}

/** An element of which more than this share would be left out is not known: nothing may be left out then. */
const MOST_LEFT_OUT = 0.5;

/**
 * Leaves out what the rulebook has no value for (a reduced spin that its season does not list). Where
 * that is most of the element, its value is unknown, never 0: all stays, and whoever adds points says so.
 */
function valued(outcomes: readonly SkatedOutcome[], rules: ChosenRules): readonly SkatedOutcome[] {
  const kept = outcomes.filter((o) => elementValue(rules.values, o.element).unknown.length === 0);
  const total = kept.reduce((sum, o) => sum + o.p, 0);
  return total > 1 - MOST_LEFT_OUT ? kept.map((o) => ({ ...o, p: o.p / total })) : outcomes;
}

const DEFAULT_CAP = null;

/**
 * Outcomes of one planned element: learnt from her own record beside the field's rates. `grade` is the
 * expected grade that the layout states, null where it states none.
 */
export function learnElement(
  planned: readonly Element[],
  index: number,
  grade: number | null,
  record: OwnRecord,
  rules: ChosenRules,
  priors: Priors,
): readonly SkatedOutcome[] {
  const plan = planned[index];
  if (plan === undefined) return [];
  const scale = rules.values.values.goe;
  const given = { offset: record.offset, grade };
  if (plan.kind === 'jump') {
    return valued(jumpOutcomes(plan, jumpTries(planned, index, record), priors, scale, given), rules);
  }
  const { category, levels } = rules;
  const cap =
    plan.kind === 'spin'
      ? levels.spins(category).cap
      : plan.kind === 'steps'
        ? levels.steps(category).cap
        : DEFAULT_CAP;
  return valued(levelOutcomes(plan, levelTries(plan, index, record), priors, scale, { ...given, cap }), rules);
}

const DEDUCTION_STRENGTH = 6;

/** Deductions besides falls, as one chance of one point; only from sheets that say or allow to tell. */
export function learnDeductions(record: OwnRecord, priors: Priors): readonly OtherDeduction[] {
  const own = zeroCounts(['some', 'none'] as const);
  record.programs.forEach(({ protocol, skated }, i) => {
    if (protocol.deductions === null) return;
    const falls = skated.filter((s) => s.fall).length;
    own[-protocol.deductions.total > 100 * falls ? 'some' : 'none'] += record.weights[i] ?? 0;
  });
  const rate = shrunk(own, priors.otherDeduction, DEDUCTION_STRENGTH).some;
  return rate > 0.001 ? [{ points: -100, p: rate }] : [];
}
