import { applyInfo, formatElement, type Element } from '../../notation/index.ts';
import type { Library, Rulebook, ValueRow } from '../../rulebook/index.ts';
import { elementValue, goeByMeanGrade, goeOfMarks, type PanelRule } from '../../scoring/index.ts';
import type { Row } from './row.ts';

/** One way to read an element's code and calls, with the value that a season gives it. */
export interface Valuation {
  readonly element: Element;
  readonly half: boolean;
  /** The half mark is not what the sheet prints. */
  readonly halfAssumed: boolean;
  readonly base: number | null;
  readonly row: ValueRow | null;
  readonly hasValue: boolean;
}

/** A rulebook with what was already looked up in it. */
export interface Season {
  readonly rulebook: Rulebook;
  readonly known: Map<string, readonly Valuation[]>;
}

const MAX_KNOWN = 50_000;

export function seasonsOf(library: Library): Season[] {
  return library.list().flatMap((id) => {
    const rulebook = library.rulebook(id);
    return rulebook === undefined ? [] : [{ rulebook, known: new Map<string, readonly Valuation[]>() }];
  });
}

/** Every reading of a row in a season: as printed first, then with the half mark the other way. */
export function valuations(season: Season, row: Row): readonly Valuation[] {
  if (row.code === null) return [];
  const key = keyOf(row);
  const found = season.known.get(key);
  if (found !== undefined) return found;
  const made = makeValuations(season.rulebook, row.code.element, row.calls.join(' '), row.half);
  if (season.known.size >= MAX_KNOWN) season.known.clear();
  season.known.set(key, made);
  return made;
}

/** What of a row its value depends on, as text; asked for every season and arrangement, so made once. */
const keys = new WeakMap<Row, string>();

function keyOf(row: Row): string {
  const before = keys.get(row);
  if (before !== undefined) return before;
  const key = `${row.codeText}|${row.calls.join(' ')}|${row.half ? 'x' : ''}`;
  keys.set(row, key);
  return key;
}

function makeValuations(rulebook: Rulebook, element: Element, calls: string, half: boolean): readonly Valuation[] {
  const placed = calls === '' ? { settled: element } : applyInfo(element, calls);
  const elements = 'settled' in placed ? [placed.settled] : placed.choices.length > 0 ? placed.choices : [element];
  const halves = element.kind === 'jump' ? [half, !half] : [half];
  const seen = new Set<string>();
  return halves.flatMap((one) =>
    elements.flatMap((reading) => {
      const { base, row, hasValue } = elementValue(rulebook, reading, { half: one });
      const name = `${formatElement(reading)}|${String(one)}`;
      if (seen.has(name)) return [];
      seen.add(name);
      return [{ element: reading, half: one, halfAssumed: one !== half, base, row, hasValue }];
    }),
  );
}

/** The reading whose base value is the printed one, as printed before assumed; null if none fits. */
export const fittingValuation = (season: Season, row: Row, base: number | null): Valuation | null =>
  base === null ? null : (valuations(season, row).find((one) => one.base === base) ?? null);

/** `exact`: closes as the rules say; `method`: closes under the other order of averaging; `off`: does not. */
export type GoeVerdict = 'exact' | 'method' | 'off' | 'unknown';

export function goeVerdict(
  row: ValueRow | null,
  marks: readonly (number | null)[],
  goe: number | null,
  panel: PanelRule,
  established: boolean,
): { readonly verdict: GoeVerdict; readonly expected: number | null } {
  if (goe === null || row === null) return { verdict: 'unknown', expected: null };
  const expected = goeOfMarks(row, marks, panel);
  if (expected === null) return { verdict: 'unknown', expected: null };
  if (expected === goe) return { verdict: 'exact', expected };
  const method = !established && Math.abs(expected - goe) === 1 && goeByMeanGrade(row, marks, panel).includes(goe);
  return { verdict: method ? 'method' : 'off', expected };
}
