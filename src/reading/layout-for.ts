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

const agrees = (a: string | null, b: string | null): boolean =>
  a === null || b === null || a.trim().toLowerCase() === b.trim().toLowerCase();
