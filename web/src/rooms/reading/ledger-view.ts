import { CAUSES, type Cause, type LedgerEntry, type Reading } from '../../../../src/reading/index.ts';
import type { Piece } from '../../figures/balance.tsx';
import type { StaveElement, StaveEntry } from '../../figures/stave.tsx';
import { parseCode } from '../../../../src/notation/index.ts';
import type { Protocol } from '../../../../src/scoring/index.ts';

/** One piece per cause and side: what it brought and what it cost are shown apart. */
export function piecesOf(ledger: readonly LedgerEntry[]): Piece[] {
  return ([1, -1] as const).flatMap((sign) =>
    CAUSES.flatMap((cause) => {
      const points = sum(ledger.filter((e) => e.cause === cause && Math.sign(e.points) === sign));
      return points === 0 ? [] : [{ cause, points }];
    }),
  );
}

export const sum = (entries: readonly { readonly points: number }[]): number =>
  entries.reduce((all, e) => all + e.points, 0);

/** What came on top, largest first, as lines: one per cause and element, small ones gathered. */
export function winsOf(ledger: readonly LedgerEntry[]): LedgerEntry[] {
  return ledger.filter((e) => e.points > 0).toSorted((a, b) => b.points - a.points);
}

export function staveElements(protocol: Protocol): StaveElement[] {
  return protocol.elements.map((e, i) => {
    const parsed = parseCode(e.code);
    return { no: e.no ?? i + 1, code: e.code, kind: parsed.ok ? parsed.value.element.kind : 'unknown', start: e.start };
  });
}

/** Entries for the stave: one stroke per element and cause; the whole program's share one place per cause. */
export function staveEntries(reading: Reading): StaveEntry[] {
  const atLeast = new Set(reading.advice.filter((a) => a.atLeast).map((a) => `${a.no} ${a.cause}`));
  const own = reading.ledger
    .filter((e) => e.no !== null && e.points !== 0)
    .map((e) => ({ no: e.no, cause: e.cause, points: e.points, atLeast: atLeast.has(`${e.no} ${e.cause}`) }));
  const whole = CAUSES.flatMap((cause) => {
    const points = sum(reading.ledger.filter((e) => e.no === null && e.cause === cause));
    return points === 0 ? [] : [{ no: null, cause, points, atLeast: false }];
  });
  return [...own, ...whole];
}

export const causesIn = (ledger: readonly LedgerEntry[]): Cause[] =>
  CAUSES.filter((cause) => ledger.some((e) => e.cause === cause && e.points !== 0));
