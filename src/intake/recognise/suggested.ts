import type { Cell, Line } from './cell.ts';
import type { Doubt } from './reading.ts';
import type { SheetLines } from './sheet-lines.ts';

/**
 * The lines that make up each element and component, by its place in the form: `elements[3]` is the
 * fourth line with a code and what stands below it up to the next.
 */
export function linesByPlace(lines: SheetLines): ReadonlyMap<string, readonly Line[]> {
  const found = new Map<string, Line[]>();
  let elements = -1;
  let components = -1;
  for (const { line, kind } of lines.items) {
    if (kind === 'component') {
      components += 1;
      found.set(`components[${components}]`, [line]);
      continue;
    }
    if (kind === 'element' && line.cells.some((cell) => cell.kind === 'code')) elements += 1;
    const place = `elements[${elements}]`;
    if (elements >= 0) found.set(place, [...(found.get(place) ?? []), line]);
  }
  return found;
}

/** The place whose figures do not agree: `elements[3].goe` is of `elements[3]`. */
export const placeOf = (at: string): string => /^(?:elements|components)\[\d+\]/.exec(at)?.[0] ?? at;

/**
 * What a figure may be that a picture shows badly, beside what recognition offered: what the equations in
 * doubt ask for where it differs by one digit, with its sign or without, with the point that was not seen.
 */
export function suggestedFor(cell: Cell, doubts: readonly Doubt[]): readonly string[] {
  const { figure, text } = cell;
  if (figure === null) return [];
  const value = figure.value / 100;
  const asked = doubts
    .filter((one) => one.read === value)
    .flatMap((one) => one.alternatives)
    .flatMap((one) => (typeof one === 'number' ? [one.toFixed(2)] : []))
    .filter((one) => areNear(digitsOf(one), digitsOf(text)));
  const signed = value === 0 ? [] : text.startsWith('-') ? [text.slice(1)] : [`-${text}`];
  const pointed = /^-?\d{3,5}$/.test(text) ? [`${text.slice(0, -2)}.${text.slice(-2)}`] : [];
  return [...new Set([...asked, ...signed, ...pointed])];
}

const digitsOf = (text: string): string => text.replace(/\D/g, '');

/** The same but for one digit: other, lost or too many. */
function areNear(a: string, b: string): boolean {
  if (a.length < b.length) return areNear(b, a);
  if (a.length - b.length > 1) return false;
  let start = 0;
  while (start < b.length && a[start] === b[start]) start += 1;
  const rest = a.slice(start + 1);
  return rest === (a.length === b.length ? b.slice(start + 1) : b.slice(start));
}
