import { ok, type Result } from '../notation/index.ts';
import type { ChosenRules } from '../rulebook/index.ts';
import type { Layout } from '../scoring/index.ts';
import { summarise, type Summary } from './answer.ts';
import { distributionOf, nodesFor } from './exact/distribution.ts';
import { programGraph } from './exact/graph.ts';
import { elementMoments } from './exact/moments.ts';
import type { ProgramModel, ScoreOf } from './exact/program.ts';
import { tiltGraph } from './exact/tilted.ts';
import { buildModel, type Basis, type BuiltModel, type Evidence } from './model.ts';
import { placeChances } from './place.ts';
import { convolve, moments, type Pmf } from './pmf.ts';
import { sensitivityOf, type Sensitivity } from './sensitivity.ts';

/** Mean and spread of one element's score, in points, and its share of the variance of the score asked. */
export interface ElementFigures {
  readonly no: number;
  readonly mean: number;
  readonly sd: number;
  readonly share: number;
}

export interface Forecast extends Summary {
  readonly id: string | null;
  readonly rulebook: string;
  readonly on: ScoreOf | 'event';
  readonly byElement: readonly ElementFigures[];
  readonly sensitivity?: readonly Sensitivity[];
  /** Chance of each place against the field given; null where no chance may be printed. */
  readonly places?: readonly { readonly place: number; readonly p: number }[] | null;
  readonly basis: Basis;
  readonly warnings: readonly string[];
}

export interface ForecastOptions {
  readonly on: ScoreOf;
  /** Points. */
  readonly targets: readonly number[];
  readonly pmf: boolean;
  /** With what one per cent more reliability of each element brings. */
  readonly sensitivity?: boolean;
  /** Distributions of the rivals of this score, for the chance of a place. */
  readonly field?: readonly Pmf[];
}

/** With fewer of her own protocols of the segment a learnt model prints no chance. */
export const CHANCES_FROM = 3;

export const mayPrintChances = ({ learnt, programs }: Basis): boolean => !learnt || programs >= CHANCES_FROM;

/** Per element: mean and spread of its score; for the component score there are none. */
export function elementFigures(model: ProgramModel, on: ScoreOf, variance: number): Result<readonly ElementFigures[]> {
  if (on === 'pcs') return ok([]);
  const graph = programGraph(model, on === 'total');
  if (!graph.ok) return graph;
  const nodes = nodesFor(model.formSd);
  const found = elementMoments(tiltGraph(graph.value, model.formSd, nodes), nodes);
  return ok(
    found.map(({ no, mean, sd, covariance }) => ({
      no,
      mean: mean / 100,
      sd: sd / 100,
      share: variance > 0 ? covariance / variance : 0,
    })),
  );
}

/**
 * The forecast of one program: exact distribution of the element score, component score or total,
 * with quantiles, chances of targets and the share of each element in the spread. A learnt model with
 * fewer than three of her own protocols of the segment has `chances: null`.
 */
export function forecast(
  layout: Layout,
  rules: ChosenRules,
  evidence: Evidence,
  options: ForecastOptions,
): Result<Forecast> {
  const built = buildModel(layout, rules, evidence, options.on);
  return built.ok ? forecastOf(built.value, layout.id, options) : built;
}

/** The forecast of a model that is built already, for whoever goes on working with it. */
export function forecastOf(
  { model, basis, warnings }: BuiltModel,
  id: string | null,
  options: ForecastOptions,
): Result<Forecast> {
  const pmf = distributionOf(model, options.on);
  if (!pmf.ok) return pmf;
  const byElement = elementFigures(model, options.on, moments(pmf.value).variance);
  if (!byElement.ok) return byElement;
  const sensitivity = options.sensitivity === true ? sensitivities(model, options) : ok([]);
  if (!sensitivity.ok) return sensitivity;
  return ok({
    id,
    rulebook: model.rules.id,
    on: options.on,
    ...summarise(pmf.value, { targets: mayPrintChances(basis) ? options.targets : null, pmf: options.pmf }),
    byElement: byElement.value,
    ...(options.sensitivity === true ? { sensitivity: sensitivity.value } : {}),
    ...(options.field === undefined
      ? {}
      : { places: mayPrintChances(basis) ? placesOf(pmf.value, options.field) : null }),
    basis,
    warnings,
  });
}

const placesOf = (own: Pmf, field: readonly Pmf[]): readonly { readonly place: number; readonly p: number }[] =>
  placeChances(own, field).map((p, i) => ({ place: i + 1, p }));

function sensitivities(model: ProgramModel, { on, targets }: ForecastOptions): Result<readonly Sensitivity[]> {
  const found: Sensitivity[] = [];
  for (const index of model.elements.keys()) {
    const one = sensitivityOf(model, index, on, targets);
    if (!one.ok) return one;
    if (one.value !== null) found.push(one.value);
  }
  return ok(found);
}

/** The total of two segments. Two programs are skated on two days: their forms are independent. */
export function eventDistribution(short: ProgramModel, free: ProgramModel): Result<Pmf> {
  const a = distributionOf(short, 'total');
  if (!a.ok) return a;
  const b = distributionOf(free, 'total');
  return b.ok ? ok(convolve(a.value, b.value)) : b;
}

/** A forecast over both segments of an event; `byElement` numbers the elements of the first, then of the second. */
export function forecastEvent(
  pair: readonly [BuiltModel, BuiltModel],
  id: string | null,
  options: Pick<ForecastOptions, 'targets' | 'pmf' | 'field'>,
): Result<Forecast> {
  const [first, second] = pair;
  const pmf = eventDistribution(first.model, second.model);
  if (!pmf.ok) return pmf;
  const { variance } = moments(pmf.value);
  const a = elementFigures(first.model, 'total', variance);
  if (!a.ok) return a;
  const b = elementFigures(second.model, 'total', variance);
  if (!b.ok) return b;
  const chances = mayPrintChances(first.basis) && mayPrintChances(second.basis);
  const offset = a.value.length;
  return ok({
    id,
    rulebook: first.model.rules.id,
    on: 'event',
    ...summarise(pmf.value, { targets: chances ? options.targets : null, pmf: options.pmf }),
    ...(options.field === undefined ? {} : { places: chances ? placesOf(pmf.value, options.field) : null }),
    byElement: [...a.value, ...b.value.map((e) => ({ ...e, no: e.no + offset }))],
    basis: {
      ...first.basis,
      learnt: first.basis.learnt || second.basis.learnt,
      programs: Math.min(first.basis.programs, second.basis.programs),
      words:
        first.basis.words === second.basis.words ? first.basis.words : `${first.basis.words} ${second.basis.words}`,
    },
    warnings: [...new Set([...first.warnings, ...second.warnings])],
  });
}
