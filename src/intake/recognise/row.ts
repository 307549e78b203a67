import { formatFeedback, parseFeedback, type ParsedCode } from '../../notation/index.ts';
import { parsedCode, type Cell, type Line } from './cell.ts';

/** A number cell, or the sign for a missing one. */
export interface Entry {
  /** Hundredths; null for a dash. */
  readonly value: number | null;
  readonly decimals: number;
  readonly maimed: boolean;
  readonly x0: number;
  readonly x1: number;
  readonly cell: Cell;
}

/** A line of numbers alone. */
export interface NumberLine {
  readonly line: Line;
  readonly entries: readonly Entry[];
}

/** One element as it stands on the sheet, before its numbers have names. */
export interface Row {
  readonly at: string;
  readonly codeText: string;
  /** null: the code cannot be read. */
  readonly code: ParsedCode | null;
  /** Calls that stand apart from the code, in printed order. */
  readonly calls: readonly string[];
  readonly half: boolean;
  readonly fall: boolean;
  /** Canonical letters. */
  readonly feedback: string | null;
  /** The code may have been put together from more than one line. */
  readonly joined: boolean;
  entries: readonly Entry[];
  /** Lines under the row that hold numbers only. */
  readonly below: readonly NumberLine[];
  /** Those of them that were put to the row. */
  readonly used: readonly Line[];
}

export const entryOf = (cell: Cell, shift = 0): Entry => ({
  value: cell.figure?.value ?? null,
  decimals: cell.figure?.decimals ?? 0,
  maimed: cell.figure?.maimed ?? false,
  x0: cell.x0 + shift,
  x1: cell.x1 + shift,
  cell,
});

export const isEntry = (cell: Cell): boolean => cell.kind === 'figure' || cell.kind === 'dash';

/** Only numbers, dashes and the small signs that can stand among them. */
export function isNumbersOnly(line: Line): boolean {
  return (
    line.cells.some(isEntry) &&
    line.cells.every((cell) => cell.kind !== 'word' && cell.kind !== 'code' && cell.kind !== 'letters')
  );
}

/** A second line of a row begins far to the right of everything on the first. */
export const SECOND_LINE = 100_000;

interface Draft {
  at: string;
  codeText: string;
  calls: string[];
  half: boolean;
  letters: string[];
  joined: boolean;
  entries: Entry[];
  below: NumberLine[];
}

/**
 * Element rows from the lines of one element block: pieces of a code are joined, number lines are kept
 * under their row, lines that say something else are passed over.
 */
export function rowsOf(lines: readonly { readonly line: Line; readonly element: boolean }[]): Row[] {
  const drafts: Draft[] = [];
  for (const { line, element } of lines) {
    const open = drafts.at(-1);
    if (open !== undefined && continuesCode(open, line)) addCodeLine(open, line);
    else if (element) drafts.push(draftOf(line));
    else if (open !== undefined && isNumbersOnly(line)) open.below.push({ line, entries: entriesOf(line.cells) });
  }
  return drafts.map(finish);
}

const entriesOf = (cells: readonly Cell[], shift = 0): Entry[] =>
  cells.filter(isEntry).map((one) => entryOf(one, shift));

function continuesCode(open: Draft, line: Line): boolean {
  const [first, second] = line.cells;
  if (first === undefined) return false;
  if (open.codeText.endsWith('+')) return first.kind === 'code' || second?.kind === 'code';
  return first.text.startsWith('+') && parsedCode(open.codeText + first.text) !== null;
}

function addCodeLine(open: Draft, line: Line): void {
  const at = line.cells.findIndex((cell) => cell.kind === 'code' || cell.text.startsWith('+'));
  open.codeText += line.cells[at]?.text ?? '';
  open.joined = true;
  // What follows belongs behind what the first line had.
  readRest(open, line.cells.slice(at + 1), SECOND_LINE);
}

/** Index of the cell where the code begins: a code, or a bare jump name in the place of one. */
export function codeIndex(line: Line): number {
  const strong = line.cells.findIndex((cell) => cell.kind === 'code');
  if (strong >= 0) return strong;
  const bare = line.cells.findIndex(
    (cell, i) => BARE.test(cell.text) && parsedCode(cell.text) !== null && bareContext(line, i),
  );
  return bare;
}

const BARE = /^(?:A|S|T|F|Lo|Lz|Eu)(?:<<|<|e|!|q|\*)*$/;
const bareContext = (line: Line, i: number): boolean =>
  (line.cells[i - 1]?.kind === 'figure' || line.cells[i + 1]?.kind === 'figure') &&
  line.cells.every((cell, j) => j === i || cell.kind !== 'word') &&
  line.cells.filter(isEntry).length >= 3;

function draftOf(line: Line): Draft {
  const index = codeIndex(line);
  const { text, end } = index < 0 ? unreadableCode(line) : joinedCode(line, index);
  const draft: Draft = {
    at: line.at,
    codeText: text,
    calls: [],
    half: false,
    letters: [],
    joined: false,
    entries: [],
    below: [],
  };
  const start = index < 0 ? line.cells.findIndex((cell) => cell.kind === 'word') : index;
  readRest(draft, [...line.cells.slice(0, Math.max(0, start)), ...line.cells.slice(end)], 0);
  return draft;
}

/** The words of a row whose code cannot be read. */
function unreadableCode(line: Line): { text: string; end: number } {
  const start = line.cells.findIndex((cell) => cell.kind === 'word');
  if (start < 0) return { text: '', end: 0 };
  let end = start + 1;
  while (line.cells[end]?.kind === 'word') end++;
  return {
    text: line.cells
      .slice(start, end)
      .map((cell) => cell.text)
      .join(' '),
    end,
  };
}

/** `3Lz` `+` `3T`, `3Lz` `<` `+3T`: pieces of one code. */
function joinedCode(line: Line, start: number): { text: string; end: number } {
  let text = line.cells[start]?.text ?? '';
  let end = start + 1;
  for (;;) {
    const next = line.cells[end];
    const after = line.cells[end + 1];
    if (next === undefined) break;
    const joins = text.endsWith('+') ? next.kind === 'code' || next.kind === 'word' : next.text.startsWith('+');
    const callThenPlus = next.kind === 'call' && after?.text.startsWith('+') === true;
    if (!joins && !callThenPlus) break;
    // `+` in front of a figure is its sign, `+kpYNN` are letters.
    if (next.kind === 'figure' || next.kind === 'letters') break;
    text += next.text;
    end++;
  }
  return { text, end };
}

function readRest(draft: Draft, cells: readonly Cell[], shift: number): void {
  for (const cell of cells) {
    if (isEntry(cell)) draft.entries.push(entryOf(cell, shift));
    else if (cell.kind === 'half') draft.half = true;
    else if (cell.kind === 'letters') draft.letters.push(cell.text);
    else if (cell.kind === 'call') draft.calls.push(cell.text);
  }
}

function finish(draft: Draft): Row {
  const code = parsedCode(draft.codeText);
  const given = code?.feedback == null ? draft.letters.join(' ') : null;
  const letters = given === null || given === '' || code === null ? null : parseFeedback(given, code.element);
  return {
    at: draft.at,
    codeText: draft.codeText,
    code,
    calls: draft.calls,
    half: draft.half || (code?.half ?? false),
    fall: code?.fall ?? false,
    feedback:
      code?.feedback != null
        ? formatFeedback(code.feedback)
        : letters?.ok === true
          ? formatFeedback(letters.value)
          : null,
    joined: draft.joined,
    entries: draft.entries,
    below: draft.below,
    used: [],
  };
}
