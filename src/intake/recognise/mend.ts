import { cellsOfToken, type Cell, type Line } from './cell.ts';
import { fromPicture, SURE } from './picture.ts';
import type { SheetReading } from './reading.ts';
import type { SheetLines } from './sheet.ts';

/** Changes tried on one sheet at most; a picture that needs more is not worth mending. */
const MAX_TRIES = 240;

/**
 * Mends single misread words of a picture. Where equations do not close, each unsure word is tried in
 * its other readings; a change is kept only if it is the only one that removes doubts without making
 * new ones. What was mended is said in the evidence. Sheets of text pass through untouched.
 */
export function mended(lines: SheetLines, read: (lines: SheetLines) => SheetReading): SheetReading {
  let best = read(lines);
  if (!fromPicture(allLines(lines))) return best;
  let current = lines;
  let tries = 0;
  const notes: string[] = [];
  for (const target of allLines(lines)) {
    if (broken(best) === 0) break;
    const line = target;
    const found: { lines: SheetLines; reading: SheetReading; note: string; left: number }[] = [];
    for (const [i, cell] of line.cells.entries()) {
      if (cell.confidence >= SURE + 0.1 || cell.alternatives.length === 0) continue;
      for (const text of cell.alternatives.slice(0, 5)) {
        if (tries >= MAX_TRIES) break;
        const other = changedLine(line, i, text);
        if (other === null) continue;
        tries += 1;
        const changed = withLine(current, line, other);
        const reading = read(changed);
        if (isBetter(reading, best))
          found.push({ lines: changed, reading, note: `“${cell.text}” read as “${text}”`, left: broken(reading) });
      }
    }
    const least = Math.min(...found.map((one) => one.left));
    const [only, ...others] = found.filter((one) => one.left === least);
    if (only === undefined || others.some((one) => figures(one.reading) !== figures(only.reading))) continue;
    [current, best] = [only.lines, only.reading];
    notes.push(`mended (${line.at}): ${only.note}, the only change with which the equations close`);
  }
  return notes.length === 0 ? best : { ...best, evidence: [...best.evidence, ...notes] };
}

const allLines = (lines: SheetLines): Line[] => [...lines.head, ...lines.items.map((item) => item.line)];

/** Places in doubt because figures do not agree; those that are merely unclear do not count. */
const brokenPlaces = (reading: SheetReading): string[] =>
  reading.doubts.filter((one) => !one.why.startsWith('It is not clear in the picture')).map((one) => one.at);
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
