import { atEnd, cursorOf, problemAt, skipSpaces, type Cursor } from './cursor.ts';
import type { Element, Feedback } from './element.ts';
import { fail, ok, type Result } from './problem.ts';
import type { BasicPosition, KeyPoint } from './vocabulary.ts';

/** Letters of one sequence: three are usual, a fourth is still read (and flagged by `levels`). */
const MAX_LETTERS = 4;
// Every repetition is bounded: megabytes of one letter would else overflow the stack of the expression.
const PREFIX = /\+?[ ]{0,40}(?:kp|key[ ]?points?)?[ ]{0,40}[:=+-]?[ ]{0,40}/y;
const KEY_POINT_RUN = /[ynt](?:[ /,.;|-]{0,40}[ynt]){0,20}(?![a-z0-9])/y;
const POSITION_RUN = /n[ ]?[csu](?:[ /,.;|+-]{0,40}n[ ]?[csu]){0,20}(?![a-z0-9])/y;
const POSITION_NAMES: Readonly<Record<string, BasicPosition>> = { c: 'camel', s: 'sit', u: 'upright' };
const POSITION_LETTERS: Readonly<Record<BasicPosition, string>> = { camel: 'NC', sit: 'NS', upright: 'NU' };

/**
 * Reads feedback letters: `YNN`, `y n n`, `Y/N/N`, `kp: Y/N/N`, `+kpYNN`, `NU`, `nS`, `NC NS`.
 * With the element, a step sequence has key points and a spin missing positions; without it the
 * letters decide (`NS` is a position, `N` a key point). Never throws.
 */
export function parseFeedback(text: string, element?: Element): Result<Feedback> {
  const cursor = cursorOf(text);
  skipSpaces(cursor);
  const start = cursor.at;
  for (const kind of element === undefined ? (['spin', 'steps'] as const) : [element.kind]) {
    cursor.at = start;
    const read = takeFeedback(cursor, kind);
    skipSpaces(cursor);
    if (read !== null && (!read.ok || atEnd(cursor))) return read;
  }
  return fail(
    problemAt(
      cursor,
      'feedback.unknown',
      'letters such as YNN, Y, NU or kp: Y/N/N',
      'Check the letters on the sheet.',
      start,
    ),
  );
}

/** Takes the letters that stand at the cursor; null (cursor unmoved) if there are none for this kind. */
export function takeFeedback(cursor: Cursor, kind: Element['kind']): Result<Feedback> | null {
  if (kind !== 'steps' && kind !== 'spin') return null;
  const start = cursor.at;
  const run = takeRun(cursor, kind === 'steps' ? KEY_POINT_RUN : POSITION_RUN);
  if (run === null) return null;
  const letters = run.replace(kind === 'steps' ? /[^ynt]/g : /[^csu]/g, '');
  if (letters.length > MAX_LETTERS) {
    const advice = 'Check that two columns were not joined.';
    return fail(problemAt(cursor, 'feedback.too-many', `at most ${MAX_LETTERS} letters`, advice, start));
  }
  return ok(kind === 'steps' ? keyPoints(letters) : missingPositions(letters));
}

function takeRun(cursor: Cursor, pattern: RegExp): string | null {
  PREFIX.lastIndex = cursor.at;
  const prefix = PREFIX.exec(cursor.low)?.[0].length ?? 0;
  pattern.lastIndex = cursor.at + prefix;
  const run = pattern.exec(cursor.low)?.[0] ?? null;
  if (run !== null) cursor.at += prefix + run.length;
  return run;
}

function keyPoints(letters: string): Feedback {
  const read = Array.from(letters, (letter): KeyPoint => (letter === 'y' ? 'Y' : letter === 'n' ? 'N' : 'T'));
  return { kind: 'key-points', letters: read };
}

function missingPositions(letters: string): Feedback {
  const read = Array.from(letters).flatMap((letter) => POSITION_NAMES[letter] ?? []);
  return { kind: 'missing-position', positions: [...new Set(read)] };
}

/** Canonical letters: `YNN`, `NU`, `NC NS`. */
export function formatFeedback(feedback: Feedback): string {
  return feedback.kind === 'key-points'
    ? feedback.letters.join('')
    : feedback.positions.map((position) => POSITION_LETTERS[position]).join(' ');
}
