import { parseCode, parseFeedback, type Element, type Feedback } from '../notation/index.ts';
import type { Audit, Protocol } from '../scoring/index.ts';
import type { Skated } from './sides.ts';

/**
 * The elements of a sheet as the audit reads them; null where a code cannot be read. Letters in a field of
 * their own go before those in code or info column.
 */
export const skatedElements = (protocol: Protocol, audit: Audit): (Skated | null)[] =>
  audit.elements.map(({ element, half, fall, feedback }, index) => {
    const printed = protocol.elements[index];
    if (element === null || printed === undefined) return null;
    const own = ownLetters(printed.feedback, element);
    return {
      index,
      no: printed.no ?? index + 1,
      code: printed.code,
      element,
      half,
      fall,
      feedback: own ?? feedback,
      hasInfo: printed.info.trim() !== '',
      lettersIn: own === null ? fieldOf(feedback, printed.code) : 'feedback',
      marks: printed.marks,
    };
  });

function ownLetters(text: string | null, element: Element): Feedback | null {
  const read = text === null ? null : parseFeedback(text, element);
  return read?.ok === true ? read.value : null;
}

function fieldOf(feedback: Feedback | null, code: string): Skated['lettersIn'] {
  if (feedback === null) return null;
  const read = parseCode(code);
  return read.ok && read.value.feedback !== null ? 'code' : 'info';
}

/** Places whose letters cannot be read; a field without letters or figures says nothing. */
export const unreadLetters = (protocol: Protocol, audit: Audit): { readonly at: string; readonly text: string }[] =>
  audit.elements.flatMap(({ element }, index) => {
    const text = protocol.elements[index]?.feedback ?? '';
    if (element === null || !/[\p{L}\d]/u.test(text) || ownLetters(text, element) !== null) return [];
    return [{ at: `elements[${index}].feedback`, text }];
  });
