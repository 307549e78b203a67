import { parseFeedback, type Element, type Feedback } from '../notation/index.ts';
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
    return {
      index,
      no: printed.no ?? index + 1,
      code: printed.code,
      element,
      half,
      fall,
      feedback: ownLetters(printed.feedback, element) ?? feedback,
      hasInfo: printed.info.trim() !== '',
      hasFeedbackField: printed.feedback !== null,
      marks: printed.marks,
    };
  });

function ownLetters(text: string | null, element: Element): Feedback | null {
  const read = text === null ? null : parseFeedback(text, element);
  return read?.ok === true ? read.value : null;
}
