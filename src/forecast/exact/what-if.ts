import { fail, ok, type Problem, type Result } from '../../notation/index.ts';
import { addWindows, emptySpectrum, type Spectrum } from '../math/fourier.ts';
import type { Pmf } from '../pmf.ts';
import { fromSpectrum } from './distribution.ts';
import { programGraph, type Level } from './graph.ts';
import { ownPoints } from './own-points.ts';
import { calledPoints, type CalledPoints } from './points.ts';
import type { ProgramModel, ScoreOf, SkatedOutcome } from './program.ts';
import { surroundingsOf, type Step, type Surroundings } from './surroundings.ts';
import { tiltLevel } from './tilted.ts';

/** One element taken in hand: everything else is summed once and kept. */
export interface ElementInHand {
  /**
   * The distribution with other chances or grades for this element, in well under a frame. Outcomes must
   * be the same elements and falls as before, in the same order: another element can change what later
   * ones are called, and asks for a forecast of its own.
   */
  with(outcomes: readonly SkatedOutcome[]): Result<Pmf>;
}

/** An outcome in all states in which it is called alike. */
interface Way {
  readonly outcome: number;
  readonly value: number;
  readonly deduct: number;
  readonly steps: Step[];
}

function waysOf(level: Level): readonly Way[] {
  const ways = new Map<string, Way>();
  level.arcs.forEach((row, state) => {
    row.forEach(({ value, deduct, next }, outcome) => {
      const key = `${outcome} ${value} ${deduct}`;
      const way = ways.get(key) ?? { outcome, value, deduct, steps: [] };
      ways.set(key, way);
      way.steps.push([state, next]);
    });
  });
  return [...ways.values()];
}

/** Points that the element can bring at least and at most, whatever its grades, deductions included. */
function reachOf(level: Level, model: ProgramModel): { readonly low: number; readonly high: number } {
  const { min, max } = model.rules.values.values.goe;
  const grades = [min, max].map((grade) => ({ grade, p: 0.5 }));
  let low = 0;
  let high = 0;
  for (const { outcome, value, deduct } of waysOf(level)) {
    const skated = level.element.outcomes[outcome];
    const called = level.values[value]?.called;
    if (skated === undefined || called === undefined) continue;
    const ends = calledPoints(called, { ...skated, grades }, model.rules.values);
    for (const points of ends.ok ? ends.value.points : []) {
      low = Math.min(low, points + deduct);
      high = Math.max(high, points + deduct);
    }
  }
  return { low, high };
}

const otherElement = (index: number): Problem => ({
  code: 'forecast.what-if',
  at: `elements[${index}].outcomes`,
  found: 'other elements or falls than before',
  expected: 'the same outcomes with other chances or grades',
  advice: 'Ask for a new forecast of the changed layout.',
});

const sameOutcomes = (before: readonly SkatedOutcome[], after: readonly SkatedOutcome[]): boolean =>
  before.length === after.length &&
  before.every((b, i) => b.fall === after[i]?.fall && JSON.stringify(b.element) === JSON.stringify(after[i].element));

/** The level with the points of other grades. */
function withOutcomes(level: Level, outcomes: readonly SkatedOutcome[], model: ProgramModel): Result<Level> {
  const values: CalledPoints[] = [...level.values];
  for (const { outcome, value } of waysOf(level)) {
    const skated = outcomes[outcome];
    const called = level.values[value]?.called;
    if (skated === undefined || called === undefined) continue;
    const points = calledPoints(called, skated, model.rules.values);
    if (!points.ok) return points;
    values[value] = points.value;
  }
  const element = { ...level.element, outcomes };
  return ok({ ...level, element, values, own: ownPoints(element, model.rules) });
}

/** The element's points by the steps that bring them, as windows that begin at `low`. */
function windowsAt(
  level: Level,
  keys: readonly string[],
  chances: readonly (readonly number[])[],
  low: number,
  length: number,
): ReadonlyMap<string, Float64Array> {
  const windows = new Map<string, Float64Array>();
  waysOf(level).forEach(({ outcome, value, deduct }, w) => {
    const key = keys[w] ?? '';
    const window = windows.get(key) ?? new Float64Array(length);
    windows.set(key, window);
    const points = level.values[value]?.points ?? [];
    chances[outcome]?.forEach((p, g) => {
      const at = (points[g] ?? 0) + deduct - low;
      window[at] = (window[at] ?? 0) + p;
    });
  });
  return windows;
}

const keyOf = (steps: readonly Step[]): string => steps.map(([a, b]) => `${a}>${b}`).join(' ');

/** Spectra of the surroundings by node and by steps. */
function spectraOf(rest: Surroundings, ways: readonly Way[]): readonly ReadonlyMap<string, Spectrum>[] {
  return rest.nodes.map((_, node) => {
    const spectra = new Map<string, Spectrum>();
    for (const { steps } of ways) {
      if (!spectra.has(keyOf(steps))) spectra.set(keyOf(steps), rest.around(steps, node));
    }
    return spectra;
  });
}

/**
 * Takes one element in hand (index from 0). Costs about as much as a forecast; after that each `with`
 * costs a few transforms.
 */
export function takeInHand(model: ProgramModel, index: number, on: ScoreOf = 'total'): Result<ElementInHand> {
  const graph = programGraph(model, on === 'total');
  if (!graph.ok) return graph;
  const original = graph.value.levels[index];
  const reach = original === undefined ? { low: 0, high: 0 } : reachOf(original, model);
  const rest = surroundingsOf(graph.value, index, reach.high - reach.low + 1, model, on);
  if (rest === null || original === undefined) return fail(otherElement(index));
  const ways = waysOf(rest.level);
  const keys = ways.map(({ steps }) => keyOf(steps));
  const spectra = spectraOf(rest, ways);
  return ok({
    with(outcomes) {
      if (!sameOutcomes(original.element.outcomes, outcomes)) return fail(otherElement(index));
      const level = withOutcomes(rest.level, outcomes, model);
      if (!level.ok) return level;
      const { chances } = tiltLevel(level.value, model.formSd, rest.nodes);
      const total = emptySpectrum(rest.n);
      rest.nodes.forEach(({ weight }, node) => {
        const windows = windowsAt(level.value, keys, chances[node] ?? [], reach.low, reach.high - reach.low + 1);
        const pairs = [...windows].flatMap(([key, window]) => {
          const spectrum = spectra[node]?.get(key);
          return spectrum === undefined ? [] : [{ window, spectrum }];
        });
        addWindows(total, pairs, weight);
      });
      return ok(fromSpectrum(total, { from: rest.from + reach.low, width: rest.width + reach.high - reach.low }));
    },
  });
}
