import type { KeyPoint, Level } from '../notation/index.ts';
import type { StepRules } from '../rulebook/index.ts';
import { explainSteps, type TurnLevel } from './feedback-steps.ts';
import { planOf, type StepPlan } from './step-assess.ts';
import { countGrids } from './step-chances.ts';
import { eachPoint, turnLevelOf, type Grid } from './step-grid.ts';
import type { Move } from './step-sequence.ts';

/** What the panel said about one event, in a critique; used as evidence and named as such. */
export interface Told {
  /** Moves that were credited, or not, by index in the plan. */
  readonly credited?: readonly number[];
  readonly notCredited?: readonly number[];
  /** Counted difficult turns, if a number was named. */
  readonly counted?: { readonly min: number; readonly max: number };
}

/** One event's step sequence: what the sheet prints, and what was told. */
export interface StepSheet {
  readonly level: Level | null;
  readonly letters: readonly KeyPoint[] | null;
  readonly told?: Told;
}

export interface Interval {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
  /** Probability that the interval holds, e.g. 0.95. */
  readonly level: number;
}

export interface StepInference {
  /** Chance that a planned turn is credited; null where no sheet could be used. */
  readonly rate: Interval | null;
  /** The same as turns of the plan: expected number credited of `planned`. */
  readonly turns: (Interval & { readonly planned: number }) | null;
  /** By sheet: used, or why not. */
  readonly sheets: readonly { readonly used: boolean; readonly why: string | null }[];
  readonly assumptions: readonly string[];
}

export const INFERENCE_ASSUMPTIONS: readonly string[] = [
  'The planned sequence was skated at every event as written here.',
  'Every planned turn has the same chance of being credited, at every event, and turns are independent.',
  'A combination is met if all its turns are credited and the panel accepts its flow; how often it does is unknown and averaged over.',
  'Rotation and body movement do not depend on the turns.',
  'Before any sheet, every chance from 0 to 1 is thought equally likely.',
  'Letters stand in the order rotation, body movements, clusters (common practice, no source), and level = min(turn level, 1 + features).',
];

/**
 * Stated probability of the intervals. A 90 % interval would miss a true rate in one season of ten,
 * which is more than a coach expects of "usually".
 */
export const INTERVAL = 0.95;

const RATES = Array.from({ length: 101 }, (_, n) => n / 100);
/** How often the panel accepts a combination whose turns are all credited. */
const ACCEPTANCES = Array.from({ length: 21 }, (_, n) => n / 20);

/**
 * How many planned turns are usually credited, from the levels and letters of several sheets. Exact on
 * a grid of rates; the interval holds with the stated probability and is widened to whole per cents.
 */
export const inferStepCredit = (
  moves: readonly Move[],
  rules: StepRules,
  sheets: readonly StepSheet[],
  level = INTERVAL,
): StepInference => creditInference(moves, rules)(sheets, level);

/** The same for one plan and many lists of sheets: what depends on the plan alone is computed once. */
export function creditInference(
  moves: readonly Move[],
  rules: StepRules,
): (sheets: readonly StepSheet[], level?: number) => StepInference {
  const plan = planOf(moves, rules);
  const plain = RATES.map((rate) => turnLevelChances(plan, rate, {}));
  const planned = plan.groups.reduce((n, { byDirection }) => n + byDirection.cw.length + byDirection.ccw.length, 0);
  return (sheets, level = INTERVAL) => {
    const read = sheets.map((sheet) => readSheet(plan, sheet));
    const usable = read.filter((one) => one.cases !== null);
    const common = {
      sheets: read.map(({ cases, why }) => ({ used: cases !== null, why })),
      assumptions: INFERENCE_ASSUMPTIONS,
    };
    if (usable.length === 0 || planned === 0) return { ...common, rate: null, turns: null };
    const rate = intervalOf(posteriorOf(plan, plain, usable), level);
    const turns = { planned, level, mean: rate.mean * planned, low: rate.low * planned, high: rate.high * planned };
    return { ...common, rate, turns };
  };
}

/** Turn level and cluster outcome that a sheet allows. */
interface SheetCase {
  readonly turnLevel: TurnLevel;
  /** null: the plan says nothing about the clusters, so the letter is left aside. */
  readonly clusters: boolean | null;
}

