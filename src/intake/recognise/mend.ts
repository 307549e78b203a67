import { cellsOfToken, type Cell, type Line } from './cell.ts';
import { fromPicture, SURE } from './picture.ts';
import type { Doubt, SheetReading } from './reading.ts';
import type { SheetLines } from './sheet.ts';
import { linesByPlace, placeOf, suggestedFor } from './suggested.ts';

/** Changes tried on one sheet at most; a picture that needs more is not worth mending. */
const MAX_TRIES = 240;
/** From this confidence on a word was seen clearly. */
const CLEAR = SURE + 0.1;

type Read = (lines: SheetLines) => SheetReading;

/** How far mending has come. */
interface State {
  readonly lines: SheetLines;
  readonly reading: SheetReading;
}

/** One changed word with which the sheet closes better. */
interface Change extends State {
  readonly from: Cell;
  readonly text: string;
  readonly left: number;
}

/**
 * Mends single misread words of a picture. Where equations do not close, each unsure word is tried in
 * its other readings, and each figure of a row that does not close in what its equations ask for; a change is
 * kept only if it is the only one that removes doubts without making new ones. What was mended is said in
 * the evidence; where recognition was not in two minds it stays a doubt, since then the sheet itself may be
 * wrong. Sheets of text pass through untouched.
 */
export function mended(lines: SheetLines, read: Read): SheetReading {
  let state: State = { lines, reading: read(lines) };
  if (!fromPicture(allLines(lines))) return state.reading;
  const notes: string[] = [];
  const asked: Doubt[] = [];
  const budget = { left: MAX_TRIES };
  for (const line of inOrder(lines, state.reading)) {
    if (broken(state.reading) === 0) break;
    const change = onlyChange(line, state, read, budget);
    if (change === null) continue;
    notes.push(
      `mended (${line.at}): “${change.from.text}” read as “${change.text}”, the only change with which the equations close`,
    );
    if (!isOffered(change)) asked.push(...askedFor(state.reading, change));
    state = change;
  }
  const { reading } = state;
  if (notes.length === 0) return reading;
  const doubts = [...reading.doubts, ...asked.filter((one) => !reading.doubts.some(({ at }) => at === one.at))];
  return { ...reading, doubts, evidence: [...reading.evidence, ...notes] };
}

const allLines = (lines: SheetLines): Line[] => [...lines.head, ...lines.items.map((item) => item.line)];

/** Rows in doubt first: what they need must not be used up by the rest of the sheet. */
function inOrder(lines: SheetLines, reading: SheetReading): Line[] {
  const byPlace = linesByPlace(lines);
  const first = new Set(brokenPlaces(reading).flatMap((at) => byPlace.get(placeOf(at)) ?? []));
  return [...first, ...allLines(lines).filter((line) => !first.has(line))];
}

/** The one change of a word of this line that leaves least in doubt; null where several do, or none. */
function onlyChange(line: Line, state: State, read: Read, budget: { left: number }): Change | null {
  const found: Change[] = [];
  const inDoubt = doubtsOf(line, state);
  for (const [i, cell] of line.cells.entries()) {
    for (const text of otherTexts(cell, inDoubt)) {
      if (budget.left <= 0) break;
      const other = changedLine(line, i, text);
      if (other === null) continue;
      budget.left -= 1;
      const lines = withLine(state.lines, line, other);
      const reading = read(lines);
      if (isBetter(reading, state.reading)) found.push({ lines, reading, from: cell, text, left: broken(reading) });
    }
  }
  const least = Math.min(...found.map((one) => one.left));
  const [only, ...others] = found.filter((one) => one.left === least);
  if (only === undefined || others.some((one) => figures(one.reading) !== figures(only.reading))) return null;
  return only;
}

/** Doubts because figures do not agree, of the element or component that this line belongs to. */
function doubtsOf(line: Line, { lines, reading }: State): Doubt[] {
  const places = [...linesByPlace(lines)].filter(([, own]) => own.includes(line)).map(([place]) => place);
  return reading.doubts.filter((one) => isBroken(one) && places.includes(placeOf(one.at)));
}

function otherTexts(cell: Cell, inDoubt: readonly Doubt[]): readonly string[] {
  const offered = cell.confidence >= CLEAR ? [] : cell.alternatives.slice(0, 5);
  return inDoubt.length === 0 ? offered : [...new Set([...offered, ...suggestedFor(cell, inDoubt)])];
}

/** Whether recognition itself was in two minds about the word. */
const isOffered = ({ from, text }: Change): boolean => from.confidence < CLEAR && from.alternatives.includes(text);

const isBroken = (one: Doubt): boolean => !one.why.startsWith('It is not clear in the picture');
/** Places in doubt because figures do not agree; those that are merely unclear do not count. */
const brokenPlaces = (reading: SheetReading): string[] => reading.doubts.filter(isBroken).map((one) => one.at);
const broken = (reading: SheetReading): number => brokenPlaces(reading).length;

/** Fewer broken places, none of them new, and no figure lost. */
function isBetter(reading: SheetReading, before: SheetReading): boolean {
  const places = new Set(brokenPlaces(before));
  const now = brokenPlaces(reading);
  return (
    now.length < places.size &&
    now.every((place) => places.has(place)) &&
    reading.protocol.elements.length >= before.protocol.elements.length
  );
}

/** The doubts that a change of a clearly seen word settled: they stay, with what was seen as the other reading. */
function askedFor(before: SheetReading, change: Change): Doubt[] {
  const still = new Set(brokenPlaces(change.reading));
  const value = change.from.figure === null ? change.from.text : change.from.figure.value / 100;
  const settled = before.doubts.filter((one) => isBroken(one) && !still.has(one.at));
  const own = settled.filter((one) => one.read === value);
  return (own.length > 0 ? own : settled).map(({ at }) => ({
    at,
    read: change.from.figure === null ? change.text : Number(change.text.replace(',', '.')),
    alternatives: [value],
    why: `“${change.from.text}” was seen; “${change.text}” is the only reading with which the equations close. Look at the picture: the sheet itself may be wrong.`,
  }));
}

const figures = (reading: SheetReading): string => JSON.stringify(reading.protocol);

/** Null where the other reading is a word like any other: words close no equation. */
function changedLine(line: Line, i: number, text: string): Line | null {
  const cell = line.cells[i];
  if (cell === undefined) return null;
  const token = { text, x: cell.x0, y: 0, width: cell.x1 - cell.x0, height: 0, page: line.page, confidence: SURE };
  const cells: readonly Cell[] = cellsOfToken(token);
  if (cells.every((one) => one.kind === 'word')) return null;
  return { ...line, cells: line.cells.toSpliced(i, 1, ...cells) };
}

/** The kind of a line is kept: what it is was settled by its neighbours. */
function withLine(lines: SheetLines, from: Line, to: Line): SheetLines {
  return {
    head: lines.head.map((line) => (line === from ? to : line)),
    items: lines.items.map((item) => (item.line === from ? { ...item, line: to } : item)),
  };
}
