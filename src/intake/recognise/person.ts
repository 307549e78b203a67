import type { Cell, Line } from './cell.ts';
import { isColumnHeader, textOf } from './heading.ts';
import {
  hasLetter,
  isLabelWord,
  nameInLine,
  nameOf,
  onlyLabels,
  outsideBrackets,
  personLabel,
  tellsPerson,
} from './name.ts';
import { fromPicture } from './picture.ts';
import { claimsOf, labelOf } from './totals.ts';
import { AGE_WORDS, PAGE_WORDS, SEGMENT_WORDS } from './words.ts';

/** Who skated; `sure` is false where the sheet does not say which figure is which. */
export interface Person {
  readonly skater: string | null;
  readonly rank: number | null;
  readonly startNumber: number | null;
  readonly doubts: readonly ('skater' | 'rank' | 'startNumber')[];
}

/** Reads name, rank and start number from the lines above (or around) a skater's tables. */
export function readPerson(lines: readonly Line[], totals: ReadonlySet<number>): Person {
  const person = personIn(lines, totals);
  const open = ASKED.filter((name) => person[name] === null && !person.doubts.includes(name));
  return open.length > 0 && hasNumberLeft(person, lines) ? { ...person, doubts: [...person.doubts, ...open] } : person;
}

const ASKED = ['rank', 'startNumber'] as const;
/** No field of one segment is larger. */
const MOST_SKATERS = 99;

/** A small whole number beside the name that was taken for nothing: its label may be one that is not known. */
function hasNumberLeft({ skater, rank, startNumber }: Person, lines: readonly Line[]): boolean {
  const words = skater?.split(' ') ?? [];
  const line = lines.find((one) => words.length > 0 && words.every((word) => one.cells.some((c) => c.text === word)));
  const numbers = line?.cells.flatMap((cell) => (cell.figure?.decimals === 0 ? [cell.figure.value / 100] : [])) ?? [];
  for (const taken of [rank, startNumber]) {
    const at = taken === null ? -1 : numbers.indexOf(taken);
    if (at >= 0) numbers.splice(at, 1);
  }
  return numbers.some((one) => one >= 1 && one <= MOST_SKATERS);
}

function personIn(lines: readonly Line[], totals: ReadonlySet<number>): Person {
  const labelled = fromLabels(lines);
  if (labelled.skater !== null) return labelled;
  const told = lines.findLast((line) => tellsPerson(line) && nameInLine(line) !== null);
  if (told !== undefined && labelled.rank !== null) return { ...labelled, skater: nameInLine(told) };
  const row = told ?? rowOf(lines, totals) ?? rowUnderHeads(lines);
  if (row !== undefined) return fromRow(row, lines, labelled);
  return fromPlainLine(lines, labelled);
}

/** The last line with a name and two of the totals, by their value or by the column heads above them. */
function rowOf(lines: readonly Line[], totals: ReadonlySet<number>): Line | undefined {
  const claims = claimsOf(lines).filter((one) => one.decimals > 0 && (totals.has(one.value) || one.label !== null));
  return lines.findLast((line) => claims.filter((one) => one.line === line).length >= 2 && nameInLine(line) !== null);
}

/** The line under column heads that name both a rank or start number and a name. */
function rowUnderHeads(lines: readonly Line[]): Line | undefined {
  return lines.find((line, i) => {
    const before = lines[i - 1];
    if (before === undefined || !isHeads(before) || isHeads(line) || !hasWhole(line)) return false;
    return headOrder(lines, line) !== null && nameInLine(line) !== null;
  });
}

const hasWhole = (line: Line): boolean => line.cells.some((cell) => cell.figure?.decimals === 0);

function fromLabels(lines: readonly Line[]): Person {
  const names: string[] = [];
  let rank: number | null = null;
  let startNumber: number | null = null;
  const empty = new Set<'rank' | 'startNumber'>();
  const open: 'skater'[] = [];
  for (const line of lines) {
    if ((isColumnHeader(line) && !hasValues(line)) || line.cells.length > 40) continue;
    line.cells.forEach((cell, i) => {
      const next = line.cells[i + 1];
      const label = cell.kind === 'figure' ? null : labelOf(cell.text);
      const whole = next?.figure?.decimals === 0 ? next.figure.value / 100 : null;
      if (label === 'rank' && whole !== null) rank ??= whole;
      if (
        (label === 'startNumber' ||
          (/^(?:number|nr|no|numéro)/iu.test(cell.text) && /start/iu.test(line.cells[i - 1]?.text ?? ''))) &&
        whole !== null
      ) {
        startNumber ??= whole;
      }
      // A label without its number: the number may be lost.
      if ((label === 'rank' || label === 'startNumber') && whole === null && hasValues(line)) empty.add(label);
      if (label === 'skater') {
        const name = nameAfter(line.cells.slice(i + 1));
        if (name !== null) names.push(name);
        // Words before a lone number: the last may be a label that is not known, not a part of the name.
        if (names.length === 1 && endsAtNumber(line.cells.slice(i + 1))) {
          open.push('skater');
          empty.add('startNumber');
        }
      }
    });
  }
  return {
    skater: names[0] ?? null,
    rank,
    startNumber,
    doubts: [...[...empty].filter((name) => (name === 'rank' ? rank : startNumber) === null), ...open],
  };
}

/** A header names columns only; a line of labels has their values beside them. */
const hasValues = (line: Line): boolean => line.cells.some((cell) => cell.kind === 'figure' || cell.text.endsWith(':'));

