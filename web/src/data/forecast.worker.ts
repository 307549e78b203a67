import {
  buildModel,
  forecastOf,
  meanGains,
  outcomesAt,
  reliabilityOf,
  storedPriors,
  summarise,
  takeInHand,
  type BuiltModel,
  type ElementInHand,
  type Evidence,
  type LoggedRunThrough,
} from '../../../src/forecast/index.ts';
import { describeProblem } from '../../../src/notation/index.ts';
import { readLayout, type Protocol } from '../../../src/scoring/index.ts';
import { loadOwnRules } from './own-rules.ts';
import { historyOf, rulesFor, withFactors } from './programs.ts';

/** What changes seldom: the skater's earlier sheets and run-throughs. */
export interface ForecastRecord {
  readonly history: readonly Record<string, unknown>[];
  readonly practice: readonly LoggedRunThrough[];
  readonly body: string | null;
}

export interface ForecastQuestion {
  readonly layout: Record<string, unknown>;
  readonly target: number | null;
}

/** One element with another chance of coming off, everything else as last asked. */
export interface ForecastTrial {
  readonly index: number;
  /** 0 to 1. */
  readonly reliability: number;
}

export type ForecastMessage =
  | { readonly kind: 'record'; readonly record: ForecastRecord }
  | { readonly kind: 'ask'; readonly question: ForecastQuestion }
  | { readonly kind: 'try'; readonly trial: ForecastTrial }
  | { readonly kind: 'take'; readonly index: number }
  | { readonly kind: 'moves' };

type Quantile = '0.025' | '0.1' | '0.25' | '0.5' | '0.75' | '0.9' | '0.975';

/** The range in numbers: what moves with a slider. */
export interface RangeAnswer {
  readonly mean: number;
  readonly quantiles: Readonly<Record<Quantile, number>>;
  readonly chances: readonly { readonly target: number; readonly p: number }[] | null;
}

export interface KnownForecast extends RangeAnswer {
  readonly ok: true;
  /** What the range is of: the segment total, or the elements alone where no component factor is known. */
  readonly on: 'total' | 'tes';
  readonly byElement: readonly {
    readonly no: number;
    readonly mean: number;
    readonly sd: number;
    /** Share of the spread. */
    readonly share: number;
    /** Chance that it comes off as planned, as modelled; fixed where it can come in one way alone. */
    readonly reliability: number;
    readonly fixed: boolean;
  }[];
  readonly rulebook: string;
  readonly basis: string;
  readonly warnings: readonly string[];
}

export type ForecastAnswer = KnownForecast | { readonly ok: false; readonly why: string };

/** What one more day of twenty that an element comes off brings, in points. */
export interface Move {
  readonly no: number;
  readonly points: number;
}

export type ForecastReply =
  | { readonly kind: 'answer'; readonly answer: ForecastAnswer }
  | { readonly kind: 'trial'; readonly trial: ForecastTrial; readonly range: RangeAnswer | null }
  | { readonly kind: 'moves'; readonly moves: readonly Move[] };

/** What was asked last, kept so that a slider need not ask for it again. */
interface Current {
  readonly built: BuiltModel;
  readonly on: 'total' | 'tes';
  readonly targets: readonly number[] | null;
  readonly hands: Map<number, ElementInHand | null>;
}

/** A day of twenty, in per cent. */
const DAY = 5;

let record: ForecastRecord = { history: [], practice: [], body: null };
let evidence: Evidence | null = null;
let current: Current | null = null;

function evidenceOf(): Evidence {
  evidence ??= {
    history: historyOf(record.history),
    rulesOf: (p: Protocol) => rulesFor({ ...p, body: record.body }),
    priors: storedPriors(),
    practice: record.practice,
  };
  return evidence;
}

function answer({ layout: form, target }: ForecastQuestion): ForecastAnswer {
  current = null;
  const layout = readLayout(withFactors(form, record.history));
  if (!layout.ok) return { ok: false, why: describeProblem(layout.error) };
  const rules = rulesFor({ ...layout.value, body: record.body });
  if (rules === null) return { ok: false, why: 'No rules could be chosen for this category.' };
  let on: 'total' | 'tes' = 'total';
  let built = buildModel(layout.value, rules, evidenceOf(), on);
  if (!built.ok && built.error.code === 'forecast.factor') {
    on = 'tes';
    built = buildModel(layout.value, rules, evidenceOf(), on);
  }
  if (!built.ok) return { ok: false, why: describeProblem(built.error) };
  const targets = target === null ? [] : [target];
  const made = forecastOf(built.value, layout.value.id, { on, targets, pmf: false });
  if (!made.ok) return { ok: false, why: describeProblem(made.error) };
  const { mean, quantiles, chances, byElement, basis, warnings } = made.value;
  current = { built: built.value, on, targets: chances === null ? null : targets, hands: new Map() };
  const { elements } = built.value.model;
  return {
    ok: true,
    on,
    mean,
    quantiles,
    chances,
    byElement: byElement.map((e, i) => {
      const element = elements[i];
      const reliability = element === undefined ? 0 : reliabilityOf(element);
      return { ...e, reliability, fixed: reliability <= 0 || reliability >= 1 };
    }),
    rulebook: rules.id,
    basis: basis.words,
    warnings,
  };
}

function handOf({ built, on, hands }: Current, index: number): ElementInHand | null {
  const known = hands.get(index);
  if (known !== undefined) return known;
  const taken = takeInHand(built.model, index, on);
  const hand = taken.ok ? taken.value : null;
  hands.set(index, hand);
  return hand;
}

function rangeAt({ index, reliability }: ForecastTrial): RangeAnswer | null {
  const element = current?.built.model.elements[index];
  const outcomes = element === undefined ? null : outcomesAt(element, reliability);
  if (current === null || outcomes === null) return null;
  const pmf = handOf(current, index)?.with(outcomes);
  if (pmf?.ok !== true) return null;
  const { mean, quantiles, chances } = summarise(pmf.value, { targets: current.targets, pmf: false });
  return { mean, quantiles, chances };
}

const reply = (what: ForecastReply) => self.postMessage(what);
/** What one more day of twenty of each element brings. */
function tellMoves(): void {
  if (current === null) return;
  const gains = meanGains(current.built.model, current.on);
  if (gains.ok) reply({ kind: 'moves', moves: gains.value.map(({ no, mean }) => ({ no, points: DAY * mean })) });
}

self.onmessage = async ({ data }: MessageEvent<ForecastMessage>) => {
  await loadOwnRules();
  switch (data.kind) {
    case 'record':
      record = data.record;
      evidence = null;
      break;
    case 'ask':
      reply({ kind: 'answer', answer: answer(data.question) });
      break;
    case 'try':
      reply({ kind: 'trial', trial: data.trial, range: rangeAt(data.trial) });
      break;
    case 'take':
      if (current !== null) handOf(current, data.index);
      break;
    case 'moves':
      tellMoves();
      break;
  }
};
