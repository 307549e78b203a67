import type { ChosenRules } from '../../rulebook/index.ts';
import type { Protocol } from '../protocol.ts';
import type { Finding } from './finding.ts';
import type { ValuedElement } from './measure.ts';

interface JumpPass {
  /** Index into the protocol's elements. */
  readonly index: number;
  readonly half: boolean;
  readonly hasValue: boolean;
  readonly code: string;
}

/**
 * Second-half marks against the printed order, by the season's rule: marks only on jump elements; from
 * the first marked one on all later ones marked; only the last 1 or 3 where the season says so.
 */
export function halfFindings(
  protocol: Protocol,
  valued: readonly ValuedElement[],
  rules: ChosenRules,
): readonly Finding[] {
  const bonusLast = rules.content.content(rules.category, rules.segment)?.bonusLast ?? null;
  const passes = jumpPasses(valued);
  return [
    ...marksOnOthers(valued),
    ...(bonusLast === null || bonusLast === 0 ? [] : tooEarly(passes, bonusLast)),
    ...(mayBeInterrupted(protocol, rules) ? [] : missing(passes, bonusLast === 0 ? 'all' : (bonusLast ?? 'all'))),
  ];
}

/**
 * Marks in a category that has no second-half factor: an event that gives one prints it consistently, so
 * this is no slip, but worth a word.
 */
export function halfWarning(protocol: Protocol, valued: readonly ValuedElement[], rules: ChosenRules): string | null {
  if (protocol.segment === null || protocol.category === null) return null;
  if (rules.content.content(rules.category, rules.segment)?.bonusLast !== 0) return null;
  if (!jumpPasses(valued).some((pass) => pass.half)) return null;
  return `Rulebook ${rules.content.id} has no second-half factor for ${rules.category}; the sheet marks it, and it was read as marked.`;
}

const jumpPasses = (valued: readonly ValuedElement[]): readonly JumpPass[] =>
  valued.flatMap(({ called, value, printed }, index) =>
    called.element?.kind === 'jump'
      ? [{ index, half: called.half, hasValue: value?.hasValue ?? false, code: printed.code }]
      : [],
  );

const marksOnOthers = (valued: readonly ValuedElement[]): readonly Finding[] =>
  valued.flatMap(({ called, printed }, index) =>
    called.half && called.element !== null && called.element.kind !== 'jump'
      ? [finding(index, true, `${printed.code} carries the mark of the second half; only jump elements have it.`)]
      : [],
  );

/** Marked, though it is not among the last jump elements. Elements without value may or may not count among them. */
function tooEarly(passes: readonly JumpPass[], bonusLast: number | 'all'): readonly Finding[] {
  if (bonusLast === 'all') return [];
  return passes
    .filter((pass, i) => pass.half && pass.hasValue && valuedAfter(passes, i) >= bonusLast)
    .map(({ index, code }) => finding(index, true, `${code} carries the mark of the second half; ${rule(bonusLast)}.`));
}

const valuedAfter = (passes: readonly JumpPass[], i: number): number =>
  passes.slice(i + 1).filter((pass) => pass.hasValue).length;

const rule = (last: number): string =>
  last === 1
    ? 'in this segment only the last jump element can have it'
    : `in this segment only the last ${last} jump elements can have it`;

/** Not marked, though a jump element before it is, and it is among those that the season credits. */
function missing(passes: readonly JumpPass[], bonusLast: number | 'all'): readonly Finding[] {
  const first = passes.findIndex((pass) => pass.half);
  if (first < 0) return [];
  const credited = bonusLast === 'all' ? passes.length : bonusLast;
  return passes
    .filter((pass, i) => i > first && i >= passes.length - credited && !pass.half && pass.hasValue)
    .map(({ index, code }) =>
      finding(index, false, `${code} has no mark of the second half, though a jump element before it has one.`),
    );
}

/** After a granted interruption elements earn no bonus (Comm. 2176, Rule 353): the deduction shows that there may have been one. */
function mayBeInterrupted(protocol: Protocol, rules: ChosenRules): boolean {
  const scale = rules.deductions.deductions(rules.category, rules.segment);
  const amount = scale.interruption?.withAllowance ?? scale.amounts.interruption;
  return amount !== undefined && (protocol.deductions?.total ?? 0) <= amount;
}

const finding = (index: number, published: boolean, message: string): Finding => ({
  kind: 'slip',
  at: `elements[${index}].half`,
  published,
  expected: !published,
  message,
  slip: 'second-half mark against the printed order',
});