/** Words up to the next label or figure; words that are all labels are no name. */
function nameAfter(cells: readonly Cell[]): string | null {
  const words: Cell[] = [];
  for (const cell of cells) {
    if (cell.kind === 'figure' || cell.kind === 'dash' || isLabelWord(cell) || cell.text.endsWith(':')) break;
    words.push(cell);
  }
  const named = outsideBrackets(words);
  const name = onlyLabels(named) ? null : (nameOf(named)?.replace(/^[:\s]+/, '') ?? null);
  return name === '' ? null : name;
}

/** Three words or more, then a whole number that no label announces. */
function endsAtNumber(cells: readonly Cell[]): boolean {
  const end = cells.findIndex((cell) => cell.kind === 'figure' || labelOf(cell.text) !== null);
  return end >= 3 && cells[end]?.figure?.decimals === 0;
}

/** A row of the kind “rank, name, nation, start number, totals”. */
function fromRow(row: Line, lines: readonly Line[], labelled: Person): Person {
  const order = headOrder(lines, row);
  const wholes = row.cells.filter((cell, i) => cell.figure?.decimals === 0 && personLabel(row, i) === null);
  const [first, second] = wholes.map((cell) => (cell.figure?.value ?? 0) / 100);
  const rankFirst = order !== 'start-first';
  const skater = nameInLine(row);
  // Where a label names the start number, the number that the line begins with is the rank.
  if (labelled.startNumber !== null && labelled.rank === null && wholes.length === 1 && wholes[0] === row.cells[0])
    return { ...labelled, skater, rank: first ?? null };
  const known = order !== null && wholes.length === (order === 'one' ? 1 : 2);
  const doubts =
    known || (wholes.length === 0 && order === null)
      ? []
      : second !== undefined || order !== null
        ? (['rank', 'startNumber'] as const)
        : (['rank'] as const);
  return {
    skater,
    rank: labelled.rank ?? (rankFirst ? first : second) ?? null,
    startNumber: labelled.startNumber ?? (rankFirst ? second : first) ?? null,
    doubts: doubts.filter((name) => labelled[name] === null),
  };
}

/** Which of rank and start number the column heads above a row name first; `one`: only the rank; null: neither. */
function headOrder(lines: readonly Line[], row: Line): 'rank-first' | 'start-first' | 'one' | null {
  const cells = headsAbove(lines, row).flatMap((line) => line.cells);
  const rank = cells.find((cell) => RANK_HEAD.test(cell.text));
  const start = cells.find((cell) => START_HEAD.test(cell.text));
  if (rank === undefined) return start === undefined ? null : 'start-first';
  if (start === undefined) return 'one';
  const inOrder = rank.x0 === start.x0 ? cells.indexOf(rank) < cells.indexOf(start) : rank.x0 < start.x0;
  return inOrder ? 'rank-first' : 'start-first';
}

/** The lines of the last column heads above a row: words of heads are often wrapped over two or three lines. */
function headsAbove(lines: readonly Line[], row: Line): readonly Line[] {
  const above = lines.slice(0, lines.indexOf(row));
  const last = above.findLastIndex(isColumnHeader);
  let first = last;
  while (first > 0 && isHeads(above[first - 1])) first--;
  return last < 0 ? [] : above.slice(first, last + 1);
}

const RANK_HEAD = /rank|place|^pl\.?$|platz|rang|sija|plac|posto|puesto|順位/iu;
const START_HEAD = /start|stn|dossard|lähtö|salida|uscita|滑走/iu;

const isHeads = (line: Line | undefined): boolean =>
  line !== undefined && (isColumnHeader(line) || line.cells.every((cell) => cell.figure === null && isLabelWord(cell)));

/** No totals beside the name: the last plain line above the table, or a numbered one. */
function fromPlainLine(lines: readonly Line[], labelled: Person): Person {
  const plain = lines.filter((line) => couldBeName(line));
  const numbered = plain.findLast(
    (line) => line.cells[0]?.figure?.decimals === 0 || /^\d{1,3}[.)]$/.test(line.cells[0]?.text ?? ''),
  );
  const line = numbered ?? plain.at(-1);
  // What is not on a text is not printed; from a picture it may be lost.
  const openOf = (person: Omit<Person, 'doubts'>): Person['doubts'] =>
    UNLABELLED.filter((name) => (person[name] === null ? fromPicture(lines) : labelled[name] === null));
  if (line === undefined) return { ...labelled, doubts: [...labelled.doubts, ...openOf(labelled)] };
  const rank = Number(/^\d{1,3}/.exec(line.cells[0]?.text ?? '')?.[0] ?? NaN);
  const skater = nameOf(outsideBrackets(line.cells.filter((cell) => cell.figure === null)).filter(hasLetter));
  const isNew = labelled.rank === null && !Number.isNaN(rank);
  const person = { skater, rank: labelled.rank ?? (isNew ? rank : null), startNumber: labelled.startNumber };
  return { ...person, doubts: [...new Set([...labelled.doubts, ...openOf(person)])] };
}

const UNLABELLED = ['skater', 'rank', 'startNumber'] as const;

function couldBeName(line: Line): boolean {
  const text = textOf(line);
  return (
    line.cells.length <= 10 &&
    /\p{L}{2,}/u.test(text) &&
    !isColumnHeader(line) &&
    !PAGE_WORDS.test(text) &&
    !line.cells.some((cell) => (cell.figure?.decimals ?? 0) > 0) &&
    ![...AGE_WORDS, ...SEGMENT_WORDS].some(([pattern]) => pattern.test(text)) &&
    line.cells.every((cell) => labelOf(cell.text) === null) &&
    !onlyLabels(line.cells)
  );
}
