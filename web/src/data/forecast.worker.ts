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
  type Forecast,
  type LoggedRunThrough,
} from '../../../src/forecast/index.ts';
import { describeProblem, fail, ok, type Result } from '../../../src/notation/index.ts';
import { readLayout, type Protocol } from '../../../src/scoring/index.ts';
import type { Ahead } from './ahead.ts';
import { loadOwnRules } from './own-rules.ts';
import { historyOf, rulesFor, withFactors } from './programs.ts';

/** What changes seldom: the skater's earlier sheets and run-throughs. */
export interface ForecastRecord {
  readonly history: readonly Record<string, unknown>[];
  readonly practice: readonly LoggedRunThrough[];
  readonly body: string | null;
}

export interface ForecastQuestion {
  /** Names the program: equal keys have equal ranges. */
  readonly key: string;
  readonly layout: Record<string, unknown>;
  readonly target: number | null;
}

export type ForecastMessage =
  | { readonly kind: 'record'; readonly record: ForecastRecord }
  | { readonly kind: 'ask'; readonly question: ForecastQuestion }
  /** In this order, in the place of what was to be worked out ahead before. */
  | { readonly kind: 'ahead'; readonly list: readonly Ahead[] }
  | { readonly kind: 'moves' };

type Quantile = '0.025' | '0.1' | '0.25' | '0.5' | '0.75' | '0.9' | '0.975';

/** The range in numbers: what moves with a slider or a note. */
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
  | { readonly kind: 'answer'; readonly key: string; readonly answer: ForecastAnswer }
  | { readonly kind: 'ahead'; readonly key: string; readonly range: RangeAnswer }
  | { readonly kind: 'moves'; readonly moves: readonly Move[] };

/** What was asked last, kept so that a slider need not ask for it again. */
interface Current {
  readonly key: string;
  readonly built: BuiltModel;
  readonly on: 'total' | 'tes';
  readonly mayPrintChances: boolean;
  /** The element that a slider has, taken in hand. */
  hand: { readonly index: number; readonly taken: ElementInHand | null } | null;
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

type Made = Result<
  { readonly built: BuiltModel; readonly on: 'total' | 'tes'; readonly made: Forecast; readonly rules: string },
  string
>;

/** The forecast of a layout: of the total, or of the elements alone where no component factor is known. */
function make(form: Record<string, unknown>, target: number | null): Made {
  const layout = readLayout(withFactors(form, record.history));
  if (!layout.ok) return fail(describeProblem(layout.error));
  const rules = rulesFor({ ...layout.value, body: record.body });
  if (rules === null) return fail('No rules could be chosen for this category.');
  let on: 'total' | 'tes' = 'total';
  let built = buildModel(layout.value, rules, evidenceOf(), on);
  if (!built.ok && built.error.code === 'forecast.factor') {
    on = 'tes';
    built = buildModel(layout.value, rules, evidenceOf(), on);
  }
  if (!built.ok) return fail(describeProblem(built.error));
  const targets = target === null ? [] : [target];
  const made = forecastOf(built.value, layout.value.id, { on, targets, pmf: false });
  if (!made.ok) return fail(describeProblem(made.error));
  return ok({ built: built.value, on, made: made.value, rules: rules.id });
}

function answer({ key, layout, target }: ForecastQuestion): ForecastAnswer {
  current = null;
  const found = make(layout, target);
  if (!found.ok) return { ok: false, why: found.error };
  const { built, on, made, rules } = found.value;
  const { mean, quantiles, chances, byElement, basis, warnings } = made;
  current = { key, built, on, mayPrintChances: chances !== null, hand: null };
  const { elements } = built.model;
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
    rulebook: rules,
    basis: basis.words,
    warnings,
  };
}

function handOf(from: Current, index: number): ElementInHand | null {
  if (from.hand?.index !== index) {
    const taken = takeInHand(from.built.model, index, from.on);
    from.hand = { index, taken: taken.ok ? taken.value : null };
  }
  return from.hand.taken;
}

function rangeAt(index: number, reliability: number, target: number | null): RangeAnswer | null {
  const element = current?.built.model.elements[index];
  const outcomes = element === undefined ? null : outcomesAt(element, reliability);
  if (current === null || outcomes === null) return null;
  const pmf = handOf(current, index)?.with(outcomes);
  if (pmf?.ok !== true) return null;
  const targets = current.mayPrintChances ? (target === null ? [] : [target]) : null;
  const { mean, quantiles, chances } = summarise(pmf.value, { targets, pmf: false });
  return { mean, quantiles, chances };
}

function rangeOf(one: Ahead): RangeAnswer | null {
  if ('index' in one) return rangeAt(one.index, one.reliability, one.target);
  const found = make(one.layout, one.target);
  if (!found.ok) return null;
  const { mean, quantiles, chances } = found.value.made;
  return { mean, quantiles, chances };
}

/** A slider of a program that is still to be asked has to wait. */
const isReady = (one: Ahead | undefined): boolean =>
  one !== undefined && (!('index' in one) || one.of === current?.key);

let ahead: Ahead[] = [];
let isWorkingAhead = false;
const turn = new MessageChannel();
/** Lets the messages in that have come meanwhile. */
const others = (): Promise<void> =>
  new Promise((resolve) => {
    turn.port1.onmessage = () => resolve();
    turn.port2.postMessage(null);
  });

/** Works out one program after another; what the page asks in between comes first. */
async function workAhead(): Promise<void> {
  if (isWorkingAhead) return;
  isWorkingAhead = true;
  while (isReady(ahead[0])) {
    const one = ahead.shift();
    const range = one === undefined ? null : rangeOf(one);
    if (one !== undefined && range !== null) reply({ kind: 'ahead', key: one.key, range });
    await others();
  }
  isWorkingAhead = false;
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
      reply({ kind: 'answer', key: data.question.key, answer: answer(data.question) });
      // Sliders of the program asked before are over.
      ahead = ahead.filter((one) => !('index' in one) || one.of === data.question.key);
      await workAhead();
      break;
    case 'ahead':
      ahead = [...data.list];
      await workAhead();
      break;
    case 'moves':
      tellMoves();
      break;
  }
};
