/** Words that a terminal may set apart; plain text has none. */
export interface Ink {
  readonly won: (text: string) => string;
  readonly lost: (text: string) => string;
  readonly strong: (text: string) => string;
  readonly quiet: (text: string) => string;
}

const same = (text: string): string => text;
export const PLAIN: Ink = { won: same, lost: same, strong: same, quiet: same };

const sgr =
  (code: string) =>
  (text: string): string =>
    `\u001b[${code}m${text}\u001b[0m`;
/** Blue for what came on top, brown for what is missing; sign and heading say the same without it. */
export const COLOUR: Ink = { won: sgr('38;5;32'), lost: sgr('38;5;137'), strong: sgr('1'), quiet: sgr('2') };

/** Length as seen: without the terminal's signs. */
export const seen = (text: string): number => Array.from(text.replace(/\u001b\[[0-9;]*m/g, '')).length;

/** Breaks a sentence into lines of at most `width` characters; a longer word stays whole. */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/ +/)) {
    if (line !== '' && seen(line) + 1 + seen(word) > width) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

/** A paragraph with a first-line mark and a hanging indent: `  6  3S   text…`. */
export function hanging(lead: string, text: string, width: number): string[] {
  const indent = ' '.repeat(seen(lead));
  return wrap(text, Math.max(20, width - seen(lead))).map((line, i) => `${i === 0 ? lead : indent}${line}`);
}

export const padEnd = (text: string, width: number): string => text + ' '.repeat(Math.max(0, width - seen(text)));
export const padStart = (text: string, width: number): string => ' '.repeat(Math.max(0, width - seen(text))) + text;
