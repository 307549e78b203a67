import type { Form } from './forms.ts';
import type { SheetElement, SheetProtocol } from './protocols.ts';

const CALLS = /<<|<|q|!|e(?=[+<!*q]|$)/g;

/** The calls of a code in printed order. */
export const callsOf = (code: string): string[] => (isJump(code) ? (code.match(CALLS) ?? []) : []);

export const isJump = (code: string): boolean => /^\d/.test(code);

/**
 * What this form really prints of an element: a form with calls in the info column prints those of
 * solo jumps there (only there can a reader put them back without doubt), otherwise in the code.
 */
export function printedElement(element: SheetElement, form: Form): SheetElement {
  const calls = callsOf(element.code);
  if (form.calls !== 'info' || calls.length !== 1 || element.code.includes('+') || element.code.includes('*')) {
    return form.columns.includes('info') ? element : { ...element, info: '' };
  }
  return { ...element, code: element.code.replace(CALLS, ''), info: calls[0] ?? '' };
}

/** The truth that reading a sheet of this form is held against. */
export const printedProtocol = (protocol: SheetProtocol, form: Form): SheetProtocol => ({
  ...protocol,
  elements: protocol.elements.map((element) => printedElement(element, form)),
});
