import { formatElement, formatJump, type Element } from '../../notation/index.ts';
import type { Hundredths } from '../../rulebook/index.ts';
import { EULER_BETWEEN, type Reason } from '../../scoring/index.ts';
import { pointsAt } from '../points.ts';
import type { Planned } from '../planned.ts';
import type { CheckFacts } from './types.ts';

/** The planned element with the effects of these reasons alone. */
function withEffects(element: Element, reasons: readonly Reason[]): Element {
  const voided = reasons.filter((r) => r.effect === 'no-value');
  if (element.kind !== 'jump') return voided.length > 0 ? { ...element, noValue: true } : element;
  const isVoid = (index: number): boolean => voided.some((r) => r.jump === null || r.jump === index);
  const reduced = reasons.some((r) => r.effect === 'reduced');
  return {
    ...element,
    jumps: element.jumps.map((jump, i) => (isVoid(i) ? { ...jump, noValue: true } : jump)),
    markers: reduced ? [...element.markers, { marker: 'REP', after: element.jumps.length }] : element.markers,
  };
}

/** The rules say where an Euler counts, not what a panel does with one that stands elsewhere. */
const isOpen = ({ rule, path }: Reason): boolean => rule === 'euler' && path === EULER_BETWEEN;

/** Points that one rule alone takes from an element as planned, at its planned grade; null: it cannot be told. */
export function lossOf(facts: CheckFacts, index: number, reasons: readonly Reason[]): Hundredths | null {
  const planned = facts.planned[index];
  const half = facts.walk.called[index]?.half === true;
  if (planned === undefined) return 0;
  if (reasons.some(isOpen)) return null;
  const { values } = facts.rules.chosen;
  const lowest = reasons.some((r) => r.effect === 'lowest-grade');
  const grade = lowest ? values.values.goe.min : planned.grade;
  const asPlanned = pointsAt(values, planned.element, half, planned.grade);
  const onTheDay = pointsAt(values, withEffects(planned.element, reasons), half, grade);
  return asPlanned === null || onTheDay === null ? null : asPlanned - onTheDay;
}

const jumpCode = (planned: Planned, index: number): string => {
  const jump = planned.element.kind === 'jump' ? planned.element.jumps[index] : undefined;
  return jump === undefined ? planned.code : formatJump(jump);
};

/** What happens to the element on the day, in plain words. */
export function consequence(planned: Planned, reasons: readonly Reason[]): string {
  const where = `element ${planned.no} (${formatElement(planned.element)})`;
  if (reasons.some(isOpen)) {
    return `what a panel does with ${where} is not established; the Euler is counted without points`;
  }
  const whole = reasons.some((r) => r.effect === 'no-value' && r.jump === null);
  if (whole) return `${where} scores nothing`;
  const lost = reasons.flatMap((r) => (r.effect === 'no-value' && r.jump !== null ? [jumpCode(planned, r.jump)] : []));
  const parts = [
    ...(lost.length > 0 ? [`${lost.join(' and ')} ${lost.length > 1 ? 'score' : 'scores'} nothing`] : []),
    ...(reasons.some((r) => r.effect === 'reduced') ? ['is marked +REP'] : []),
    ...(reasons.some((r) => r.effect === 'marked') ? ['is marked +COMBO'] : []),
    ...(reasons.some((r) => r.effect === 'lowest-grade') ? ['ends at the lowest grade'] : []),
  ];
  return `in ${where} ${parts.join(', and the element ')}`.replace(/^in (.*?\)) (is|ends)/, '$1 $2');
}
