import { Parser } from 'htmlparser2';
import type { Problem } from '../../notation/index.ts';
import { tokensOfCells, type SourceLine } from './text-lines.ts';

const SKIPPED = new Set(['script', 'style', 'noscript', 'template', 'head', 'svg', 'math']);
const BLOCKS = new Set(
  'p div section article header footer main h1 h2 h3 h4 h5 h6 li ul ol dl dt dd br hr pre textarea xmp listing caption table tbody thead tfoot form fieldset blockquote'.split(
    ' ',
  ),
);
const PREFORMATTED = new Set(['pre', 'textarea', 'xmp', 'listing']);
const MAX_CELLS = 400;
const MAX_SPAN = 60;
const MAX_DEPTH = 500;
/** Depth is looked at after every piece. */
const CHUNK = 16_384;

/** Lines of a page; `trouble` says why the rest was not read. */
export interface HtmlLines {
  readonly lines: readonly SourceLine[];
  readonly trouble: Problem | null;
}

/**
 * Rows of tables and lines of running text of a saved page, in order. Scripts and styles are passed
 * over; nothing is fetched or run. The place of a word is the number of its cell, spans counted.
 */
export function linesOfHtml(html: string): HtmlLines {
  const lines: SourceLine[] = [];
  let depth = 0;
  let skipping = 0;
  /** Inside `pre` a line of the source is a line, and blanks keep its columns apart. */
  let preformatted = 0;
  let row: string[] | null = null;
  let cell: { text: string; span: number } | null = null;
  let text = '';
  const emit = (cells: readonly string[]): void => {
    const tokens = tokensOfCells(cells.slice(0, MAX_CELLS), lines.length + 1);
    if (tokens.length > 0) lines.push({ tokens, at: `row ${lines.length + 1}` });
  };
  const flush = (): void => {
    const lines = preformatted > 0 ? text.split(/\r\n?|\n/) : [text];
    for (const line of lines) if (line.trim() !== '') emit(preformatted > 0 ? line.split('\t') : [line]);
    text = '';
  };
  const endCell = (): void => {
    if (row !== null && cell !== null && row.length < MAX_CELLS) {
      row.push(cell.text, ...Array.from({ length: cell.span - 1 }, () => ''));
    }
    cell = null;
  };
  const endRow = (): void => {
    endCell();
    if (row !== null) emit(row);
    row = null;
  };
  const parser = new Parser({
    onopentag(name, attributes) {
      depth++;
      if (SKIPPED.has(name)) skipping++;
      if (name === 'tr') {
        endRow();
        flush();
        row = [];
      } else if (name === 'td' || name === 'th') {
        endCell();
        row ??= [];
        cell = { text: '', span: Math.min(MAX_SPAN, Math.max(1, Number(attributes.colspan ?? 1) || 1)) };
      } else if (BLOCKS.has(name)) {
        if (cell === null) flush();
        else cell.text += ' ';
      }
      if (PREFORMATTED.has(name)) preformatted++;
    },
    ontext(data) {
      if (skipping > 0) return;
      if (cell !== null) cell.text += data;
      else text += data;
    },
    onclosetag(name) {
      depth--;
      if (SKIPPED.has(name)) skipping = Math.max(0, skipping - 1);
      else if (name === 'td' || name === 'th') endCell();
      else if (name === 'tr') endRow();
      else if (name === 'table') {
        endRow();
        flush();
      } else if (BLOCKS.has(name) && cell === null) flush();
      if (PREFORMATTED.has(name)) preformatted = Math.max(0, preformatted - 1);
    },
  });
  let at = 0;
  for (; at < html.length && depth <= MAX_DEPTH; at += CHUNK) parser.write(html.slice(at, at + CHUNK));
  // A page nested beyond all measure is left where it is: closing every tag would take for ever.
  const isWhole = depth <= MAX_DEPTH;
  if (isWhole) parser.end();
  endRow();
  flush();
  return { lines, trouble: isWhole ? null : tooDeep(at) };
}

const tooDeep = (at: number): Problem => ({
  code: 'intake.html-depth',
  at: `character ${at}`,
  found: `more than ${MAX_DEPTH} tags inside each other`,
  expected: 'a page as a browser saves it',
  advice: 'Copy the table from the page and paste it; what stands before this place was read.',
});

/** A page or a piece of one. */
export const looksLikeHtml = (text: string): boolean =>
  /<(?:!doctype html|html|table|tr|body|div|pre)[\s>]/i.test(text.slice(0, 4000));
