import type { Cell, Line } from './cell.ts';
import { perLine } from './heading.ts';
import { labelOf } from './totals.ts';
import { COLUMN_WORDS, NATIONS, type Label } from './words.ts';

/** Words of labels are never a name; `Per` and `No` are both, so short words alone say nothing. */
const FEWEST_LETTERS = 4;

export const hasLetter = (cell: Cell): boolean => /\p{L}/u.test(cell.text);

const bare = (cell: Cell): string => cell.text.replace(/[():]/g, '');

/** Is this a word of labels or column heads? */
export const isLabelWord = (cell: Cell): boolean => {
  const text = bare(cell);
  return labelOf(text) !== null || (text.length >= FEWEST_LETTERS && COLUMN_WORDS.test(text));
};

/** Nothing but words of labels, small ones (`of`, `the`) included. */
export const onlyLabels = (cells: readonly Cell[]): boolean =>
  cells.every((cell) => !hasLetter(cell) || isLabelWord(cell) || COLUMN_WORDS.test(bare(cell)));

/**
 * The name that a line of figures prints: the first words that are not the label of a figure.
 * `2 Nuthatch AUT 9 32.62` and `Rank 2 Nuthatch Start 9` both say Nuthatch; null where all words are labels.
 */
export const nameInLine = perLine((line): string | null => {
  for (const run of runsOf(line)) {
    // What ends in a colon is a label, in whatever language.
    const named = run.slice(run.findLastIndex((cell) => cell.text.endsWith(':')) + 1);
    const label = named.findIndex(isLabelWord);
    const words = outsideBrackets(beforeLabel(label < 0 ? named : named.slice(0, label), label >= 0)).filter(hasLetter);
    if (words.length > 0 && !onlyLabels(words)) return nameOf(words);
  }
  return null;
});

/** `Nr` before `startowy` belongs to the label. */
const beforeLabel = (words: readonly Cell[], isCut: boolean): readonly Cell[] =>
  isCut && words.length > 1 && NUMBER.test(words.at(-1)?.text ?? '') ? words.slice(0, -1) : words;

/** A nation or club in brackets, of one word or several, stands beside the name. */
export function outsideBrackets(cells: readonly Cell[]): readonly Cell[] {
  let inside = false;
  return cells.filter(({ text }) => {
    const opens = /^[([]/.test(text);
    const skip = inside || opens;
    inside = (inside || opens) && !/[)\]]$/.test(text);
    return !skip;
  });
}

/** Words without a figure between them. */
function runsOf(line: Line): Cell[][] {
  const runs: Cell[][] = [[]];
  for (const cell of line.cells) {
    if (cell.figure !== null) runs.push([]);
    else runs.at(-1)?.push(cell);
  }
  return runs;
}

/** The words of a row without a nation behind the name. */
export function nameOf(words: readonly Cell[]): string | null {
  const texts = words.map((cell) => cell.text);
  const last = texts.at(-1);
  const kept = texts.length > 1 && last !== undefined && NATIONS.has(last) ? texts.slice(0, -1) : texts;
  return kept.length === 0 ? null : kept.join(' ');
}

/** Is the whole number at this place labelled as rank or start number? `Start 4`, `Starting Number: 9`. */
export function personLabel(line: Line, place: number): Label | null {
  if (line.cells[place]?.figure?.decimals !== 0) return null;
  for (const cell of line.cells.slice(Math.max(0, place - 3), place).reverse()) {
    if (cell.figure !== null || (!isLabelWord(cell) && !NUMBER.test(cell.text))) return null;
    const label = labelOf(cell.text);
    if (label === 'rank' || label === 'startNumber') return label;
  }
  return null;
}

const NUMBER = /^(?:number|nr|no|nº|n°|num[eé]ro|nummer|numer)[.:]?$|^[:#]$/iu;

/** A line that labels a rank or a start number. */
export const tellsPerson = (line: Line): boolean =>
  line.cells.length <= 40 && line.cells.some((_, i) => personLabel(line, i) !== null);
