import { storedPriors, type Evidence } from '../../../src/forecast/index.ts';
import { describeProblem, fail, type Result } from '../../../src/notation/index.ts';
import { bestLayouts, compare, type BestResult, type Comparison, type Objective } from '../../../src/programs/index.ts';
import type { ChosenRules } from '../../../src/rulebook/index.ts';
import { readInventory, readLayout, type Protocol } from '../../../src/scoring/index.ts';
import { historyOf, rulesFor, withFactors } from './programs.ts';

type Form = Record<string, unknown>;

export interface ProgramQuestion {
  readonly body: string | null;
  readonly history: readonly Form[];
  readonly ask:
    | { readonly kind: 'best'; readonly inventory: Form; readonly objective: Objective }
    | { readonly kind: 'compare'; readonly a: Form; readonly b: Form };
}

export interface BestAnswer {
  readonly kind: 'best';
  readonly best: BestResult;
  /** The layout that is best on the worse days: reached on nine of ten. */
  readonly safe: BestResult;
}

export type ProgramAnswer =
  | { readonly ok: true; readonly value: BestAnswer | { readonly kind: 'compare'; readonly comparison: Comparison } }
  | { readonly ok: false; readonly why: string };

const noRules = () =>
  fail({
    code: 'web.no-rules',
    at: 'category',
    found: 'no rules for it',
    expected: 'a category and season that a rulebook knows',
    advice: 'Choose another season, or whose rules hold for her.',
  });

function best(
  inventory: Form,
  objective: Objective,
  question: ProgramQuestion,
  evidence: Evidence,
): Result<BestAnswer> {
  const read = readInventory(withFactors(inventory, question.history));
  if (!read.ok) return read;
  const rules = rulesFor({ ...read.value, body: question.body });
  if (rules === null) return noRules();
  const options = { top: 3, evidence };
  const found = bestLayouts(read.value, rules, objective, options);
  if (!found.ok) return found;
  const safe = bestLayouts(read.value, rules, { kind: 'quantile', level: 0.1 }, { ...options, top: 1 });
  return safe.ok ? { ok: true, value: { kind: 'best', best: found.value, safe: safe.value } } : safe;
}

function compared(a: Form, b: Form, question: ProgramQuestion, evidence: Evidence) {
  const left = readLayout(withFactors(a, question.history));
  if (!left.ok) return left;
  const right = readLayout(withFactors(b, question.history));
  if (!right.ok) return right;
  const rules: ChosenRules | null = rulesFor({ ...left.value, body: question.body });
  if (rules === null) return noRules();
  const made = compare(left.value, right.value, { a: rules, b: rules }, evidence);
  return made.ok ? { ok: true as const, value: { kind: 'compare' as const, comparison: made.value } } : made;
}

function answer(question: ProgramQuestion): ProgramAnswer {
  const { ask, body } = question;
  const evidence: Evidence = {
    history: historyOf(question.history),
    rulesOf: (p: Protocol) => rulesFor({ ...p, body }),
    priors: storedPriors(),
  };
  const made =
    ask.kind === 'best'
      ? best(ask.inventory, ask.objective, question, evidence)
      : compared(ask.a, ask.b, question, evidence);
  return made.ok ? made : { ok: false, why: describeProblem(made.error) };
}

self.onmessage = ({ data }: MessageEvent<ProgramQuestion>) => {
  self.postMessage(answer(data));
};
