import type { BasicPosition, SpinElement } from '../notation/index.ts';
import type { SpinRules } from '../rulebook/index.ts';
import type { FeedbackReading } from './feedback-steps.ts';

const LETTER: Readonly<Record<BasicPosition, string>> = { camel: 'NC', sit: 'NS', upright: 'NU' };

export interface SpinFeedback {
  readonly element: SpinElement;
  /** Positions that the letters name as missing; null or empty where no letters were printed. */
  readonly positions: readonly BasicPosition[] | null;
  readonly rules: SpinRules;
  /** The position that the panel itself named as missing: evidence beside V and letters. */
  readonly toldPosition?: BasicPosition | null;
}

/**
 * What the letters beside a spin prove. A position letter belongs to a V on a combination spin and
 * names one missing basic position; anywhere else it is contradictory. A V without letters may have
 * several causes and none is invented; what the panel told is used where V and letters leave room for it.
 */
export function explainSpin({ element, positions, rules, toldPosition }: SpinFeedback): FeedbackReading {
  const named = [...new Set(positions ?? [])];
  const trouble = named.length === 0 ? null : contradiction(element, named);
  const told = toldPosition ?? null;
  const toldFits = told === null ? null : trouble === null && fits(element, named, told);
  return {
    letters: named.length === 0 ? null : named.map((position) => LETTER[position]).join(' '),
    consistent: trouble === null,
    explanations: [],
    turns: null,
    complexity: null,
    missingPosition: trouble === null ? (named[0] ?? (toldFits === true ? told : null)) : null,
    notes: [...(trouble === null ? [] : [trouble]), ...notesOn(element, named, rules)],
    toldFits,
  };
}

/** A told position agrees with the letters where there are any; without letters it needs a V that it can explain. */
const fits = (element: SpinElement, named: readonly BasicPosition[], told: BasicPosition): boolean =>
  named.length > 0 ? named.includes(told) : contradiction(element, [told]) === null;

/** Why these letters cannot stand beside this spin; null where they can. */
function contradiction(element: SpinElement, named: readonly BasicPosition[]): string | null {
  if (element.position !== 'Co') return 'A missing position is named, but this is not a combination spin.';
  if (element.v === 0) return 'A missing position is named, but the spin carries no V.';
  if (named.length > 1) return 'Two missing positions would leave one, and that is not a combination spin.';
  return null;
}

function notesOn(element: SpinElement, named: readonly BasicPosition[], rules: SpinRules): string[] {
  const notes: string[] = [];
  if (element.v > 0 && named.length === 0) notes.push('The sheet does not say why the V was given.');
  if (named.some((position) => !rules.positionLetters.includes(position)))
    notes.push('This category does not usually print letters for missing positions.');
  if (named.length > 0)
    notes.push('The letter says that the panel saw no two continuous revolutions in that position.');
  return notes;
}
