import type { Move } from '../elsewhere/move.ts';
import { moveLines } from '../elsewhere/show.ts';
import type { BestLayout, BestResult } from './best.ts';
import type { Idea } from './ideas.ts';
import { isNoise } from '../worth.ts';
import type { Objective } from './objective.ts';
import type { SaferAnswer } from './safer.ts';

/** What an answer of `best` may carry beside the layouts. */
export interface BestExtras {
  readonly ideas: readonly Idea[];
  readonly safer: SaferAnswer | null;
  readonly move: Move | null;
}

/** What another layout gives up and brings, against the best. */
const difference = (best: BestLayout, other: BestLayout) => ({
  without: less(best.codes, other.codes),
  with: less(other.codes, best.codes),
  value: other.value - best.value,
  expected: other.expected - best.expected,
  lowDay: other.low - best.low,
  insideNoise: isNoise(other.expected - best.expected, best.sd),
});

/** Codes of the first list that the second does not hold, as often as they are missing. */
function less(list: readonly string[], other: readonly string[]): readonly string[] {
  const left = [...other];
  return list.filter((code) => {
    const i = left.indexOf(code);
    if (i >= 0) left.splice(i, 1);
    return i < 0;
  });
}

/** The JSON answer of `best`, with the first `top` layouts. */
export function bestJson(result: BestResult, top: number, extras: Partial<BestExtras> = {}): object {
  const [best] = result.layouts;
  return {
    id: result.id,
    rulebook: result.rulebook,
    proven: result.proven,
    bound: result.bound,
    layouts: result.layouts
      .slice(0, top)
      .map((layout, i) => (i === 0 || best === undefined ? layout : { ...layout, against: difference(best, layout) })),
    searched: result.searched,
    ...(result.layouts.length === 0 ? { conflict: result.conflict } : {}),
    ...(result.excluded.length > 0 ? { excluded: result.excluded } : {}),
    ...(result.warnings.length > 0 ? { warnings: result.warnings } : {}),
    ...(extras.ideas !== undefined ? { leftOut: extras.ideas } : {}),
    ...(extras.safer != null ? { safer: extras.safer } : {}),
    ...(extras.move != null ? { move: extras.move } : {}),
  };
}

const aim = (objective: Objective): string => {
  if (objective.kind === 'expected') return 'the expected total';
  if (objective.kind === 'chance') return `the chance of ${(objective.target / 100).toFixed(2)} or more`;
  return `the total that is reached in all but ${+(objective.level * 100).toFixed(2)} of 100 programs`;
};

/** Chances as days out of twenty: nobody is told a finer figure than an estimate can bear. */
const worth = (value: number, objective: Objective): string =>
  objective.kind === 'chance' ? `about ${Math.round(value * 20)} of 20 days` : value.toFixed(2);

const listed = (layout: BestLayout): string =>
  layout.codes.map((code, i) => (layout.bonus.includes(i + 1) ? `${code} x` : code)).join(', ');

function versus(best: BestLayout, other: BestLayout, objective: Objective): string {
  const { without, with: into, value, expected, lowDay, insideNoise } = difference(best, other);
  const swap =
    into.length > 0 ? `${into.join(', ')} in place of ${without.join(', ')}` : `without ${without.join(', ')}`;
  const gap = objective.kind === 'chance' ? worth(other.value, objective) : `${(-value).toFixed(2)} less`;
  const besides = [
    ...(objective.kind === 'expected' ? [] : [`${more(expected)} on average`]),
    ...(lowDay > 0.005 ? [`${more(lowDay)} on a low day`] : []),
    ...(insideNoise ? ['no real difference'] : []),
  ];
  return [`${swap}: ${gap}`, ...besides].join(', ');
}

const more = (points: number): string => (points < 0 ? `${(-points).toFixed(2)} less` : `${points.toFixed(2)} more`);

/** Why an element stays out: the rule, and what it would cost to have it. */
function ideaLine({ code, breaks, instead }: Idea, objective: Objective): string {
  const rule = breaks.length > 0 ? `added, it would break a rule. ${breaks.join(' ')}` : 'no rule forbids adding it.';
  if (instead === null) return `- ${code}: ${rule}`;
  const gap =
    objective.kind === 'chance'
      ? `it is worth ${worth(instead.value, objective)}`
      : `it is worth ${instead.less.toFixed(2)} less`;
  return `- ${code}: ${rule} With the best layout that holds it, ${gap}.`;
}

function saferLines(answer: SaferAnswer, objective: Objective): readonly string[] {
  const { code, by, changes, after, gain } = answer;
  const head = `If ${code} came off ${Math.round(by * 100)} more times in 100, in the model of your numbers:`;
  const gained = objective.kind === 'chance' ? `${worth(after.value, objective)} instead` : `${gain.toFixed(2)} more`;
  return [
    head,
    changes
      ? `Another layout would be best: ${after.codes.join(', ')}: ${gained}.`
      : `The best layout stays the same: ${gained}.`,
  ];
}

/** Share of the spread below the mean that nine programs in ten exceed. */
const LOW_DAY = 1.28;

const lowDay = (layout: BestLayout): number => layout.expected - LOW_DAY * layout.sd;

/** The safest of the layouts found, with what it gives up; nothing where the best is the safest. */
function saferThan(best: BestLayout, others: readonly BestLayout[]): readonly string[] {
  const [safest] = [...others].sort((a, b) => lowDay(b) - lowDay(a));
  if (safest === undefined || lowDay(safest) <= lowDay(best) + 0.005) {
    return ['Of the layouts looked at it is also the safe one.'];
  }
  const gain = (lowDay(safest) - lowDay(best)).toFixed(2);
  const price = Math.max(0, best.expected - safest.expected).toFixed(2);
  return [`Safer: ${listed(safest)}: ${gain} more on a low day, ${price} less on average.`];
}

/** `best` for people. */
export function bestText(result: BestResult, top: number, extras: Partial<BestExtras> = {}): string {
  const notes = [
    ...result.excluded.map(({ code, why }) => `Left out: ${code}: ${why}.`),
    ...result.warnings.map((warning) => `Note: ${warning}`),
  ];
  const moved = extras.move == null ? [] : moveLines(extras.move);
  const [best, ...others] = result.layouts;
  if (best === undefined) {
    const head = result.proven ? 'No legal layout can be made of these elements.' : 'No layout was found.';
    return [head, ...result.conflict.map((demand) => `- ${demand}`), ...moved, ...notes].join('\n');
  }
  const close = others.slice(0, Math.max(top - 1, 1));
  return [
    `Best of the elements and reliabilities you entered, by this model, for ${aim(result.objective)}:`,
    listed(best),
    `Worth: ${worth(best.value, result.objective)}; expected ${best.expected.toFixed(2)}, scores like this usually lie within ${(1.3 * best.sd).toFixed(1)} of it.`,
    result.proven
      ? 'No legal layout of these entries is better by this model.'
      : 'The search was stopped or cannot be closed: another layout may be better.',
    ...saferThan(best, others),
    ...(close.length > 0 ? ['Next best:', ...close.map((one) => `- ${versus(best, one, result.objective)}`)] : []),
    ...(extras.ideas !== undefined && extras.ideas.length > 0 ? ['Not in it, and why:'] : []),
    ...(extras.ideas ?? []).map((idea) => ideaLine(idea, result.objective)),
    ...(extras.safer == null ? [] : saferLines(extras.safer, result.objective)),
    ...moved,
    ...notes,
    'A jump that is added means more attempts a week: decide with coach, parents and, in pain or growth, medical staff.',
  ].join('\n');
}
