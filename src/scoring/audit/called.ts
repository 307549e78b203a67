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
  type Result,
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
 * not, the element is read without that call (the others stay) and the alternatives are kept. Never throws.
 */
export function calledElement(printed: ProtocolElement, rulebook: Rulebook): CalledElement {
  const parsed = parseCode(printed.code);
  const info = parseInfo(printed.info);
  const half = printed.half || (parsed.ok && parsed.value.half) || (info.ok && info.value.half);
  const fall = (parsed.ok && parsed.value.fall) || (info.ok && info.value.fall);
  const feedback = (parsed.ok ? parsed.value.feedback : null) ?? (info.ok ? info.value.feedback : null);
  const { element, trouble } = placed(parsed, info, printed, half, rulebook);
  return { element, half, fall, feedback, trouble };
}

type Placed = Pick<CalledElement, 'element' | 'trouble'>;

function placed(
  parsed: Result<ParsedCode>,
  info: Result<Info>,
  printed: ProtocolElement,
  half: boolean,
  rulebook: Rulebook,
): Placed {
  if (!parsed.ok) return { element: null, trouble: { field: 'code', problem: parsed.error } };
  const { element } = parsed.value;
  if (!info.ok) return { element, trouble: { field: 'info', problem: info.error } };
  if (info.value.calls.length === 0) return { element, trouble: null };
  return settled(element, info.value, printed, half, rulebook);
}

function settled(element: Element, info: Info, printed: ProtocolElement, half: boolean, rulebook: Rulebook): Placed {
  const placement = applyInfo(element, info);
  if ('settled' in placement) return { element: placement.settled, trouble: null };
  const choices = [...placement.choices, ...withoutAnyValue(element, info)];
  const fitting = choices.filter(
    (choice) => printed.base !== null && elementValue(rulebook, choice, { half }).base === printed.base,
  );
  const [only] = fitting;
  if (fitting.length === 1 && only !== undefined) return { element: only, trouble: null };
  const open = fitting.length > 1 ? fitting : choices;
  return { element: shared(element, open), trouble: { field: 'info', alternatives: open.map(formatElement) } };
}

/** The element with those calls that every open reading carries at the same jump: only the others are in doubt. */
function shared(element: Element, open: readonly Element[]): Element {
  const readings = open.flatMap((one) => (one.kind === 'jump' ? [one.jumps] : []));
  const [first] = readings;
  if (element.kind !== 'jump' || first === undefined) return element;
  const agreed = (index: number, key: 'rotation' | 'edge' | 'noValue') =>
    readings.every((jumps) => jumps[index]?.[key] === first[index]?.[key]);
  const jumps = element.jumps.map((jump, index) => {
    const called = first[index] ?? jump;
    return {
      ...jump,
      rotation: agreed(index, 'rotation') ? called.rotation : jump.rotation,
      edge: agreed(index, 'edge') ? called.edge : jump.edge,
      noValue: agreed(index, 'noValue') ? called.noValue : jump.noValue,
    };
  });
  return { ...element, jumps };
}

/** `*` beside several jumps can also strike out the whole element. */
const withoutAnyValue = (element: Element, info: Info): readonly Element[] =>
  element.kind === 'jump' && info.calls.includes('*')
    ? [{ ...element, jumps: element.jumps.map((jump) => ({ ...jump, noValue: true })) }]
    : [];
