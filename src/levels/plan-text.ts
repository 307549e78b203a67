import { fail, ok, type Result } from '../notation/index.ts';
import { parseSteps } from './step-text.ts';

/** Headings that may stand above a line of moves, one a line: `season: 2023/24`. */
const HEADINGS = ['id', 'body', 'season', 'date', 'rulebook', 'category', 'segment', 'skater'] as const;

/** True for text that is a line of moves with headings rather than a form. */
export const looksLikeSteps = (text: string): boolean => !/^\s*(kind|moves|parts|spins)\s*:/m.test(text);

/**
 * Reads step sequences written as text: headings, then moves; a line `---` begins the next one.
 * Places in errors are lines and columns of the whole text.
 */
export function readStepsText(text: string): readonly { readonly line: number; readonly read: Result<unknown> }[] {
  const pieces: { line: number; lines: string[] }[] = [{ line: 1, lines: [] }];
  text.split(/\r?\n/).forEach((one, at) => {
    if (/^-{3,}\s*$/.test(one)) pieces.push({ line: at + 2, lines: [] });
    else pieces.at(-1)?.lines.push(one);
  });
  return pieces
    .filter(({ lines }) => lines.some((one) => one.trim() !== ''))
    .map(({ line, lines }) => ({ line, read: readPiece(lines, line) }));
}

function readPiece(lines: readonly string[], line: number): Result<unknown> {
  const form: Record<string, string> = {};
  // Headings become empty lines, and so do the pieces before: places stay those of the whole text.
  const moves = lines.map((one) => {
    const heading = headingOf(one);
    if (heading === null) return one.replace(/#.*$/, '');
    form[heading.name] = heading.value;
    return '';
  });
  const text = '\n'.repeat(line - 1) + moves.join('\n');
  const parsed = parseSteps(text);
  return parsed.ok ? ok({ ...form, kind: 'steps', moves: text }) : fail(parsed.error);
}

function headingOf(line: string): { readonly name: string; readonly value: string } | null {
  const match = /^\s*([a-z]+)\s*:\s*(.*)$/i.exec(line);
  const name = HEADINGS.find((one) => one === match?.[1]?.toLowerCase());
  return name === undefined ? null : { name, value: (match?.[2] ?? '').trim() };
}
