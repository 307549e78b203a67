import { formatElement, withoutCalls, type Element, type JumpElement, type SpinElement } from '../notation/index.ts';
import { elementValue } from '../scoring/index.ts';
import { levelNumber } from '../levels/index.ts';
import { lineOf, type AdviceBasis } from './advice-basis.ts';
import { contentChange } from './content-change.ts';
import { amount, points, signed } from './numbers.ts';
import { capital, spokenElement, spokenJump } from './spoken.ts';
import { countedInWords, featureWords, moreTurns } from './step-words.ts';
import type { LedgerEntry } from './types.ts';

/** A missing position's price is a lower bound: a feature may have gone with it. */
export const isLowerBound = (entry: LedgerEntry): boolean => entry.cause === 'V';

/** One piece of advice in plain words: what to do, and why it pays. */
export function adviceText(entry: LedgerEntry, element: Element | null, basis: AdviceBasis): string {
  switch (entry.cause) {
    case 'content':
      return contentText(entry, basis);
    case 'rotation':
      return `${calledJumps(element, 'rotation')}: turn all the way round before landing. ${gradesText(entry)}`;
    case 'edge':
      return `${calledJumps(element, 'edge')}: ${edgeCure(element)}. ${gradesText(entry)}`;
    case 'level':
      return levelText(entry, element, basis);
    case 'V':
      return vText(entry, element, basis);
    case 'no-value':
      return noValueText(entry, element);
    case 'repeat':
      return `${capital(nameOf(entry, element))}: called as a repeat. Put one of the two in a combination or sequence, or plan another jump.`;
    case 'second-half':
      return `${capital(nameOf(entry, element))}: planned for the second half, credited in the first. Move its start, or ask the referee if the half mark is missing.`;
    case 'fall':
      return fallText(entry, element, basis);
    case 'execution':
      return executionText(entry, element, basis);
    case 'deduction':
      return entry.evidence.includes('deductions')
        ? 'Deductions: the sheet does not say for what; look at falls, music length, costume and start.'
        : 'Deductions other than falls: check music length, costume and start with a run-through in full dress.';
    case 'bonus':
      return '';
    case 'components':
      return 'Components below the planned means: skate full run-throughs to the music, jumps made easier.';
  }
}

const nameOf = (entry: LedgerEntry, element: Element | null): string =>
  element === null ? (entry.element ?? '') : spokenElement(element);

/** Where the season's list of obliged grades is not known, the call's own grades stand here too. */
function executionText(entry: LedgerEntry, element: Element | null, basis: AdviceBasis): string {
  const unknown = basis.entries
    .filter((one) => one.no === entry.no && one.grades?.min === null)
    .map((one) => one.cause);
  const [kind] = (['rotation', 'edge'] as const).filter((cause) => unknown.includes(cause));
  if (kind === undefined)
    return `${capital(nameOf(entry, element))}: grades below the reference without a call that explains them. Look at the video for entry, position and running edge.`;
  const cure = kind === 'rotation' ? 'turn all the way round before landing' : edgeCure(element);
  return `${calledJumps(element, kind)}: ${cure}. How many of these grades the call obliges is not known for this season; the rest is the judges’.`;
}

function noValueText(entry: LedgerEntry, element: Element | null): string {
  const name = capital(nameOf(entry, element));
  const noLevel = element !== null && element.kind !== 'jump' && element.level === null && !element.noValue;
  return noLevel
    ? `${name}: no level was confirmed, so it has no value. Look at the video with the definition of the element.`
    : `${name}: no value. Usual reasons are a repeat too many, an element too many, or not what the segment asks for; a check of the layout names the rule. Plan what stands in its place.`;
}

function contentText(entry: LedgerEntry, basis: AdviceBasis): string {
  const line = lineOf(entry, basis.lines);
  if (line?.kind === 'missing')
    return `${line.planned.code} was planned and is not on the sheet. If it was skated, ask the referee now, politely; if not, plan where it goes when something goes wrong before it.`;
  if (line?.kind !== 'both') return `${entry.element ?? ''}: other than planned.`;
  const planned = formatElement(line.reference.element);
  const read = formatElement(withoutCalls(line.skated.element));
  return `Planned ${planned}, read as ${read}. ${contentCure(line.reference.element, line.skated.element)}`;
}

function contentCure(planned: Element, skated: Element): string {
  switch (contentChange(planned, skated)) {
    case 'missing-partner':
      return 'Know beforehand where the missing jump can be put back, and where a repeat rule forbids it.';
    case 'fewer-turns':
      return 'Stay closed until the turns are done; the sheet does not say why it opened.';
    case 'other':
    case null:
      return 'The sheet does not say why it changed.';
  }
}

function calledJumps(element: Element | null, kind: 'rotation' | 'edge'): string {
  if (element?.kind !== 'jump') return 'The jump';
  const called = element.jumps.filter((jump) => jump[kind] !== null);
  return capital(called.map((jump) => `${spokenJump(jump)} (called ${jump[kind] ?? ''})`).join(', '));
}

