import { formatElement, formatJump, type Jump } from '../../notation/index.ts';
import type { Planned } from '../planned.ts';
import { skate, withTail, type Changes } from './continuations.ts';
import type { Mishap } from './mishaps.ts';
import type { SegmentRules } from '../segment-rules.ts';

/** One sentence of a plan B: when it speaks, and what it changes. */
export interface Rule {
  /** Behind “If”: `the 3Lz+3T loses its other jump`. */
  readonly condition: string;
  /** Behind the comma: `put +3T on the 3F`. */
  readonly action: string;
  /** null: the sentence does not speak of this mishap. */
  readonly changes: (mishap: Mishap) => Changes | null;
}

/** Anything that needs to be remembered costs less than this in points: it is let go. */
export const TOLERABLE = 50;

const named = (tail: readonly Jump[]): string => tail.map((jump) => `+${formatJump(jump)}`).join('');

const jumpElements = (planned: readonly Planned[]): readonly Planned[] =>
  planned.filter((p) => p.element.kind === 'jump');

const ORDINALS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth'];

/** “the 3S”, with its place among the jump elements where the program has it twice. */
export function spoken(p: Planned, planned: readonly Planned[]): string {
  const code = formatElement(p.element);
  const jumps = jumpElements(planned);
  const twins = jumps.filter((one) => formatElement(one.element) === code);
  if (twins.length === 1) return `the ${code}`;
  return `the ${ORDINALS[jumps.indexOf(p)] ?? ''} jump, the ${code}`;
}

const isAlone = (p: Planned): boolean => p.element.kind === 'jump' && p.element.jumps.length === 1;

/** A combination that comes when the target is over cannot hand its tail on: the sentence then says which can. */
function combinationBefore(target: Planned, planned: readonly Planned[]): string {
  const later = planned.some((p) => p.no > target.no && p.element.kind === 'jump' && p.element.jumps.length > 1);
  return `a combination${later ? ` before ${spoken(target, planned)}` : ''} loses its second jump`;
}

/** “If a combination loses its second jump, put +2T on the 3S.” */
export function putBackRules(planned: readonly Planned[], tails: readonly (readonly Jump[])[]): readonly Rule[] {
  const targets = planned.filter(isAlone);
  return tails.flatMap((tail) =>
    targets.map((target): Rule => ({
      condition: combinationBefore(target, planned),
      action: `put ${named(tail)} on ${spoken(target, planned)}`,
      changes: (mishap) =>
        mishap.lost.length > 0 && mishap.no < target.no && target.element.kind === 'jump'
          ? new Map([[target.no, withTail(target.element, tail)]])
          : null,
    })),
  );
}

/** What must have happened, so that no other mishap of the same element is meant. */
function condition(cases: readonly Case[], planned: readonly Planned[]): string {
  const mishap = cases[0]?.mishap;
  const plan = planned[(mishap?.no ?? 0) - 1];
  if (mishap === undefined || plan?.element.kind !== 'jump') return 'that happens';
  const [first, ...tail] = plan.element.jumps;
  const done = mishap.done.jumps.map(formatJump).join('+');
  const kinds = new Set(cases.map((one) => one.mishap.kind));
  // Popped or not, the answer is the same.
  const whatever = kinds.has('alone') && (kinds.has('popped') || first?.turns === 1);
  if (whatever) return `${spoken(plan, planned)} loses its other jump${tail.length > 1 ? 's' : ''}`;
  const alone = tail.length > 0 && !kinds.has('tail-popped');
  return `${spoken(plan, planned)} becomes ${done}${alone ? ' alone' : ''}`;
}

function action(no: number, planned: readonly Planned[], changes: Changes): string {
  const plan = planned[no - 1];
  const change = changes.get(no);
  if (plan?.element.kind !== 'jump' || change === undefined) return '';
  const tail = change.jumps.slice(1);
  if (tail.length === 0)
    return `do only the ${formatJump(change.jumps[0] ?? { name: 'T', turns: 0, rotation: null, edge: null, noValue: false })} of ${spoken(plan, planned)}`;
  return plan.element.jumps.length === 1
    ? `put ${named(tail)} on ${spoken(plan, planned)}`
    : `do ${formatElement(change)} in place of ${spoken(plan, planned)}`;
}

/** A mishap with the best that can be made of it. */
export interface Case {
  readonly mishap: Mishap;
  readonly changes: Changes;
  readonly points: number;
}

/** A sentence for the mishaps of one element that have the same answer. */
export function specialRule(cases: readonly Case[], planned: readonly Planned[]): Rule {
  const changes: Changes = cases[0]?.changes ?? new Map();
  const what = [...changes.keys()].sort((a, b) => a - b).map((no) => action(no, planned, changes));
  const then = what.length === 0 ? 'go on as planned' : what.join(' and ');
  return {
    condition: condition(cases, planned),
    action: then,
    changes: (other) =>
      cases.some(({ mishap }) => other.no === mishap.no && other.kind === mishap.kind) ? changes : null,
  };
}

/**
 * The sentences in the order in which they are asked: the first that fits decides. Where an earlier one may
 * fit the same mishap, the later one begins with “Otherwise”; one that never decides is left out.
 */
export function cardText(rules: readonly Rule[], cases: readonly Case[]): readonly string[] {
  const speaks = (rule: Rule, { mishap }: Case): boolean => rule.changes(mishap) !== null;
  const asked = [...rules].reverse();
  const deciding = asked.filter((rule, i) =>
    cases.some((one) => speaks(rule, one) && !asked.slice(0, i).some((earlier) => speaks(earlier, one))),
  );
  return deciding.map((rule, i) => {
    const contested = cases.some(
      (one) => speaks(rule, one) && deciding.slice(0, i).some((earlier) => speaks(earlier, one)),
    );
    return `${contested ? 'Otherwise, if' : 'If'} ${rule.condition}, ${rule.action}.`;
  });
}

/** Points lost against the best continuation when these sentences are followed; later sentences win. */
export function regret(one: Case, rules: readonly Rule[], planned: readonly Planned[], segment: SegmentRules): number {
  const told = [...rules]
    .reverse()
    .map((rule) => rule.changes(one.mishap))
    .find((changes) => changes !== null);
  const done = new Map([...(told ?? new Map()), [one.mishap.no, one.mishap.done] as const]);
  return one.points - skate(planned, done, segment).points;
}
