import { forecast, storedPriors, type Evidence } from '../../../src/forecast/index.ts';
import { describeProblem } from '../../../src/notation/index.ts';
import { readLayout, type Protocol } from '../../../src/scoring/index.ts';
import { historyOf, rulesFor, withFactors } from './programs.ts';

export interface ForecastQuestion {
  readonly layout: Record<string, unknown>;
  readonly history: readonly Record<string, unknown>[];
  readonly target: number | null;
  readonly body: string | null;
}

type Quantile = '0.025' | '0.1' | '0.25' | '0.5' | '0.75' | '0.9' | '0.975';

export type ForecastAnswer =
  | {
      readonly ok: true;
      /** What the range is of: the segment total, or the elements alone where no component factor is known. */
      readonly on: 'total' | 'tes';
      readonly mean: number;
      readonly quantiles: Readonly<Record<Quantile, number>>;
      readonly chances: readonly { readonly target: number; readonly p: number }[] | null;
      readonly byElement: readonly { readonly no: number; readonly mean: number; readonly sd: number }[];
      readonly rulebook: string;
      readonly basis: string;
      readonly warnings: readonly string[];
    }
  | { readonly ok: false; readonly why: string };

function answer(question: ForecastQuestion): ForecastAnswer {
  const layout = readLayout(withFactors(question.layout, question.history));
  if (!layout.ok) return { ok: false, why: describeProblem(layout.error) };
  const rules = rulesFor({ ...layout.value, body: question.body });
  if (rules === null) return { ok: false, why: 'No rules could be chosen for this category.' };
  const evidence: Evidence = {
    history: historyOf(question.history),
    rulesOf: (p: Protocol) => rulesFor({ ...p, body: question.body }),
    priors: storedPriors(),
  };
  const targets = question.target === null ? [] : [question.target];
  let on: 'total' | 'tes' = 'total';
  let made = forecast(layout.value, rules, evidence, { on, targets, pmf: false });
  if (!made.ok && made.error.code === 'forecast.factor') {
    on = 'tes';
    made = forecast(layout.value, rules, evidence, { on, targets, pmf: false });
  }
  if (!made.ok) return { ok: false, why: describeProblem(made.error) };
  const { mean, quantiles, chances, byElement, basis, warnings } = made.value;
  return { ok: true, on, mean, quantiles, chances, byElement, rulebook: rules.id, basis: basis.words, warnings };
}

self.onmessage = ({ data }: MessageEvent<{ no: number; question: ForecastQuestion }>) => {
  self.postMessage({ no: data.no, answer: answer(data.question) });
};
