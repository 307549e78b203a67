import { asPoints, showPoints } from '../points.ts';
import type { LayoutChanges } from './changes.ts';
import type { CheckResult, Verdict } from './types.ts';
import { withoutWarning } from './verdict.ts';

/** A verdict as JSON: points as numbers. */
export const verdictJson = (verdict: Verdict): object => ({ ...verdict, cost: asPoints(verdict.cost) });

/** The JSON answer of `check`. */
export const checkJson = (result: CheckResult): object => ({
  id: result.id,
  rulebook: result.rulebook,
  legal: result.legal,
  verdicts: result.verdicts.map(verdictJson),
  base: asPoints(result.base),
  withBonus: asPoints(result.withBonus),
  ...(result.warnings.length > 0 ? { warnings: result.warnings } : {}),
});

const MARKS = { published: 'published', memory: 'from memory', local: 'your overlay' } as const;

const source = ({ citation }: Verdict): string =>
  `${citation.rulebook}, ${citation.source}${bracketed([
    // Some sources are nothing but their mark; it is said once.
    citation.source.includes(MARKS[citation.status]) ? '' : MARKS[citation.status],
    citation.provisional ? 'provisional' : '',
  ])}`;

function bracketed(words: readonly string[]): string {
  const said = words.filter((word) => word !== '');
  return said.length === 0 ? '' : ` (${said.join(', ')})`;
}

const cost = (verdict: Verdict): string =>
  verdict.status === 'broken' && verdict.cost !== null && verdict.cost > 0
    ? ` Costs ${showPoints(verdict.cost)} on the day if all is skated as planned.`
    : '';

const line = (verdict: Verdict): string => `- ${withoutWarning(verdict)}${cost(verdict)}\n    ${source(verdict)}`;

/** What is not established: what may be broken or cannot be told line by line, what would be met in one line. */
function openLines(unknown: readonly Verdict[]): readonly string[] {
  const met = unknown.filter((v) => v.asFarAsKnown === 'met');
  const open = unknown.filter((v) => v.asFarAsKnown !== 'met');
  return [
    ...(open.length > 0 ? ['Not established, check your chart. As far as known:', ...open.map(line)] : []),
    ...(met.length > 0 ? [`Met as far as known, check your chart: ${met.map((v) => v.rule).join(', ')}.`] : []),
  ];
}

function headline({ legal }: CheckResult): string {
  if (legal === true) return 'Nothing in this layout breaks a rule of its segment.';
  if (legal === false) return 'This layout breaks a rule:';
  return 'No rule is broken as far as the rules are established; some are not.';
}

function sums(result: CheckResult): string {
  if (result.base === null || result.withBonus === null) return 'Base values: at least one is not known.';
  return `Base values as called: ${showPoints(result.base)}; with the second-half factor ${showPoints(result.withBonus)}.`;
}

/** `check` for people: what is broken first, then what is unknown; what is met in one line. */
export function checkText(result: CheckResult): string {
  const broken = result.verdicts.filter((v) => v.status === 'broken');
  const unknown = result.verdicts.filter((v) => v.status === 'unknown');
  const met = result.verdicts.filter((v) => v.status === 'met').map((v) => v.rule);
  return [
    headline(result),
    ...broken.map(line),
    ...openLines(unknown),
    ...(met.length > 0 ? [`Met: ${met.join(', ')}.`] : []),
    sums(result),
    ...result.warnings.map((warning) => `Note: ${warning}`),
    `Rules: ${result.rulebook}. The federation's own current text decides.`,
  ].join('\n');
}

/** The JSON answer to “what do other rules do to this layout?”. */
export const changesJson = (result: LayoutChanges): object => ({
  id: result.id,
  before: {
    rulebook: result.before.rulebook,
    legal: result.before.legal,
    withBonus: asPoints(result.before.withBonus),
  },
  after: { rulebook: result.after.rulebook, legal: result.after.legal, withBonus: asPoints(result.after.withBonus) },
  difference: asPoints(result.difference),
  changes: result.changes.map(({ rule, before, after }) => ({
    rule,
    before: before === null ? null : verdictJson(before),
    after: after === null ? null : verdictJson(after),
  })),
  warnings: result.after.warnings,
});

/** The same for people. */
export function changesText(result: LayoutChanges): string {
  const { before, after, changes, difference } = result;
  if (changes.length === 0)
    return [
      `${after.rulebook} changes nothing for this layout, compared with ${before.rulebook}.`,
      ...after.warnings.map((warning) => `Note: ${warning}`),
    ].join('\n');
  return [
    `What ${after.rulebook} does to this layout, compared with ${before.rulebook}:`,
    ...changes.flatMap(({ after: then }) => (then === null || then.status === 'unknown' ? [] : [line(then)])),
    ...openLines(changes.flatMap(({ after: then }) => (then?.status === 'unknown' ? [then] : []))),
    ...changes.flatMap(({ rule, after: then }) => (then === null ? [`- No longer asked: ${rule}.`] : [])),
    difference === null
      ? 'The base values cannot be compared: at least one is not known.'
      : `Base values with the second-half factor, as called: ${showPoints(before.withBonus ?? 0)} before, ${showPoints(after.withBonus ?? 0)} after.`,
    ...after.warnings.map((warning) => `Note: ${warning}`),
  ].join('\n');
}

/** Where the season asked for has no rules here: for people. */
export const noRulesText = ({ before }: LayoutChanges, season: string): string =>
  [
    `No rules of ${season} are here yet, so there is nothing to compare: the nearest are ${before.rulebook}, this layout's own.`,
    ...before.warnings.map((warning) => `Note: ${warning}`),
  ].join('\n');
