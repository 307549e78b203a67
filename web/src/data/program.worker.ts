import { storedPriors, type Evidence, type LoggedRunThrough } from '../../../src/forecast/index.ts';
import { describeProblem, fail, type Result } from '../../../src/notation/index.ts';
import {
  bestLayouts,
  compare,
  mend,
  type BestResult,
  type Comparison,
  type Mend,
  type Objective,
} from '../../../src/programs/index.ts';
import type { ChosenRules } from '../../../src/rulebook/index.ts';
import { readInventory, readLayout, type Protocol } from '../../../src/scoring/index.ts';
import { loadOwnRules } from './own-rules.ts';
import { historyOf, rulesFor, withFactors } from './programs.ts';

type Form = Record<string, unknown>;

export interface ProgramQuestion {
  readonly body: string | null;
  readonly history: readonly Form[];
  readonly practice: readonly LoggedRunThrough[];
  readonly ask:
    | { readonly kind: 'best'; readonly inventory: Form; readonly objective: Objective; readonly top: number }
    | { readonly kind: 'compare'; readonly a: Form; readonly b: Form }
    | { readonly kind: 'mend'; readonly layout: Form; readonly rule: string; readonly repertoire: readonly string[] };
}

export interface BestAnswer {
  readonly kind: 'best';
  readonly best: BestResult;
  /** The layout that is best on the worse days, reached on nine of ten; null while the search goes on. */
  readonly safe: BestResult | null;
  /** Seconds that the search took up to here. */
  readonly seconds: number;
}

export type ProgramAnswer =
  | {
      readonly ok: true;
      readonly value:
        | BestAnswer
        | { readonly kind: 'compare'; readonly comparison: Comparison }
        | { readonly kind: 'mend'; readonly ways: readonly Mend[] };
    }
  | { readonly ok: false; readonly why: string };

/** The end of the work, or how far it is. */
export interface ProgramReply {
  readonly final: boolean;
  readonly answer: ProgramAnswer;
}

const noRules = () =>
  fail({
    code: 'web.no-rules',
    at: 'category',
    found: 'no rules for it',
    expected: 'a category and season that a rulebook knows',
    advice: 'Choose another season, or whose rules hold for her.',
  });

/** Ways to mend that are offered. */
const WAYS = 5;
/** The search is begun again with ever more time, so that what it has found can be told: seconds. */
const FIRST_LOOK = 0.8;
const LONGER = 4;

type Told = (answer: BestAnswer) => void;

function best(
  { inventory, objective, top }: Extract<ProgramQuestion['ask'], { kind: 'best' }>,
  question: ProgramQuestion,
  evidence: Evidence,
  told: Told,
): Result<BestAnswer> {
  const read = readInventory(withFactors(inventory, question.history));
  if (!read.ok) return read;
  const rules = rulesFor({ ...read.value, body: question.body });
  if (rules === null) return noRules();
  const began = performance.now();
  const seconds = () => (performance.now() - began) / 1000;
  for (let patience = FIRST_LOOK; ; patience *= LONGER) {
    const until = performance.now() + patience * 1000;
    const watch = { stopped: false };
    const shouldStop = () => (watch.stopped ||= performance.now() > until);
    const found = bestLayouts(read.value, rules, objective, { top, evidence, shouldStop });
    if (!found.ok) return found;
    const so = { kind: 'best', best: found.value, safe: null, seconds: seconds() } as const;
    told(so);
    if (watch.stopped) continue;
    const safe = bestLayouts(read.value, rules, { kind: 'quantile', level: 0.1 }, { top: 1, evidence });
    return safe.ok ? { ok: true, value: { ...so, safe: safe.value, seconds: seconds() } } : safe;
  }
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

function mended(layout: Form, rule: string, repertoire: readonly string[], body: string | null) {
  const read = readLayout(layout);
  if (!read.ok) return read;
  const rules = rulesFor({ ...read.value, body });
  if (rules === null) return noRules();
  const ways = mend(read.value, rules, rule, { repertoire, top: WAYS });
  return ways.ok ? { ok: true as const, value: { kind: 'mend' as const, ways: ways.value } } : ways;
}

function answer(question: ProgramQuestion, told: Told): ProgramAnswer {
  const { ask, body, practice } = question;
  const evidence: Evidence = {
    history: historyOf(question.history),
    rulesOf: (p: Protocol) => rulesFor({ ...p, body }),
    priors: storedPriors(),
    practice,
  };
  const made =
    ask.kind === 'best'
      ? best(ask, question, evidence, told)
      : ask.kind === 'compare'
        ? compared(ask.a, ask.b, question, evidence)
        : mended(ask.layout, ask.rule, ask.repertoire, body);
  return made.ok ? made : { ok: false, why: describeProblem(made.error) };
}

const reply = (what: ProgramReply) => self.postMessage(what);

self.onmessage = async ({ data }: MessageEvent<ProgramQuestion>) => {
  await loadOwnRules();
  const made = answer(data, (value) => reply({ final: false, answer: { ok: true, value } }));
  reply({ final: true, answer: made });
};
