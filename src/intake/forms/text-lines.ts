import type { Token } from '../token.ts';

/** A cell of a table stands this far from the next one, whatever its text: places in tables are cell numbers. */
export const CELL_WIDTH = 1000;

/** A line of a source as words with places. */
export interface SourceLine {
  readonly tokens: readonly Token[];
  /** `line 12`. */
  readonly at: string;
}

const MAX_LINE = 20_000;

/**
 * Words of plain text. The place of a word is its column of characters; in lines with tabs it is the
 * number of the cell, because tab stops do not align. Lines beyond all measure are cut.
 */
export function* linesOfText(text: string): Generator<SourceLine> {
  let from = 0;
  for (let number = 1; from < text.length; number++) {
    let end = text.indexOf('\n', from);
    if (end < 0) end = text.length;
    const line = text.slice(from, Math.min(end, from + MAX_LINE)).replace(/\r$/, '');
    from = end + 1;
    const tokens = line.includes('\t') ? tokensOfCells(line.split('\t'), number) : tokensOfLine(line, number, 0);
    if (tokens.length > 0) yield { tokens, at: `line ${number}` };
  }
}

const WORD = /[^\s\u00a0\u2007\u202f]+/g;

function tokensOfLine(line: string, y: number, x: number): Token[] {
  const tokens: Token[] = [];
  for (const match of line.matchAll(WORD)) {
    tokens.push({ text: match[0], x: x + match.index, y, width: match[0].length, height: 1, page: 1 });
  }
  return tokens;
}

/** Words of the cells of one table row. */
export function tokensOfCells(cells: readonly string[], y: number): Token[] {
  return cells.flatMap((cell, i) => tokensOfLine(cell, y, i * CELL_WIDTH));
}
