import {
  applyInfo,
  formatElement,
  parseCode,
  parseInfo,
  type Element,
  type Feedback,
  type Info,
  type ParsedCode,
  type Problem,
} from '../../notation/index.ts';
import type { Rulebook } from '../../rulebook/index.ts';
import { elementValue } from '../element-value.ts';
import type { ProtocolElement } from '../protocol.ts';

/** A printed element read with its info column: the same value wherever the sheet put the calls. */
export interface CalledElement {
  /** null: the code cannot be read. */
  readonly element: Element | null;
  /** Credited second half: the field, or an `x` in code or info. */
  readonly half: boolean;
  readonly fall: boolean;
  readonly feedback: Feedback | null;
  readonly trouble: CalledTrouble | null;
}

/** What could not be read; the element is then read without it. */
export type CalledTrouble =
  | { readonly field: 'code' | 'info'; readonly problem: Problem }
  | { readonly field: 'info'; readonly alternatives: readonly string[] };

/**
 * Reads code and info column of an element. Calls that stand only in the info column go where the
 * notation puts them; where several jumps can take one, the printed base value decides; where it does
 * not, the element is read without the call and the alternatives are kept. Never throws.
 */
export function calledElement(printed: ProtocolElement, rulebook: Rulebook): CalledElement {
  const parsed = parseCode(printed.code);
  const info = parseInfo(printed.info);
  const common = {
    half: printed.half || (parsed.ok && parsed.value.half) || (info.ok && info.value.half),
    fall: (parsed.ok && parsed.value.fall) || (info.ok && info.value.fall),
    feedback: (parsed.ok ? parsed.value.feedback : null) ?? (info.ok ? info.value.feedback : null),
  };
  if (!parsed.ok) return { ...common, element: null, trouble: { field: 'code', problem: parsed.error } };
  if (!info.ok) return { ...common, element: parsed.value.element, trouble: { field: 'info', problem: info.error } };
  return { ...common, ...placed(parsed.value, info.value, printed, common.half, rulebook) };
}

function placed(
  parsed: ParsedCode,
  info: Info,
  printed: ProtocolElement,
  half: boolean,
  rulebook: Rulebook,
): Pick<CalledElement, 'element' | 'trouble'> {
  if (info.calls.length === 0) return { element: parsed.element, trouble: null };
  const placement = applyInfo(parsed.element, info);
  if ('settled' in placement) return { element: placement.settled, trouble: null };
  const fitting = placement.choices.filter(
    (choice) => printed.base !== null && elementValue(rulebook, choice, { half }).base === printed.base,
  );
  const [only] = fitting;
  if (fitting.length === 1 && only !== undefined) return { element: only, trouble: null };
  const alternatives = (fitting.length > 1 ? fitting : placement.choices).map(formatElement);
  return { element: parsed.element, trouble: { field: 'info', alternatives } };
}
