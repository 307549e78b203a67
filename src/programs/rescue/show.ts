import { asPoints, showPoints } from '../points.ts';
import type { RescueCase, RescueResult } from './rescue.ts';

/** The JSON answer of `rescue`. */
export const rescueJson = (result: RescueResult): object => ({
  id: result.id,
  rulebook: result.rulebook,
  legal: result.legal,
  card: result.card,
  fragile: result.fragile,
  leftBehind: asPoints(result.leftBehind),
  cases: result.cases.map((one) => ({
    ...one,
    voids: one.voids.map((v) => ({ ...v, lost: asPoints(v.lost) })),
    gain: asPoints(one.gain),
  })),
  ...(result.warnings.length > 0 ? { warnings: result.warnings } : {}),
});

function caseLine(one: RescueCase): string {
  const lost = one.voids.map((v) => `element ${v.no} (${v.planned}) ${v.words}, ${showPoints(v.lost)} less`).join('; ');
  const instead = one.changes.map((c) => `${c.instead} in place of ${c.planned} (element ${c.no})`).join(' and ');
  const parts = [
    ...(lost === '' ? [] : [`going on as planned, ${lost}`]),
    instead === '' ? 'go on as planned' : `better: ${instead}, ${showPoints(one.gain)} more`,
  ];
  return `- Element ${one.no}, ${one.planned} -> ${one.done}: ${parts.join('; ')}.`;
}

/** Cases worth telling the coach: something is voided, or something can be won back. */
const telling = (one: RescueCase): boolean => one.voids.length > 0 || one.changes.length > 0;

/** The card, then the cases for the coach. */
export function rescueText(result: RescueResult): string {
  const told = result.cases.filter(telling);
  return [
    'Plan B',
    ...(result.card.length > 0 ? result.card.map((sentence, i) => `${i + 1}. ${sentence}`) : ['1. Go on as planned.']),
    '',
    result.fragile
      ? `Fragile: no short rule works for everything; up to ${showPoints(result.leftBehind)} points stay behind.`
      : 'These sentences cover what can go wrong, to half a point.',
    ...(told.length > 0 ? ['For the coach:', ...told.map(caseLine)] : []),
    ...(result.legal === false ? ['Note: the layout itself breaks a rule; see check.'] : []),
    ...result.warnings.map((warning) => `Note: ${warning}`),
  ].join('\n');
}
