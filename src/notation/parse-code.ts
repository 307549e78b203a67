import { atEnd, cursorOf, problemAt, skipSpaces } from './cursor.ts';
import type { ParsedCode } from './element.ts';
import { parseJumps } from './parse-jumps.ts';
import { parseLevelElement } from './parse-level-element.ts';
import { fail, ok, type Result } from './problem.ts';

/**
 * Reads what stands in a code column, in any spelling of a sheet: `3Lz<+2T`, `2A+1Eu+2S x`,
 * `3A+SEQ+2T*`, `CCoSp3V NU`, `StSq2+kpYNN`, `ccosp4`, `３Ｌｚ＜`.
 *
 * Never throws; the time is linear in the length of the text. The error names the column (from 1)
 * of the text as given, what stands there, what could stand there, and a near spelling.
 *
 * @example parseCode('3Lz<+2T')  // ok: two jumps, the first under-rotated
 * @example parseCode('3Lzz')     // error at column 4: did you mean “3Lz”?
 */
export function parseCode(text: string): Result<ParsedCode> {
  const cursor = cursorOf(text);
  skipSpaces(cursor);
  if (atEnd(cursor)) {
    return fail(
      problemAt(cursor, 'code.empty', 'an element code such as 3Lz or CCoSp4', 'Enter the code of the element.'),
    );
  }
  const read = parseLevelElement(cursor) ?? parseJumps(cursor);
  return read.ok ? ok(read.value) : read;
}
