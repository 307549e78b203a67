import type { Token } from '../token.ts';
import { cellsOfToken, type Cell, type Line } from './cell.ts';

/** Two words whose middles are closer than this share of their height stand on one line. */
const SAME_LINE = 0.5;
/** A line with more words than this is no line of a sheet. */
export const MAX_CELLS = 400;

/** Words of one page -> lines, top to bottom; within a line from left to right. */
export function linesOfPage(tokens: readonly Token[]): Line[] {
  const sorted = [...tokens].sort((a, b) => middle(a) - middle(b));
  const lines: Token[][] = [];
  let reach = -Infinity;
  for (const token of sorted) {
    const line = lines.at(-1);
    if (line !== undefined && middle(token) <= reach) line.push(token);
    else {
      lines.push([token]);
      reach = middle(token) + SAME_LINE * Math.max(token.height, 0);
    }
  }
  return lines.flatMap((line, i) => {
    const [first] = line;
    if (first === undefined) return [];
    return lineOfTokens(line, `page ${first.page}, line ${i + 1}`) ?? [];
  });
}

const middle = (token: Token): number => token.y + token.height / 2;

/** One line of words; null if nothing is on it. */
export function lineOfTokens(tokens: readonly Token[], at: string): Line | null {
  const [first] = tokens;
  if (first === undefined) return null;
  const cells: Cell[] = [];
  for (const token of inOrder(tokens).slice(0, MAX_CELLS)) {
    if (token.text.includes(' ')) for (const part of split(token)) cells.push(...cellsOfToken(part));
    else cells.push(...cellsOfToken(token));
  }
  return cells.length === 0 ? null : { cells, page: first.page, at };
}

const inOrder = (tokens: readonly Token[]): readonly Token[] =>
  tokens.every((token, i) => i === 0 || token.x >= (tokens[i - 1]?.x ?? 0))
    ? tokens
    : [...tokens].sort((a, b) => a.x - b.x);

/** A token of several words, each with its share of the width. */
function split(token: Token): Token[] {
  const unit = token.width / Math.max(1, token.text.length);
  return [...token.text.matchAll(/\S+/g)].map((match) => ({
    ...token,
    text: match[0],
    x: token.x + match.index * unit,
    width: match[0].length * unit,
  }));
}
