import { forecast, storedPriors } from '../../../src/forecast/index.ts';
import { describeProblem } from '../../../src/notation/index.ts';
import { chooseRules, shippedLibrary } from '../../../src/rulebook/index.ts';
import { readLayout, readProtocol, type Protocol } from '../../../src/scoring/index.ts';

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
      readonly quantiles: Readonly<Record<Quantile, number>>;
      readonly chances: readonly { readonly target: number; readonly p: number }[] | null;
      readonly basis: string;
      readonly warnings: readonly string[];
    }
  | { readonly ok: false; readonly why: string };

const library = shippedLibrary();

function rulesOf(form: {
  season: string | null;
  date: string | null;
  category: string | null;
  segment: 'short' | 'free' | null;
  body: string | null;
}) {
  const chosen = chooseRules(library, {
    season: form.season ?? undefined,
    date: form.date ?? undefined,
    category: form.category ?? undefined,
    segment: form.segment ?? undefined,
    body: form.body ?? undefined,
  });
  return chosen.ok ? chosen.value : null;
}

function answer(question: ForecastQuestion): ForecastAnswer {
  const layout = readLayout(question.layout);
  if (!layout.ok) return { ok: false, why: describeProblem(layout.error) };
  const rules = rulesOf({ ...layout.value, body: question.body });
  if (rules === null) return { ok: false, why: 'No rules could be chosen for this category.' };
  const history = question.history.flatMap((form): Protocol[] => {
    const read = readProtocol(form);
    return read.ok ? [read.value] : [];
  });
  const evidence = {
    history,
    rulesOf: (p: Protocol) => rulesOf({ ...p, body: question.body }),
    priors: storedPriors(),
  };
  const options = { on: 'total' as const, targets: question.target === null ? [] : [question.target], pmf: false };
  const made = forecast(layout.value, rules, evidence, options);
  if (!made.ok) return { ok: false, why: describeProblem(made.error) };
  const { quantiles, chances, basis, warnings } = made.value;
  return { ok: true, quantiles, chances, basis: basis.words, warnings };
}

self.onmessage = ({ data }: MessageEvent<{ no: number; question: ForecastQuestion }>) => {
  self.postMessage({ no: data.no, answer: answer(data.question) });
};
