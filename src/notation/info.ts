import { atEnd, cursorOf, problemAt, skipSpaces, takeOneOf, type Cursor } from './cursor.ts';
import type { Element, Feedback, JumpElement } from './element.ts';
import { takeFeedback } from './feedback.ts';
import { withCall } from './parse-jumps.ts';
import { fail, ok, type Result } from './problem.ts';
import type { EdgeCall, RotationCall } from './vocabulary.ts';

/** A call that an info column can hold. */
export type InfoCall = RotationCall | EdgeCall | '*';

/** What an info column says. */
export interface Info {
  /** Each call once, in printed order. */
  readonly calls: readonly InfoCall[];
  readonly half: boolean;
  readonly fall: boolean;
  readonly feedback: Feedback | null;
}

const CALLS = ['<<', '<', 'q', 'e', '!', '*'] as const satisfies readonly InfoCall[];
const SEPARATORS = [',', ';', '/', '|', '-', '(', ')'];

/** Reads an info column: `<`, `e <`, `F`, `x`, `nS`, `YNN`; empty text and `-` say nothing. Never throws. */
export function parseInfo(text: string): Result<Info> {
  const cursor = cursorOf(text);
  const draft = { calls: new Set<InfoCall>(), half: false, fall: false, feedback: null as Feedback | null };
  while (moreInfo(cursor)) {
    const call = takeOneOf(cursor, CALLS);
    if (call !== null) draft.calls.add(call);
    else if (takeOneOf(cursor, ['x']) !== null) draft.half = true;
    else if (takeOneOf(cursor, ['f']) !== null) draft.fall = true;
    else {
      const letters = draft.feedback === null ? (takeFeedback(cursor, 'spin') ?? takeFeedback(cursor, 'steps')) : null;
      if (letters === null) return fail(unknownInfo(cursor));
      if (!letters.ok) return letters;
      draft.feedback = letters.value;
    }
  }
  return ok({ ...draft, calls: [...draft.calls] });
}

function moreInfo(cursor: Cursor): boolean {
  do skipSpaces(cursor);
  while (takeOneOf(cursor, SEPARATORS) !== null);
  return !atEnd(cursor);
}

const unknownInfo = (cursor: Cursor) =>
  problemAt(
    cursor,
    'info.unknown',
    'q, <, <<, e, !, *, F, x or feedback letters',
    'Check the info column of the sheet.',
  );

/** Where the calls of an info column go: one reading, or several (none: they fit nowhere). */
export type Placement = { readonly settled: Element } | { readonly choices: readonly Element[] };

/**
 * Puts the calls that only the info column carries onto the element. A call that the code carries
 * already is not applied twice; `e` and `!` go to the first flip or Lutz; other calls to the only
 * jump that can take them, else every way is a choice (the printed base value may settle it).
 * `choices: []` means that the info contradicts the code or cannot be read.
 */
export function applyInfo(element: Element, info: string | Info): Placement {
  const read = typeof info === 'string' ? parseInfo(info) : ok(info);
  if (!read.ok) return { choices: [] };
  let open: readonly Element[] = [element];
  for (const call of read.value.calls) {
    if (carries(element, call)) continue;
    open = open.flatMap((one) => placesOf(one, call));
  }
  const [only] = open;
  return open.length === 1 && only !== undefined ? { settled: only } : { choices: open };
}

function carries(element: Element, call: InfoCall): boolean {
  if (element.kind !== 'jump') return call === '*' && element.noValue;
  return element.jumps.some((jump) =>
    call === '*' ? jump.noValue : call === 'e' || call === '!' ? jump.edge === call : jump.rotation === call,
  );
}

function placesOf(element: Element, call: InfoCall): readonly Element[] {
  if (element.kind !== 'jump') return call === '*' ? [{ ...element, noValue: true }] : [];
  const places = element.jumps.flatMap((_, index) => placeOn(element, index, call) ?? []);
  return call === 'e' || call === '!' ? places.slice(0, 1) : places;
}

function placeOn(element: JumpElement, index: number, call: InfoCall): JumpElement | null {
  const jump = element.jumps[index];
  const called = jump === undefined ? null : withCall(jump, call);
  return called === null ? null : { ...element, jumps: element.jumps.map((one, i) => (i === index ? called : one)) };
}
