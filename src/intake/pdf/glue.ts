import type { Token } from '../token.ts';
import type { Word } from './runs.ts';

/** Gap, in font sizes, below which two runs are one word (a raised `<` after a jump, a kerned pair). */
const GLUE_GAP = 0.12;
/** Baselines closer than this, in font sizes, may belong to one word. */
const SAME_LINE = 0.45;

/**
 * Words that touch are one word: producers cut runs at every change of font, size or raise. Words are
 * never glued across a blank character, nor where they overlap by more than half a font size.
 */
export function tokensOfWords(words: readonly Word[], page: number): Token[] {
  const tokens: Token[] = [];
  for (const line of linesOf(words)) {
    line.sort((a, b) => a.x - b.x);
    let open: Word | null = null;
    for (const word of line) {
      if (open !== null && isOverprint(open, word)) continue;
      if (open !== null && touches(open, word)) extend(open, word);
      else {
        if (open !== null) tokens.push(tokenOf(open, page));
        open = { ...word };
      }
    }
    if (open !== null) tokens.push(tokenOf(open, page));
  }
  return tokens;
}

/** Groups words whose baselines lie within a fraction of the font size of the line's first. */
function linesOf(words: readonly Word[]): Word[][] {
  const sorted = [...words].sort((a, b) => a.y - b.y);
  const lines: Word[][] = [];
  let line: Word[] = [];
  let base = 0;
  let size = 0;
  for (const word of sorted) {
    if (line.length > 0 && word.y - base <= SAME_LINE * Math.max(size, word.height)) {
      line.push(word);
      if (word.height > size) {
        size = word.height;
        base = word.y;
      }
    } else {
      line = [word];
      lines.push(line);
      base = word.y;
      size = word.height;
    }
  }
  return lines;
}

/** Bold is sometimes made by printing a word twice, a hair apart. */
const isOverprint = (left: Word, right: Word): boolean =>
  left.text === right.text && Math.abs(right.x - left.x) < 0.1 * left.height && right.width > 0.2 * left.height;

function touches(left: Word, right: Word): boolean {
  if (left.blankAfter) return false;
  const gap = right.x - (left.x + left.width);
  const size = Math.min(left.height, right.height);
  return gap < GLUE_GAP * size && gap > -0.5 * size;
}

function extend(left: Word, right: Word): void {
  left.text += right.text;
  left.width = Math.max(left.x + left.width, right.x + right.width) - left.x;
  if (right.height > left.height) {
    left.y = right.y;
    left.height = right.height;
  }
  left.blankAfter = right.blankAfter;
}

const tokenOf = (word: Word, page: number): Token => ({
  text: word.text,
  x: word.x,
  y: word.y - word.height,
  width: word.width,
  height: word.height,
  page,
});
