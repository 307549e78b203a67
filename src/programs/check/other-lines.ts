import { clock, formatElement } from '../../notation/index.ts';
import type { Hundredths } from '../../rulebook/index.ts';
import { elementValue, inSecondHalf } from '../../scoring/index.ts';
import { underCap } from '../elsewhere/under-caps.ts';
import { pointsAt } from '../points.ts';
import { cite } from '../segment-rules.ts';
import type { Planned } from '../planned.ts';
import type { CheckFacts, Verdict } from './types.ts';
import { verdict } from './verdict.ts';

const sum = (parts: readonly (Hundredths | null)[]): Hundredths | null =>
  parts.reduce<Hundredths | null>((total, part) => (total === null || part === null ? null : total + part), 0);

const numbers = (planned: readonly Planned[]): readonly number[] => planned.map((p) => p.no);

/** Points of the whole element, gone if it has no value. */
const worth = (facts: CheckFacts, planned: Planned): Hundredths | null =>
  pointsAt(facts.rules.chosen.values, planned.element, facts.walk.called[planned.no - 1]?.half === true, planned.grade);

/** Every code has a value in this season's scale. */
function scale(facts: CheckFacts): readonly Verdict[] {
  const { values } = facts.rules.chosen;
  const unlisted: string[] = [];
  const unknown: string[] = [];
  const concerned = facts.planned.filter((planned) => {
    const codes = elementValue(values, planned.element).unknown;
    for (const code of codes) (values.row(code) === undefined ? unlisted : unknown).push(code);
    return codes.length > 0;
  });
  if (concerned.length === 0) return [];
  const status = unlisted.length > 0 ? 'broken' : 'unknown';
  const says =
    unlisted.length > 0
      ? `The season's scale of values lists no ${[...new Set(unlisted)].join(', ')}`
      : `The season's value of ${[...new Set(unknown)].join(', ')} is not established`;
  return [
    verdict({ rule: 'scale', status, elements: numbers(concerned), says, cost: null }, cite(facts.rules, 'scale.rows')),
  ];
}

function capOf(facts: CheckFacts, kind: 'spin' | 'steps'): Verdict | null {
  const { chosen } = facts.rules;
  const concerned = facts.planned.filter((p) => p.element.kind === kind);
  if (concerned.length === 0) return null;
  const family = kind === 'spin' ? 'spins' : 'steps';
  const { cap } = kind === 'spin' ? chosen.levels.spins(chosen.category) : chosen.levels.steps(chosen.category);
  const citation = cite(facts.rules, `${family}.${chosen.category}.cap`);
  const rule = `${kind === 'spin' ? 'spin' : 'step'}-level`;
  const what = kind === 'spin' ? 'spins' : 'the step sequence';
  if (cap === null)
    return verdict({ rule, status: 'unknown', says: `The highest level of ${what} is not established` }, citation);
  const says = `Levels of ${what} count up to ${cap}`;
  const above = concerned.filter(
    ({ element }) => element.kind !== 'jump' && typeof element.level === 'number' && element.level > cap,
  );
  if (above.length === 0) return verdict({ rule, status: 'met', elements: numbers(concerned), says }, citation);
  const cost = sum(above.map((p) => overCap(facts, p)));
  const consequence = `${above.map((p) => formatElement(p.element)).join(', ')} would be called level ${cap} at most`;
  return verdict({ rule, status: 'broken', elements: numbers(above), says, consequence, cost }, citation);
}

function overCap(facts: CheckFacts, planned: Planned): Hundredths | null {
  const { element, grade } = planned;
  const { values } = facts.rules.chosen;
  const high = pointsAt(values, element, false, grade);
  const low = pointsAt(values, underCap(element, facts.rules), false, grade);
  return high === null || low === null ? null : high - low;
}

const levelCaps = (facts: CheckFacts): readonly Verdict[] =>
  [capOf(facts, 'spin'), capOf(facts, 'steps')].filter((v) => v !== null);

/** Why nothing is said about the second half; null: the rule and the places are known. */
function bonusDoubt({ rules, planned }: CheckFacts): string | null {
  const { content } = rules;
  if (!planned.some((p) => p.element.kind === 'jump')) return null;
  if (content.bonusLast === null) return 'Whether late jumps earn a factor is not established; none is counted.';
  if (cite(rules, 'bonusLast').weak === true) {
    return content.bonusLast === 0
      ? 'No factor is counted for late jumps; that there is none is a weak recollection, check your chart.'
      : 'The factor for late jumps is a weak recollection, check your chart.';
  }
  const late = inSecondHalf(planned.map(placement), content);
  return content.bonusLast !== 0 && late.includes(null)
    ? 'The required time is not established, so start times cannot tell which jumps are late.'
    : null;
}

const placement = (p: Planned) => ({ isJump: p.element.kind === 'jump', half: p.half, start: p.start });

/** What is not certain about points, though no rule can be broken by it. */
export const doubts = (facts: CheckFacts): readonly string[] => {
  const doubt = bonusDoubt(facts);
  return doubt === null ? [] : [doubt];
};

