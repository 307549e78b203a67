import { chooseRules, shippedLibrary, type ChosenRules } from '../../rulebook/index.ts';
import { readLayout, readProtocol, type Layout, type Protocol } from '../../scoring/index.ts';
import { read, type ReadOptions } from '../read.ts';
import type { LedgerEntry, Reading } from '../types.ts';
import type { Cause } from '../causes.ts';

/** A protocol from its JSON form; a test with a bad form is a bad test. */
export function protocolOf(form: object): Protocol {
  const protocol = readProtocol(form);
  if (!protocol.ok) throw new Error(JSON.stringify(protocol.error));
  return protocol.value;
}

export function layoutOf(form: object): Layout {
  const layout = readLayout(form);
  if (!layout.ok) throw new Error(JSON.stringify(layout.error));
  return layout.value;
}

export function rulesOf(protocol: Protocol): ChosenRules {
  const { body, season, date, category, segment } = protocol;
  const chosen = chooseRules(shippedLibrary(), {
    body: body ?? undefined,
    season: season ?? undefined,
    date: date ?? undefined,
    category: category ?? undefined,
    segment: segment ?? undefined,
  });
  if (!chosen.ok) throw new Error(JSON.stringify(chosen.error));
  return chosen.value;
}

export function readForm(form: object, options: ReadOptions = {}): Reading {
  const protocol = protocolOf(form);
  return read(protocol, rulesOf(protocol), options);
}

/** A senior women's free skate of 2023/24 with these elements and nothing else. */
export const sheetOf = (elements: readonly object[], more: object = {}): object => ({
  season: '2023/24',
  category: 'senior women',
  segment: 'free',
  deductions: 0,
  elements: elements.map((element, i) => ({ no: i + 1, ...element })),
  ...more,
});

/** Five judges of one mind. */
export const five = (mark: number): number[] => [mark, mark, mark, mark, mark];

export function entryOf(reading: Reading, cause: Cause, no: number | null = 1): LedgerEntry | undefined {
  return reading.ledger.find((entry) => entry.cause === cause && entry.no === no);
}

export const pointsOf = (reading: Reading, cause: Cause, no: number | null = 1): number | undefined =>
  entryOf(reading, cause, no)?.points;

export const sumOf = (reading: Reading): number => reading.ledger.reduce((sum, entry) => sum + entry.points, 0);