function edgeCure(element: Element | null): string {
  const jump = element?.kind === 'jump' ? element.jumps.find((one) => one.edge !== null) : undefined;
  return `stay on the ${jump?.name === 'F' ? 'inside' : 'outside'} edge up to the pick`;
}

/** What was booked to the call, beside what the list asks for. */
function gradesText(entry: LedgerEntry): string {
  const { grades } = entry;
  if (grades?.min == null || grades.max == null)
    return 'How many grades the call obliges is not known for this season.';
  const range = grades.min === grades.max ? String(grades.min) : `${grades.min} to ${grades.max}`;
  const booked = Math.round(grades.booked * 100) / 100;
  return `The call obliges judges to take ${range} grades off; ${booked} ${booked === 1 ? 'is' : 'are'} booked here.`;
}

function fallText(entry: LedgerEntry, element: Element | null, basis: AdviceBasis): string {
  if (element === null) return 'Falls: the deduction comes back with every landing that is held.';
  const falls = basis.entries.filter((one) => one.cause === 'fall' && one.no !== null).length;
  const deduction = basis.entries.find((one) => one.cause === 'fall' && one.element === null);
  const share =
    deduction === undefined
      ? ''
      : falls === 1
        ? ` The deduction of ${amount(deduction.points)} comes back as well.`
        : ` The deductions of ${amount(deduction.points)} for all falls come back as well.`;
  const act =
    element.kind === 'jump'
      ? 'stand up on it: check the landing side before adding speed'
      : 'stay over the skating hip';
  return `${capital(spokenElement(element))}: ${act}. ${amount(entry.winBack)} in grades.${share}`;
}

function levelText(entry: LedgerEntry, element: Element | null, basis: AdviceBasis): string {
  const line = lineOf(entry, basis.lines);
  const reference = line?.kind === 'both' ? line.reference.element : null;
  const target = reference === null || reference.kind === 'jump' ? null : reference.level;
  if (element?.kind === 'steps' && element.level !== null) {
    const feedback = basis.feedback.find((one) => entry.evidence[0]?.startsWith(`elements[${one.index}]`));
    const rules = basis.rules.levels.steps(basis.rules.category);
    const said =
      feedback === undefined
        ? []
        : [
            countedInWords(feedback.turns),
            moreTurns(feedback, element.level, rules) ?? '',
            featureWords(feedback, element.level),
          ];
    return [
      `Step sequence, level ${element.level}, reference ${target ?? 'not known'}.`,
      ...said,
      nextLevel(element, basis),
    ]
      .filter((text) => text !== '')
      .join(' ');
  }
  return `${capital(nameOf(entry, element))}: level ${element === null || element.kind === 'jump' ? '' : (element.level ?? '')}, reference ${target ?? 'not known'}. Check in the spin plan which feature was meant to count; the sheet does not say which was not credited.`;
}

/** What one level more is worth in base. */
function nextLevel(element: Exclude<Element, JumpElement>, basis: AdviceBasis): string {
  if (element.level === null || levelNumber(element.level) >= 4) return '';
  const now = elementValue(basis.rules.values, element).base;
  const level = levelNumber(element.level) + 1;
  const higher = { ...element, level: level === 1 ? 1 : level === 2 ? 2 : level === 3 ? 3 : 4 } as const;
  const then = elementValue(basis.rules.values, higher).base;
  if (now === null || then === null) return '';
  return `Level ${level} is worth ${amount(then - now)} more in base.`;
}

function vText(entry: LedgerEntry, element: Element | null, basis: AdviceBasis): string {
  if (element?.kind !== 'spin') return 'V on a spin.';
  const feedback = basis.feedback.find((one) => entry.evidence[0]?.startsWith(`elements[${one.index}]`));
  const price = vPrice(entry, element, basis);
  const name = capital(spokenElement(element));
  if (feedback?.missingPosition == null)
    return `${name}: the sheet does not say why the V was given; ask the panel.${price}`;
  const deeper = feedback.missingPosition === 'sit' ? ', and a deeper sit' : '';
  return `${name}: one more revolution in the ${feedback.missingPosition} position${deeper}, so that two in a row count.${price}`;
}

/** The price of a V: the base that it takes, and what today's grades add or take. */
function vPrice(entry: LedgerEntry, element: SpinElement, basis: AdviceBasis): string {
  const now = elementValue(basis.rules.values, element).base;
  const full = elementValue(basis.rules.values, { ...element, v: 0 }).base;
  if (now === null || full === null) return '';
  const share = entry.winBack - (full - now);
  return ` The V took the base from ${points(full)} to ${points(now)}: at least ${amount(full - now)} comes back in base, and ${signed(share)} as the share of today’s grades; a feature may have gone with it.`;
}