/** Which elements earn the second-half factor. It cannot be broken: where it is in doubt, a warning says so. */
function secondHalf(facts: CheckFacts): readonly Verdict[] {
  const { content, chosen } = facts.rules;
  if (bonusDoubt(facts) !== null || !facts.planned.some((p) => p.element.kind === 'jump')) return [];
  const rule = 'second-half';
  const citation = cite(facts.rules, 'bonusLast');
  if (content.bonusLast === 0) {
    return [verdict({ rule, status: 'met', says: 'No factor for jumps in the second half' }, citation)];
  }
  const last = content.bonusLast === 1 ? 'the last jump element' : `the last ${content.bonusLast ?? 0} jump elements`;
  const which = content.bonusLast === 'all' ? 'every jump element' : last;
  const says = `Base values count ${chosen.values.values.secondHalfPercent} % for ${which} in the second half`;
  const earning = facts.planned.filter((p, i) => p.element.kind === 'jump' && facts.walk.called[i]?.half === true);
  return [verdict({ rule, status: 'met', elements: numbers(earning), says }, citation)];
}

/** Start times rise in skating order and agree with `half`. */
function order(facts: CheckFacts): readonly Verdict[] {
  const timed = facts.planned.filter((p) => p.start !== null);
  if (timed.length === 0) return [];
  const rule = 'start-order';
  const citation = cite(facts.rules, 'duration');
  const back = timed.filter((p, i) => i > 0 && (p.start ?? 0) <= (timed[i - 1]?.start ?? 0));
  const { seconds } = facts.rules.content.duration;
  const contrary =
    seconds === null ? [] : timed.filter((p) => p.half !== null && p.half !== 2 * (p.start ?? 0) >= seconds);
  const wrong = [...new Set([...back, ...contrary])];
  const says = 'Start times rise in skating order and agree with the marks for the second half';
  if (wrong.length === 0) return [verdict({ rule, status: 'met', elements: numbers(timed), says }, citation)];
  const consequence = `look again at element ${numbers(wrong).join(', ')}: the list and the music do not fit each other`;
  return [verdict({ rule, status: 'broken', elements: numbers(wrong), says, consequence, cost: 0 }, citation)];
}

/** An element that starts after the time is over is not called. */
function lateElements(facts: CheckFacts): readonly Verdict[] {
  const { seconds, tolerance, maximumOnly } = facts.rules.content.duration;
  const timed = facts.planned.filter((p) => p.start !== null);
  if (timed.length === 0) return [];
  const rule = 'start-limit';
  const citation = cite(facts.rules, 'duration.seconds');
  const limit = seconds === null ? null : seconds + (maximumOnly ? 0 : (tolerance ?? 0));
  if (limit === null)
    return [verdict({ rule, status: 'unknown', says: 'The required time is not established' }, citation)];
  const late = timed.filter((p) => (p.start ?? 0) > limit);
  const says = `Elements start before ${clock(limit)}`;
  if (late.length === 0) return [verdict({ rule, status: 'met', elements: numbers(timed), says }, citation)];
  const cost = sum(late.map((p) => worth(facts, p)));
  const consequence = `element ${numbers(late).join(', ')} is not called and scores nothing`;
  return [verdict({ rule, status: 'broken', elements: numbers(late), says, consequence, cost }, citation)];
}

/** Length of the music against the required time. */
function duration(facts: CheckFacts): readonly Verdict[] {
  if (facts.duration === null) return [];
  const rule = 'duration';
  const citation = cite(facts.rules, 'duration');
  const { seconds, tolerance, maximumOnly } = facts.rules.content.duration;
  if (seconds === null || (tolerance === null && !maximumOnly)) {
    return [
      verdict(
        { rule, status: 'unknown', says: `The required time is not established; planned: ${clock(facts.duration)}` },
        citation,
      ),
    ];
  }
  const margin = maximumOnly ? 0 : (tolerance ?? 0);
  const over = Math.max(0, facts.duration - seconds - margin);
  const under = maximumOnly ? 0 : Math.max(0, seconds - margin - facts.duration);
  const says = maximumOnly
    ? `At most ${clock(seconds)}; planned: ${clock(facts.duration)}`
    : `${clock(seconds)}, ${margin} seconds more or less; planned: ${clock(facts.duration)}`;
  const off = over + under;
  if (off === 0) return [verdict({ rule, status: 'met', says }, citation)];
  const { chosen } = facts.rules;
  const { time } = chosen.deductions.deductions(chosen.category, chosen.segment);
  const cost = time === null ? null : -time.points * Math.ceil(off / time.perSeconds);
  const consequence = `the program is ${Math.ceil(off)} seconds too ${over > 0 ? 'long' : 'short'}`;
  return [verdict({ rule, status: 'broken', says, consequence, cost }, citation)];
}

/** Verdicts that do not come from the calling automaton. */
export const otherVerdicts = (facts: CheckFacts): readonly Verdict[] => [
  ...levelCaps(facts),
  ...secondHalf(facts),
  ...order(facts),
  ...lateElements(facts),
  ...duration(facts),
  ...scale(facts),
];
