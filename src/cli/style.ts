import type { Io } from './io.ts';

/** Bold on a terminal, plain elsewhere. */
export const strong = (text: string, io: Pick<Io, 'colour'>): string =>
  io.colour ? `\u001b[1m${text}\u001b[22m` : text;

/** Dimmed on a terminal, plain elsewhere. */
export const quiet = (text: string, io: Pick<Io, 'colour'>): string =>
  io.colour ? `\u001b[2m${text}\u001b[22m` : text;

const MOST_COLUMNS = 80;

/** Breaks a paragraph into lines of at most 80 columns (fewer on a narrow terminal), all with an indent. */
export function wrapped(text: string, width: number, indent = '', hang = indent): string {
  const columns = Math.min(width, MOST_COLUMNS);
  const lines: string[] = [];
  let line = indent;
  let words = 0;
  for (const word of text.split(/\s+/).filter((one) => one !== '')) {
    if (words > 0 && line.length + 1 + word.length > columns) {
      lines.push(line);
      line = hang;
      words = 0;
    }
    line += words === 0 ? word : ` ${word}`;
    words += 1;
  }
  return [...lines, line].join('\n');
}
