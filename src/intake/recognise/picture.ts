import type { Cell, Line } from './cell.ts';
import type { ComponentBlock } from './component-block.ts';
import type { ElementBlock } from './element-block.ts';
import type { Entry } from './row.ts';
import { doubt, type Verdict } from './verdict.ts';

/** Words read from a picture with less confidence than this are not taken on trust. */
export const SURE = 0.85;
const SURE_OF_NAME = 0.95;

const WHY = 'It is not clear in the picture, and no equation holds it.';

/** Text and tables need no such look: their words come with full confidence. */
export const fromPicture = (lines: Iterable<Line>): boolean => {
  for (const line of lines) if (line.cells.some((cell) => cell.confidence < 1)) return true;
  return false;
};

/**
 * Doubts on what was not clear in a picture. Base + grade = score and a mean that gives the component's
 * score hold these figures; a single mark is held by nothing, since the trimming may leave it out.
 */
export function judgeElementsPicture(
  block: ElementBlock,
  tes: number | null,
  lines: readonly Line[],
  verdict: Verdict,
): void {
  const { plan } = block;
  if (tes === null || tes !== block.sum) {
    const why = 'The scores do not add up to the element score: a row may have been lost in the picture.';
    doubt(verdict, 'elements', block.rows.length, [], why);
  }
  block.rows.forEach((read, i) => {
    const at = `elements[${i}]`;
    const held = read.base !== null && read.goe !== null && read.score === read.base + read.goe;
    if (plan !== null && read.entries !== null) {
      judgeMarks(read.entries.slice(plan.from, plan.to), at, 1, verdict);
      for (const name of ['base', 'goe', 'score'] as const) {
        const entry = plan[name] === null ? null : read.entries[plan[name]];
        if (!held && entry != null && isUnsure(entry.cell)) unsure(entry.cell, `${at}.${name}`, verdict);
      }
    }
    const line = lines.find((one) => one.at === read.row.at);
    for (const cell of line?.cells ?? []) if (isUnsure(cell)) judgeWord(cell, at, verdict);
  });
}

export function judgeComponentsPicture(block: ComponentBlock, pcsCloses: boolean, verdict: Verdict): void {
  const { plan } = block;
  if (!pcsCloses) {
    const why = 'The components do not add up to the component score: a row may have been lost in the picture.';
    doubt(verdict, 'components', block.rows.length, [], why);
  }
  if (plan === null) return;
  block.rows.forEach((read, i) => {
    const at = `components[${i}]`;
    if (read.entries === null) return;
    judgeMarks(read.entries.slice(plan.from, plan.to), at, 100, verdict);
    for (const name of ['factor', 'score'] as const) {
      const entry = plan[name] === null ? null : read.entries[plan[name]];
      if (!pcsCloses && entry != null && isUnsure(entry.cell)) unsure(entry.cell, `${at}.${name}`, verdict);
    }
  });
}

/** Name, place and start number stand in no equation. */
export function judgePersonPicture(
  person: { readonly skater: string | null; readonly rank: number | null; readonly startNumber: number | null },
  lines: readonly Line[],
  verdict: Verdict,
): void {
  const cells = lines.flatMap((line) => line.cells).filter(isUnsure);
  for (const name of ['rank', 'startNumber'] as const) {
    const cell = person[name] === null ? undefined : cells.find((one) => one.text === String(person[name]));
    if (cell !== undefined) unsure(cell, name, verdict);
    if (person[name] === null)
      doubt(verdict, name, null, [], 'It was not found; in the picture it may have been lost.');
  }
  if (person.skater === null) doubt(verdict, 'skater', null, [], 'No name was found in the picture.');
  const words = person.skater?.split(' ') ?? [];
  const line = lines.find((one) => one.cells.some((cell) => words.includes(cell.text)));
  // A name is held by nothing, and a part of it may have run into the word beside it.
  if (line?.cells.some((cell) => cell.confidence < SURE_OF_NAME) === true)
    doubt(verdict, 'skater', person.skater, [], WHY);
}

const isUnsure = (cell: Cell): boolean => cell.confidence < SURE;

function judgeMarks(entries: readonly (Entry | null)[], at: string, unit: 1 | 100, verdict: Verdict): void {
  const some = entries.some((entry) => entry?.value != null);
  entries.forEach((entry, j) => {
    if (entry?.value == null && some) {
      doubt(verdict, `${at}.marks[${j}]`, null, [], 'No mark was seen here; in the picture it may have been lost.');
    }
    if (entry === null || !isUnsure(entry.cell)) return;
    const read = entry.value === null ? null : entry.value / 100;
    const others = entry.cell.alternatives
      .map(Number)
      .filter((mark) => Number.isFinite(mark) && (mark * 4) % (unit === 1 ? 4 : 1) === 0);
    doubt(verdict, `${at}.marks[${j}]`, read, others, WHY);
  });
}

/** Codes, calls, letters and the sign of the second half. */
function judgeWord(cell: Cell, at: string, verdict: Verdict): void {
  if (cell.kind === 'code' || cell.kind === 'word') unsure(cell, `${at}.code`, verdict);
  else if (cell.kind === 'half') unsure(cell, `${at}.half`, verdict);
  else if (cell.kind === 'call') unsure(cell, `${at}.info`, verdict);
  else if (cell.kind === 'letters') unsure(cell, `${at}.feedback`, verdict);
}

const unsure = (cell: Cell, at: string, verdict: Verdict): void =>
  doubt(verdict, at, cell.figure === null ? cell.text : cell.figure.value / 100, cell.alternatives.slice(0, 4), WHY);
