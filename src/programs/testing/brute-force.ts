import { distributionOf, type ProgramElement, type ProgramModel } from '../../forecast/index.ts';
import { parseCode, type Element } from '../../notation/index.ts';
import type { ChosenRules } from '../../rulebook/index.ts';
import {
  callNext,
  elementValue,
  finish,
  goeOfGrade,
  startProgram,
  type Inventory,
  type LayoutElement,
  type ProgramState,
} from '../../scoring/index.ts';
import type { Objective } from '../best/objective.ts';
import { objectiveOf } from '../worth.ts';

/*
 * The plainest possible search: every choice of entries, every order, every combination of outcomes.
 * It shares the calling of a program and the points of an element with the search under test, nothing else.
 */

export interface Brute {
  readonly value: number;
  readonly expected: number;
  readonly codes: readonly string[];
}

const read = new Map<string, Element>();

function elementOf(code: string): Element {
  const known = read.get(code);
  if (known !== undefined) return known;
  const parsed = parseCode(code);
  if (!parsed.ok) throw new Error(code);
  read.set(code, parsed.value.element);
  return parsed.value.element;
}

function* orders<T>(list: readonly T[]): Generator<readonly T[]> {
  if (list.length === 0) yield [];
  for (let i = 0; i < list.length; i++) {
    const first = list[i];
    if (first === undefined) continue;
    for (const rest of orders([...list.slice(0, i), ...list.slice(i + 1)])) yield [first, ...rest];
  }
}

function* subsets<T>(list: readonly T[]): Generator<readonly T[]> {
  const [first, ...rest] = list;
  if (first === undefined) yield [];
  else {
    for (const some of subsets(rest)) {
      yield some;
      yield [first, ...some];
    }
  }
}

/** Bonus by order: element i of n in the second half where 2 i >= n, the last so many jump elements of them. */
function bonusFlags(program: readonly LayoutElement[], last: number): readonly boolean[] {
  const n = program.length;
  const late = program.map((e, i) => elementOf(e.code).kind === 'jump' && 2 * i >= n);
  const numbers = late.flatMap((is, i) => (is ? [i] : [])).slice(-last || n);
  return program.map((_, i) => last > 0 && numbers.includes(i));
}

function isLegal(program: readonly LayoutElement[], start: ProgramState): boolean {
  let state = start;
  for (const entry of program) {
    const called = callNext(state, elementOf(entry.code), { bonus: false });
    if (called.reasons.length > 0) return false;
    state = called.state;
  }
  return finish(state).length === 0;
}

/** Distribution of the total in hundredths: every combination of outcomes in turn. */
function distribution(
  program: readonly LayoutElement[],
  start: ProgramState,
  rules: ChosenRules,
  last: number,
  latePenalty: number,
): Map<number, number> {
  const flags = bonusFlags(program, last);
  const falls = rules.deductions.deductions(rules.category, rules.segment).falls ?? [0];
  const { goe } = rules.values.values;
  const result = new Map<number, number>();
  const visit = (i: number, state: ProgramState, points: number, fallen: number, p: number): void => {
    const entry = program[i];
    if (entry === undefined) {
      result.set(points, (result.get(points) ?? 0) + p);
      return;
    }
    const isLate = 2 * i >= program.length;
    for (const outcome of entry.outcomes ?? []) {
      const called = callNext(state, elementOf(outcome.code), { bonus: flags[i] === true });
      const value = elementValue(rules.values, called.element, { half: called.half && called.element.kind === 'jump' });
      const deducted = outcome.fall ? (falls[fallen] ?? falls.at(-1) ?? 0) : 0;
      for (const { grade, p: share } of outcome.grades) {
        const penalty = isLate && called.element.kind === 'jump' ? latePenalty : 0;
        const counted = called.lowestGrade ? goe.min : Math.max(goe.min, Math.min(goe.max, grade - penalty));
        const goePoints = value.row === null ? 0 : (goeOfGrade(value.row, counted) ?? 0);
        const score = value.hasValue ? (value.base ?? 0) + goePoints : 0;
        visit(i + 1, called.state, points + score + deducted, fallen + (outcome.fall ? 1 : 0), p * outcome.p * share);
      }
    }
  };
  visit(0, start, 0, 0, 1);
  return result;
}

