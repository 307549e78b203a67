import { moreToRead, problemAt, restOf, skipSpaces, takeOneOf, type Cursor } from './cursor.ts';
import type { Element, Feedback, ParsedCode } from './element.ts';
import { takeFeedback } from './feedback.ts';
import { fail, ok, type Result } from './problem.ts';
import type { Level, SpinPosition } from './vocabulary.ts';

const SPIN = /(f?)(c?)(co|[ulcs])sp/y;
const POSITIONS: Readonly<Record<string, SpinPosition>> = { u: 'U', l: 'L', c: 'C', s: 'S', co: 'Co' };
const FORMS = ['StSq', 'ChSq', 'ChSp', 'ChSt'] as const;

interface Draft {
  noValue: boolean;
  half: boolean;
  fall: boolean;
  feedback: Feedback | null;
}

/** Reads a spin, a step sequence or a choreographic element; null if none begins here. */
export function parseLevelElement(cursor: Cursor): Result<ParsedCode> | null {
  const start = cursor.at;
  const form = takeOneOf(cursor, FORMS);
  const spin = form === null ? takeSpin(cursor) : null;
  if (form === null && spin === null) return null;
  const level = readLevel(cursor, form === 'StSq' || form === null ? ['B', 1, 2, 3, 4] : [1]);
  if (!level.ok) return level;
  const v = spin === null ? 0 : takeV(cursor);
  // `CCoSpV3`: some sheets print the V before the level.
  const late: Result<Level | null> = v > 0 && level.value === null ? readLevel(cursor, ['B', 1, 2, 3, 4]) : level;
  if (!late.ok) return late;
  const draft: Draft = { noValue: false, half: false, fall: false, feedback: null };
  const kind = spin !== null ? 'spin' : form === 'StSq' ? 'steps' : 'choreo';
  while (moreToRead(cursor)) {
    const step = readTail(cursor, draft, kind, start);
    if (!step.ok) return step;
  }
  const { noValue, half, fall, feedback } = draft;
  return ok({ element: elementOf(spin, form, late.value, v, noValue), half, fall, feedback });
}

interface SpinHead {
  flying: boolean;
  changeFoot: boolean;
  position: SpinPosition;
}

function takeSpin(cursor: Cursor): SpinHead | null {
  SPIN.lastIndex = cursor.at;
  const match = SPIN.exec(cursor.low);
  const position = POSITIONS[match?.[3] ?? ''];
  if (match === null || position === undefined) return null;
  cursor.at += match[0].length;
  return { flying: match[1] !== '', changeFoot: match[2] !== '', position };
}

function elementOf(
  spin: SpinHead | null,
  form: (typeof FORMS)[number] | null,
  level: Level | null,
  v: 0 | 1 | 2,
  noValue: boolean,
): Element {
  if (spin !== null) return { kind: 'spin', ...spin, level, v, noValue };
  if (form === null || form === 'StSq') return { kind: 'steps', level, noValue };
  return { kind: 'choreo', form, level, noValue };
}

/** A level directly behind the code, or behind spaces; null: the sheet prints none. */
function readLevel(cursor: Cursor, allowed: readonly Level[]): Result<Level | null> {
  const start = cursor.at;
  skipSpaces(cursor);
  const sign = cursor.low[cursor.at] ?? '';
  const level = sign === 'b' ? 'B' : Number(sign === '' || sign === ' ' ? NaN : sign);
  const found = allowed.find((one) => one === level);
  if (found !== undefined) {
    cursor.at++;
    if (!/[0-9]/.test(cursor.low[cursor.at] ?? '')) return ok(found);
  } else if (!/[0-9]/.test(sign)) {
    cursor.at = start;
    return ok(null);
  }
  const expected = `level ${allowed.join(', ')} or none`;
  return fail(problemAt(cursor, 'code.level', expected, 'Check the level against the sheet.', start));
}

function takeV(cursor: Cursor): 0 | 1 | 2 {
  const start = cursor.at;
  skipSpaces(cursor);
  const v = takeOneOf(cursor, ['v2', 'v1', 'v']);
  if (v === null) cursor.at = start;
  return v === null ? 0 : v === 'v2' ? 2 : 1;
}

function readTail(cursor: Cursor, draft: Draft, kind: Element['kind'], begin: number): Result<null> {
  const start = cursor.at;
  const flag = takeOneOf(cursor, ['*', 'x', 'f']);
  const name = flag === '*' ? 'noValue' : flag === 'x' ? 'half' : flag === 'f' ? 'fall' : null;
  if (name !== null && !draft[name]) {
    draft[name] = true;
    return ok(null);
  }
  const feedback = name === null && draft.feedback === null ? takeFeedback(cursor, kind) : null;
  if (feedback?.ok) {
    draft.feedback = feedback.value;
    return ok(null);
  }
  if (feedback !== null) return feedback;
  const expected = 'a level, V, *, F, x, feedback letters or the end';
  const read = cursor.text.slice(begin, start).trim();
  const advice =
    start > begin && read !== '' ? `Up to here it reads “${read.slice(0, 24)}”.` : `Check ${restOf(cursor)}.`;
  return fail(problemAt(cursor, 'code.unexpected', expected, advice, start));
}
