import type { Cell, Line } from './cell.ts';
import { isColumnHeader, textOf } from './heading.ts';
import { claimsOf, labelOf } from './totals.ts';
import { AGE_WORDS, NATIONS, PAGE_WORDS, SEGMENT_WORDS } from './words.ts';

/** Who skated; `sure` is false where the sheet does not say which figure is which. */
export interface Person {
  readonly skater: string | null;
  readonly rank: number | null;
  readonly startNumber: number | null;
  readonly doubts: readonly ('skater' | 'rank' | 'startNumber')[];
}

/** Reads name, rank and start number from the lines above (or around) a skater's tables. */
export function readPerson(lines: readonly Line[], totals: ReadonlySet<number>): Person {
  const labelled = fromLabels(lines);
  if (labelled.skater !== null) return labelled;
  const row = rowOf(lines, totals);
  if (row !== undefined) return fromRow(row, lines, labelled);
  return fromPlainLine(lines, labelled);
}

/** The last line with two of the totals, by their value or by the column heads above them. */
function rowOf(lines: readonly Line[], totals: ReadonlySet<number>): Line | undefined {
  const claims = claimsOf(lines).filter((one) => one.decimals > 0 && (totals.has(one.value) || one.label !== null));
  return lines.findLast(
    (line) => claims.filter((one) => one.line === line).length >= 2 && line.cells.some((cell) => cell.kind === 'word'),
  );
}

function fromLabels(lines: readonly Line[]): Person {
  let skater: string | null = null;
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
        const first = skater === null;
        skater ??= nameAfter(line.cells.slice(i + 1));
        // Words before a lone number: the last may be a label that is not known, not a part of the name.
        if (first && endsAtNumber(line.cells.slice(i + 1))) open.push('skater');
      }
    });
  }
  return {
    skater,
    rank,
    startNumber,
    doubts: [
      ...[...empty].filter((name) => (name === 'rank' ? rank : startNumber) === null),
      ...open,
      ...(open.length > 0 && startNumber === null ? (['startNumber'] as const) : []),
    ],
  };
}

/** A header names columns only; a line of labels has their values beside them. */
const hasValues = (line: Line): boolean => line.cells.some((cell) => cell.kind === 'figure' || cell.text.endsWith(':'));

/** Words up to the next label or figure. */
function nameAfter(cells: readonly Cell[]): string | null {
  const words: string[] = [];
  for (const cell of cells) {
    if (cell.kind === 'figure' || labelOf(cell.text) !== null || cell.text.endsWith(':')) break;
    words.push(cell.text);
  }
  return words.length === 0 ? null : words.join(' ').replace(/^[:\s]+/, '') || null;
}

/** Three words or more, then a whole number that no label announces. */
function endsAtNumber(cells: readonly Cell[]): boolean {
  const end = cells.findIndex((cell) => cell.kind === 'figure' || labelOf(cell.text) !== null);
  return end >= 3 && cells[end]?.figure?.decimals === 0;
}

/** A row of the kind “rank, name, nation, start number, totals”. */
function fromRow(row: Line, lines: readonly Line[], labelled: Person): Person {
  const header = lines.slice(0, lines.indexOf(row)).findLast(isColumnHeader);
  const wholes = row.cells.filter((cell) => cell.figure?.decimals === 0);
  const words = row.cells.filter((cell) => cell.figure === null && cell.kind !== 'dash' && labelOf(cell.text) === null);
  const order = header === undefined ? null : headerOrder(textOf(header));
  const [first, second] = wholes.map((cell) => (cell.figure?.value ?? 0) / 100);
  const rankFirst = order !== 'start-first';
  const known = order !== null && wholes.length === (order === 'one' ? 1 : 2);
  const both = second !== undefined;
  return {
    skater: nameOf(words),
    rank: labelled.rank ?? (rankFirst ? first : second) ?? null,
    startNumber: labelled.startNumber ?? (rankFirst ? second : first) ?? null,
    doubts:
      known || (wholes.length === 0 && order === null)
        ? []
        : both || order !== null
          ? ['rank', 'startNumber']
          : ['rank'],
  };
}

/** Which of rank and start number the header names first; `one`: only the rank; null: neither. */
function headerOrder(text: string): 'rank-first' | 'start-first' | 'one' | null {
  const rank = text.search(/rank|place|pl\.|platz|rang|sija|plac|posto|puesto|順位/iu);
  const start = text.search(/start|stn|dossard|lähtö|滑走/iu);
  if (rank < 0) return start < 0 ? null : 'start-first';
  return start < 0 ? 'one' : rank < start ? 'rank-first' : 'start-first';
}

/** The words of a row without a nation behind the name. */
function nameOf(words: readonly Cell[]): string | null {
  const texts = words.map((cell) => cell.text);
  const last = texts.at(-1);
  const kept = texts.length > 1 && last !== undefined && NATIONS.has(last) ? texts.slice(0, -1) : texts;
  return kept.length === 0 ? null : kept.join(' ');
}

/** No totals beside the name: the last plain line above the table, or a numbered one. */
function fromPlainLine(lines: readonly Line[], labelled: Person): Person {
  const plain = lines.filter((line) => couldBeName(line));
  const numbered = plain.findLast(
    (line) => line.cells[0]?.figure?.decimals === 0 || /^\d{1,3}[.)]$/.test(line.cells[0]?.text ?? ''),
  );
  const line = numbered ?? plain.at(-1);
  if (line === undefined)
    return {
      ...labelled,
      doubts: [
        'skater',
        ...(labelled.rank === null ? (['rank'] as const) : []),
        ...(labelled.startNumber === null ? (['startNumber'] as const) : []),
      ],
    };
  const rank = Number(/^\d{1,3}/.exec(line.cells[0]?.text ?? '')?.[0] ?? NaN);
  const words = line.cells.filter(
    (cell) => cell.figure === null && !/^\d{1,3}[.)]$/.test(cell.text) && cell.kind !== 'dash',
  );
  const skater = nameOf(words.filter((cell) => !/^[([]/.test(cell.text)));
  const isNew = labelled.rank === null && !Number.isNaN(rank);
  return {
    skater,
    rank: labelled.rank ?? (isNew ? rank : null),
    startNumber: labelled.startNumber,
    doubts: ['skater', 'rank', 'startNumber'],
  };
}

function couldBeName(line: Line): boolean {
  const text = textOf(line);
  return (
    line.cells.length <= 10 &&
    /\p{L}{2,}/u.test(text) &&
    !isColumnHeader(line) &&
    !PAGE_WORDS.test(text) &&
    !line.cells.some((cell) => (cell.figure?.decimals ?? 0) > 0) &&
    ![...AGE_WORDS, ...SEGMENT_WORDS].some(([pattern]) => pattern.test(text)) &&
    line.cells.every((cell) => labelOf(cell.text) === null)
  );
}
