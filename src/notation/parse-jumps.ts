import { moreToRead, problemAt, skipSpaces, takeOneOf, type Cursor } from './cursor.ts';
import type { Jump, ParsedCode } from './element.ts';
import { fail, ok, type Result } from './problem.ts';
import { didYouMean } from './suggest.ts';
import {
  EDGE_CALLS,
  type EdgeCall,
  JUMP_MARKERS,
  JUMP_NAMES,
  type JumpMarker,
  type JumpName,
  type RotationCall,
} from './vocabulary.ts';

export const MAX_JUMPS = 4;
const MAX_TURNS = 5;
const EDGE_JUMPS: readonly JumpName[] = ['F', 'Lz'];
/** Two-letter names before their first letters, `<<` before `<`. */
const NAMES = [...JUMP_NAMES].sort((a, b) => b.length - a.length);
const ROTATIONS = ['<<', '<', 'q'] as const satisfies readonly RotationCall[];

interface Draft {
  readonly jumps: Jump[];
  readonly markers: { marker: JumpMarker; after: number }[];
  /** A marker was read last: a call that follows is only clear if there is one jump. */
  afterMarker: boolean;
  half: boolean;
  fall: boolean;
}

/** Reads a jump, a combination or a sequence up to the end of the text. */
export function parseJumps(cursor: Cursor): Result<ParsedCode> {
  const draft: Draft = { jumps: [], markers: [], afterMarker: false, half: false, fall: false };
  const first = readJump(cursor, draft);
  if (!first.ok) return first;
  while (moreToRead(cursor)) {
    const step = readPart(cursor, draft);
    if (!step.ok) return step;
  }
  const { jumps, markers, half, fall } = draft;
  return ok({ element: { kind: 'jump', jumps, markers }, half, fall, feedback: null });
}

type Step = Result<null>;
const DONE: Step = ok(null);

function readPart(cursor: Cursor, draft: Draft): Step {
  if (takeOneOf(cursor, ['+', '-']) !== null) {
    skipSpaces(cursor);
    return readMarker(cursor, draft) ? DONE : readJump(cursor, draft);
  }
  if (readMarker(cursor, draft)) return DONE;
  return readCall(cursor, draft) ?? readFlag(cursor, draft) ?? fail(unexpected(cursor));
}

function readMarker(cursor: Cursor, draft: Draft): boolean {
  const marker = takeOneOf(cursor, JUMP_MARKERS);
  if (marker === null) return false;
  draft.markers.push({ marker, after: draft.jumps.length });
  draft.afterMarker = true;
  return draft.markers.length <= MAX_JUMPS * JUMP_MARKERS.length;
}

function readJump(cursor: Cursor, draft: Draft): Step {
  const start = cursor.at;
  if (draft.jumps.length === MAX_JUMPS) {
    return fail(
      problemAt(
        cursor,
        'code.too-many-jumps',
        `at most ${MAX_JUMPS} jumps`,
        'Check that two elements were not joined.',
      ),
    );
  }
  const turns = readTurns(cursor);
  if (!turns.ok) return turns;
  const name = takeOneOf(cursor, NAMES);
  if (name === null) {
    const expected = 'a jump (T, S, Lo, Eu, F, Lz, A), a spin or a sequence';
    return fail(
      problemAt(cursor, 'code.unknown-element', expected, didYouMean(cursor.text.slice(start, start + 9)), start),
    );
  }
  draft.jumps.push({ name, turns: turns.value, rotation: null, edge: null, noValue: false });
  draft.afterMarker = false;
  return DONE;
}

/** No digit: a jump without rotation, printed `A`, `Lo`, `Lz`. */
function readTurns(cursor: Cursor): Result<number> {
  const start = cursor.at;
  while (/[0-9]/.test(cursor.low[cursor.at] ?? '')) cursor.at++;
  const digits = cursor.low.slice(start, cursor.at);
  if (digits === '') return ok(0);
  skipSpaces(cursor);
  if (digits.length === 1 && Number(digits) <= MAX_TURNS) return ok(Number(digits));
  const advice = 'Check the number in front of the jump.';
  return fail(problemAt(cursor, 'code.turns', `0 to ${MAX_TURNS} turns`, advice, start));
}

/** A call after a jump; null if no call stands here. */
function readCall(cursor: Cursor, draft: Draft): Step | null {
  const start = cursor.at;
  const call = takeOneOf(cursor, [...ROTATIONS, ...EDGE_CALLS, '*']);
  if (call === null) return null;
  const jump = draft.jumps.at(-1);
  if (jump === undefined || (draft.afterMarker && draft.jumps.length > 1)) {
    const advice = 'Write the call directly behind its jump.';
    return fail(problemAt(cursor, 'code.call-place', 'a call behind one jump', advice, start));
  }
  const called = withCall(jump, call);
  if (called === null) return fail(impossibleCall(cursor, jump, call, start));
  draft.jumps[draft.jumps.length - 1] = called;
  return DONE;
}

/**
 * The jump with one more call; null if the call cannot stand there: an edge call on a jump that is
 * no flip or Lutz, or a second call of the same sort.
 */
export function withCall(jump: Jump, call: RotationCall | EdgeCall | '*'): Jump | null {
  if (call === '*') return jump.noValue ? null : { ...jump, noValue: true };
  if (call === 'e' || call === '!') {
    return jump.edge !== null || !EDGE_JUMPS.includes(jump.name) ? null : { ...jump, edge: call };
  }
  return jump.rotation !== null ? null : { ...jump, rotation: call };
}

function impossibleCall(cursor: Cursor, jump: Jump, call: string, start: number) {
  const edge = (call === 'e' || call === '!') && !EDGE_JUMPS.includes(jump.name);
  return edge
    ? problemAt(cursor, 'code.edge-call', 'an edge call only on F or Lz', 'Check which jump carries the call.', start)
    : problemAt(cursor, 'code.call-twice', 'one call of each sort on a jump', 'Remove the surplus sign.', start);
}

/** `x` second half, `F` fall; null if neither stands here. */
function readFlag(cursor: Cursor, draft: Draft): Step | null {
  const start = cursor.at;
  const flag = takeOneOf(cursor, ['x', 'f']);
  if (flag === null) return null;
  if (flag === 'x' ? draft.half : draft.fall) {
    return fail(problemAt(cursor, 'code.flag-twice', 'each of x and F once', 'Remove the surplus sign.', start));
  }
  if (flag === 'x') draft.half = true;
  else draft.fall = true;
  return DONE;
}

function unexpected(cursor: Cursor) {
  const expected = 'a call (q < << e ! *), F, x, + with a jump or SEQ, COMBO, REP, or the end';
  return problemAt(cursor, 'code.unexpected', expected, didYouMean(wordUpTo(cursor)));
}

/** The word around the place of trouble, from its first letter or digit. */
function wordUpTo(cursor: Cursor): string {
  let start = cursor.at;
  while (start > 0 && cursor.at - start < 9 && /[0-9A-Za-z]/.test(cursor.text[start - 1] ?? '')) start--;
  return cursor.text.slice(start, start + 9);
}
