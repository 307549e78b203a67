import type { Problem } from './problem.ts';
import { plainSpelling } from './spelling.ts';

/** A place in a code that is being read. Case is ignored: `low` is what is matched. */
export interface Cursor {
  readonly text: string;
  readonly low: string;
  readonly columns: readonly number[] | null;
  at: number;
}

export function cursorOf(given: string): Cursor {
  const { text, columns } = plainSpelling(given);
  // Lower-casing may lengthen exotic signs; those are no part of any code, so a length change only
  // has to stay harmless.
  const low = text.toLowerCase();
  return { text, low: low.length === text.length ? low : asciiLower(text), columns, at: 0 };
}

const asciiLower = (text: string): string => text.replace(/[A-Z]/g, (letter) => letter.toLowerCase());

export const atEnd = (cursor: Cursor): boolean => cursor.at >= cursor.low.length;

export function skipSpaces(cursor: Cursor): void {
  while (cursor.low[cursor.at] === ' ') cursor.at++;
}

/** Skips spaces and says whether anything is left. */
export function moreToRead(cursor: Cursor): boolean {
  skipSpaces(cursor);
  return !atEnd(cursor);
}

/** Takes the first of the given words that stands here; null if none does. */
export function takeOneOf<W extends string>(cursor: Cursor, words: readonly W[]): W | null {
  const found = words.find((word) => cursor.low.startsWith(word.toLowerCase(), cursor.at));
  if (found === undefined) return null;
  cursor.at += found.length;
  return found;
}

/** Column (from 1) in the text as given. */
export const columnOf = (cursor: Cursor, at: number = cursor.at): number =>
  cursor.columns === null ? at + 1 : (cursor.columns[at] ?? (cursor.columns.at(-1) ?? 0) + 1);

const SHOWN = 24;

/** The rest of the text from a place, short enough to print. */
export function restOf(cursor: Cursor, at: number = cursor.at): string {
  const rest = cursor.text.slice(at, at + SHOWN + 1);
  if (rest === '') return 'the end of the code';
  return rest.length > SHOWN ? `“${rest.slice(0, SHOWN)}…”` : `“${rest}”`;
}

export function problemAt(cursor: Cursor, code: string, expected: string, advice: string, at = cursor.at): Problem {
  return { code, at: `column ${columnOf(cursor, at)}`, found: restOf(cursor, at), expected, advice };
}