interface ReadSheet {
  readonly cases: readonly SheetCase[] | null;
  readonly told: Told;
  readonly why: string | null;
}

function readSheet(plan: StepPlan, { level, letters, told = {} }: StepSheet): ReadSheet {
  const { consistent, explanations } = explainSteps({ level, letters, rules: plan.rules });
  if (!consistent) return { cases: null, told, why: 'level and letters contradict each other' };
  if (explanations.length === 0) return { cases: null, told, why: 'no level was confirmed' };
  if (plan.clusters.valid) return { cases: distinct(explanations), told, why: null };
  const why = letters?.[2] === undefined ? null : 'the plan has no valid combinations: the third letter was left aside';
  return { cases: distinct(explanations.map((one) => ({ ...one, clusters: null }))), told, why };
}

function distinct(cases: readonly SheetCase[]): SheetCase[] {
  const seen = new Map(
    cases.map(({ turnLevel, clusters }) => [`${turnLevel}${String(clusters)}`, { turnLevel, clusters }]),
  );
  return [...seen.values()];
}

/** Probability of each rate of the grid, given the usable sheets; acceptance of flow is averaged over. */
function posteriorOf(plan: StepPlan, plain: readonly TurnLevelChances[], sheets: readonly ReadSheet[]): number[] {
  const logs = RATES.map((rate, at) => {
    const chances = sheets.map(({ told }) => (isEmpty(told) ? plain[at] : turnLevelChances(plan, rate, told)));
    return ACCEPTANCES.map((accepted) =>
      sheets.reduce((sum, sheet, k) => sum + Math.log(likelihood(sheet.cases ?? [], chances[k], accepted)), 0),
    );
  });
  const top = Math.max(...logs.flat());
  const weights = logs.map((row) => row.reduce((sum, log) => sum + Math.exp(log - top), 0));
  const total = weights.reduce((a, b) => a + b, 0);
  return weights.map((weight) => weight / total);
}

const isEmpty = (told: Told): boolean => Object.keys(told).length === 0;

/** Chance of each turn level, over all cases and over those in which all cluster turns are credited. */
interface TurnLevelChances {
  readonly all: readonly number[];
  readonly met: readonly number[];
}

function turnLevelChances(plan: StepPlan, rate: number, told: Told): TurnLevelChances {
  const sure = new Set(told.credited);
  const lost = new Set(told.notCredited);
  const { all, met } = countGrids(plan, (index) => (lost.has(index) ? 0 : sure.has(index) ? 1 : rate));
  const weight = rate ** sure.size * (1 - rate) ** lost.size;
  const none = [0, 0, 0, 0, 0];
  return {
    all: byTurnLevel(all, plan.rules, weight, told),
    met: met === null ? none : byTurnLevel(met, plan.rules, weight, told),
  };
}

function byTurnLevel(grid: Grid, rules: StepRules, weight: number, { counted }: Told): number[] {
  const sums = [0, 0, 0, 0, 0];
  eachPoint(grid, (count, p) => {
    if (counted !== undefined && (count.sum < counted.min || count.sum > counted.max)) return;
    const turnLevel = turnLevelOf(count, rules);
    sums[turnLevel] = (sums[turnLevel] ?? 0) + p * weight;
  });
  return sums;
}

function likelihood(cases: readonly SheetCase[], chances: TurnLevelChances | undefined, accepted: number): number {
  let sum = 0;
  for (const { turnLevel, clusters } of cases) {
    const all = chances?.all[turnLevel] ?? 0;
    const met = accepted * (chances?.met[turnLevel] ?? 0);
    sum += clusters === null ? all : clusters ? met : Math.max(0, all - met);
  }
  return sum;
}

/** Mean and equal-tailed interval of a distribution over the grid of rates. */
export function intervalOf(probabilities: readonly number[], level: number): Interval {
  const steps = probabilities.length - 1;
  const tail = (1 - level) / 2;
  const mean = probabilities.reduce((sum, p, n) => sum + (p * n) / steps, 0);
  let below = 0;
  let low = 0;
  let high = 1;
  let isOpen = true;
  probabilities.forEach((p, n) => {
    if (below <= tail) low = n / steps;
    below += p;
    if (isOpen && below >= 1 - tail) {
      high = n / steps;
      isOpen = false;
    }
  });
  return { mean, low, high, level };
}