function worth(pmf: ReadonlyMap<number, number>, objective: Objective): number {
  const list = [...pmf].sort((a, b) => a[0] - b[0]);
  if (objective.kind === 'expected') return list.reduce((sum, [x, p]) => sum + x * p, 0) / 100;
  if (objective.kind === 'chance') return list.reduce((sum, [x, p]) => sum + (x >= objective.target ? p : 0), 0);
  let sum = 0;
  for (const [x, p] of list) {
    sum += p;
    if (sum >= objective.level - 1e-12) return x / 100;
  }
  return NaN;
}

/** Every legal program of a small inventory: each choice of entries that keeps the constraints, in each order. */
export function* everyProgram(inventory: Inventory, rules: ChosenRules): Generator<readonly LayoutElement[]> {
  const content = rules.content.content(rules.category, rules.segment);
  if (content === undefined) return;
  const start = startProgram(content, rules.values.values, rules.segment);
  const pool = inventory.elements.flatMap((e) => Array.from({ length: e.max ?? 1 }, () => e));
  const { must, never } = inventory.constraints;
  for (const some of subsets(pool)) {
    if (some.some((e) => never.includes(e.code)) || !must.every((code) => some.some((e) => e.code === code))) continue;
    for (const program of orders(some)) if (isLegal(program, start)) yield program;
  }
}

/** How many of the last jump elements earn the factor. */
const lastOf = (rules: ChosenRules): number => {
  const last = rules.content.content(rules.category, rules.segment)?.bonusLast ?? 0;
  return last === 'all' ? 99 : last;
};

/** A program as the forecast takes it, places by order. */
export function forecastElements(program: readonly LayoutElement[], rules: ChosenRules): readonly ProgramElement[] {
  const flags = bonusFlags(program, lastOf(rules));
  return program.map(({ code, outcomes }, i) => ({
    no: i + 1,
    code,
    bonus: flags[i] === true,
    outcomes: (outcomes ?? []).map((o) => ({ ...o, element: elementOf(o.code) })),
  }));
}

/** Better first; of equal values the one with the higher expected score. */
const isBetter = (value: number, expected: number, known: Brute | null): boolean =>
  known === null || value > known.value + 1e-11 || (value > known.value - 1e-11 && expected > known.expected);

/** The best layout of a small inventory by trying everything; null: none is legal. */
export function bruteForce(
  inventory: Inventory,
  rules: ChosenRules,
  objectives: readonly Objective[],
): readonly (Brute | null)[] {
  const content = rules.content.content(rules.category, rules.segment);
  if (content === undefined) return objectives.map(() => null);
  const start = startProgram(content, rules.values.values, rules.segment);
  const best: (Brute | null)[] = objectives.map(() => null);
  for (const program of everyProgram(inventory, rules)) {
    const pmf = distribution(program, start, rules, lastOf(rules), inventory.constraints.latePenalty);
    const expected = worth(pmf, { kind: 'expected' });
    objectives.forEach((objective, i) => {
      const value = worth(pmf, objective);
      if (isBetter(value, expected, best[i] ?? null)) best[i] = { value, expected, codes: program.map((e) => e.code) };
    });
  }
  return best;
}

/**
 * The same where a form of the day or the spread of components plays a part: every legal program in turn,
 * its distribution by the forecast. What it is to check is the search, not the forecast.
 */
export function bruteForecast(
  inventory: Inventory,
  rules: ChosenRules,
  model: ProgramModel,
  objectives: readonly Objective[],
): readonly (Brute | null)[] {
  const best: (Brute | null)[] = objectives.map(() => null);
  for (const program of everyProgram(inventory, rules)) {
    const pmf = distributionOf({ ...model, elements: forecastElements(program, rules) });
    if (!pmf.ok) throw new Error(pmf.error.advice);
    const expected = objectiveOf(pmf.value, { kind: 'expected' });
    objectives.forEach((objective, i) => {
      const value = objectiveOf(pmf.value, objective);
      if (isBetter(value, expected, best[i] ?? null)) best[i] = { value, expected, codes: program.map((e) => e.code) };
    });
  }
  return best;
}
