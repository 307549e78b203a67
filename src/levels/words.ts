/** Small words and line breaking for the printed answers. */

/**
 * Breaks text at spaces so that no line is longer than `width`, unless one word is. Spaces at the
 * beginning stay; later lines are indented by `indent`.
 */
export function wrap(text: string, width: number, indent = ''): string {
  const lines: string[] = [];
  const lead = /^ */.exec(text)?.[0] ?? '';
  let line = '';
  for (const word of text.slice(lead.length).split(' ')) {
    const next = line === '' ? `${lines.length === 0 ? lead : ''}${word}` : `${line} ${word}`;
    if (next.length > width && line !== '') {
      lines.push(line);
      line = `${indent}${word}`;
    } else line = next;
  }
  return [...lines, line].join('\n');
}

const DAYS = 20;

/** A chance as a coach says it: "on about 13 of 20 days". */
export function onDays(p: number): string {
  if (p >= 1 - 1e-9) return 'always, as planned';
  if (p <= 1e-9) return 'never, as planned';
  const days = Math.round(p * DAYS);
  if (days === 0) return `on fewer than 1 of ${DAYS} days`;
  return days === DAYS ? `on nearly all of ${DAYS} days` : `on about ${days} of ${DAYS} days`;
}

/** `a, b and c`. */
export function listed(words: readonly string[]): string {
  const last = words.at(-1);
  if (last === undefined || words.length === 1) return last ?? '';
  return `${words.slice(0, -1).join(', ')} and ${last}`;
}

export const points = (value: number): string => value.toFixed(2);
export const plural = (n: number, word: string): string => `${n} ${word}${n === 1 ? '' : 's'}`;
