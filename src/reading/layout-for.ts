import type { Layout, Protocol } from '../scoring/index.ts';

/**
 * The layout of a protocol among several: skater and segment must agree where both sides say them; of
 * those that fit, the one that says most about itself, then the first. Null if none fits.
 */
export function layoutFor(layouts: readonly Layout[], protocol: Protocol): Layout | null {
  const fitting = layouts
    .filter((layout) => agrees(layout.skater, protocol.skater) && agrees(layout.segment, protocol.segment))
    .map((layout) => ({ layout, said: Number(named(layout.skater)) + Number(named(layout.segment)) }));
  return (
    fitting.reduce((best, one) => (best === null || one.said > best.said ? one : best), fitting[0] ?? null)?.layout ??
    null
  );
}

const named = (text: string | null): boolean => text !== null;

/** Sheets print the family name first or last, in capitals or not: the words count, not their order. */
const agrees = (a: string | null, b: string | null): boolean => a === null || b === null || wordsOf(a) === wordsOf(b);

const wordsOf = (text: string): string =>
  text
    .toLowerCase()
    .split(/[\s,]+/)
    .filter((word) => word !== '')
    .sort()
    .join(' ');

/**
 * Why none of the given layouts was held against this protocol, as a sentence for people; null where one
 * was, or none was given.
 */
export function layoutNotUsed(layouts: readonly Layout[], protocol: Protocol): string | null {
  if (layouts.length === 0 || layoutFor(layouts, protocol) !== null) return null;
  const of = [...new Set(layouts.map((one) => [one.skater, one.segment].filter((part) => part !== null).join(', ')))];
  const here = [protocol.skater, protocol.segment].filter((part) => part !== null).join(', ');
  return `The layout was not used: it is of ${of.join(' and of ')}, the sheet of ${here}. Name the skater alike, or leave \`skater\` out of the layout.`;
}
