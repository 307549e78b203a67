import { formatFeedback, parseFeedback } from '../../notation/index.ts';
import type { Line } from './cell.ts';
import type { ReadRow } from './element-block.ts';
import { textOf } from './heading.ts';
import { doubt, type Verdict } from './verdict.ts';

const LETTERS_AT_END =
  /(?:^|[\s:])((?:\+?kp|key\s?points?)?\s{0,3}:?\s{0,3}(?:[YNT](?:[\s/,-]{0,3}[YNT]){0,3}|n[csu](?:[\s/,+]{1,3}n[csu]){0,2}))\s*$/iu;

/** A line of its own with feedback letters: `3 StSq2: YNN`, `Key points Y N N`, `NU`. */
export const isLettersLine = (line: Line): boolean =>
  line.cells.length <= 12 &&
  line.cells.some((cell) => cell.kind === 'letters') &&
  line.cells.every((cell) => (cell.figure?.decimals ?? 0) === 0) &&
  LETTERS_AT_END.test(textOf(line));

/** Letters that stand on lines of their own, by the index of the element that they belong to. */
export function lettersOf(rows: readonly ReadRow[], lines: readonly Line[]): Map<number, string> {
  const found = new Map<number, string>();
  for (const line of lines) {
    if (!isLettersLine(line)) continue;
    const letters = LETTERS_AT_END.exec(textOf(line))?.[1] ?? '';
    const index = targetOf(rows, line, letters, found);
    const element = rows[index]?.row.code?.element;
    const feedback = element === undefined ? null : parseFeedback(letters, element);
    if (feedback?.ok === true) found.set(index, formatFeedback(feedback.value));
  }
  return found;
}

/** By the number or the code on the line; else the only element that can have such letters. */
function targetOf(rows: readonly ReadRow[], line: Line, letters: string, found: ReadonlyMap<number, string>): number {
  const takes = (i: number): boolean => {
    const element = rows[i]?.row.code?.element;
    return (
      element !== undefined &&
      !found.has(i) &&
      (element.kind === 'steps' || element.kind === 'spin') &&
      parseFeedback(letters, element).ok
    );
  };
  const number = line.cells[0]?.figure?.value;
  const byNumber = number === undefined ? -1 : rows.findIndex((read, i) => read.no === number / 100 && takes(i));
  if (byNumber >= 0) return byNumber;
  const names = line.cells.map((cell) => cell.text.replace(/:$/, ''));
  const byCode = rows.findIndex((read, i) => names.includes(read.row.codeText) && takes(i));
  if (byCode >= 0) return byCode;
  const able = rows.map((_, i) => i).filter(takes);
  const reduced = able.filter((i) => {
    const element = rows[i]?.row.code?.element;
    return element?.kind === 'steps' || (element?.kind === 'spin' && element.v > 0);
  });
  const [only] = reduced.length > 0 ? reduced : able;
  return (reduced.length === 1 || able.length === 1) && only !== undefined ? only : -1;
}

/**
 * A lone C, S or U beside a spin with V looks like the letters for a missing position with their N lost.
 * What it stands for is asked: without it the reason for the V would be missing silently.
 */
export function judgeLoneLetters(
  elements: { readonly rows: readonly ReadRow[] },
  lines: readonly Line[],
  verdict: Verdict,
): void {
  elements.rows.forEach(({ row }, i) => {
    const element = row.code?.element;
    if (element?.kind !== 'spin' || element.v === 0 || row.feedback !== null) return;
    const cell = lines.find((line) => line.at === row.at)?.cells.find(({ text }) => /^[CSU]$/i.test(text));
    if (cell === undefined) return;
    const why = `“${cell.text}” beside a spin with V is no feedback that is known.`;
    doubt(verdict, `elements[${i}].feedback`, null, [`N${cell.text.toUpperCase()}`], why);
  });
}
