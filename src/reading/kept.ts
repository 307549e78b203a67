import { ok, type Result } from '../notation/index.ts';
import { chooseRules, type ChosenRules, type Library } from '../rulebook/index.ts';
import { readLayout, readProtocol, type Layout, type Protocol } from '../scoring/index.ts';
import { fieldOf } from './field.ts';
import { read } from './read.ts';
import type { Reading, ToldByPanel } from './types.ts';

/** A protocol as somebody keeps it: the form as read, and beside it what the keeper settled. */
export interface KeptSheet {
  readonly id: string;
  readonly form: unknown;
  readonly season: string;
  readonly category: string;
  readonly segment: 'short' | 'free';
  /** ISO date; null where none is known. */
  readonly date: string | null;
}

export interface KeptLayout {
  readonly form: unknown;
  readonly season: string;
  readonly segment: 'short' | 'free';
  readonly version: number;
  readonly current: boolean;
  /** ISO date and time. */
  readonly savedAt: string;
}

/** Sheets of one category and segment of an event, without names. */
export interface KeptField {
  readonly category: string;
  readonly segment: 'short' | 'free';
  readonly protocols: readonly unknown[];
}

/** A note as somebody keeps it; those told by the panel are evidence. */
export interface KeptNote {
  readonly about: string;
  readonly aboutId: string;
  readonly box: string;
  /** Printed number of the element; null: about the whole sheet. */
  readonly element: number | null;
  readonly text: string;
  readonly turns?: number | null | undefined;
  readonly missingPosition?: ToldByPanel['missingPosition'];
}

/** What the notes of a protocol say that the panel told about its elements. */
export const toldIn = (notes: readonly KeptNote[], protocolId: string): ToldByPanel[] =>
  notes
    .filter((n) => n.about === 'protocols' && n.aboutId === protocolId && n.box === 'told-by-panel')
    .flatMap(({ element, text, turns, missingPosition }) =>
      element === null ? [] : [{ no: element, text, turns: turns ?? null, missingPosition: missingPosition ?? null }],
    );

/** What stands beside a kept protocol when it is read. */
export interface Beside {
  readonly library: Library;
  /** Issuing body of the skater, where the sheet names none. */
  readonly body?: string | null;
  /** All layouts of the skater. */
  readonly layouts: readonly KeptLayout[];
  /** All protocols of the skater; those of this segment before this date are the history. */
  readonly others: readonly KeptSheet[];
  readonly fields?: readonly KeptField[];
  readonly told?: readonly ToldByPanel[];
}

export interface KeptReading {
  readonly reading: Reading;
  readonly protocol: Protocol;
  readonly rules: ChosenRules;
}

/**
 * Reads a kept protocol against the layout that stood when it was skated, else against the skater's own
 * earlier protocols. One function for every screen and every printed page, so that they never disagree.
 *
 * @returns the first thing that cannot be read: the sheet, or the rules for it.
 */
export function readKept(sheet: KeptSheet, beside: Beside): Result<KeptReading> {
  const protocol = readProtocol(sheet.form);
  if (!protocol.ok) return protocol;
  const rules = chooseRules(beside.library, {
    rulebook: protocol.value.rulebook ?? undefined,
    body: protocol.value.body ?? beside.body ?? undefined,
    season: sheet.season,
    date: sheet.date ?? undefined,
    category: sheet.category,
    segment: sheet.segment,
  });
  if (!rules.ok) return rules;
  const history = historyOf(sheet, beside.others);
  const reading = read(protocol.value, rules.value, {
    layout: layoutThen(sheet, beside.layouts),
    ...(history.length > 0 ? { history } : {}),
    field: fieldOf(fieldSheets(sheet, beside.fields ?? []), rules.value.values.values.panel),
    told: beside.told,
  });
  return ok({ reading, protocol: protocol.value, rules: rules.value });
}

const historyOf = (sheet: KeptSheet, others: readonly KeptSheet[]): Protocol[] =>
  others
    .filter((o) => o.segment === sheet.segment && o.id !== sheet.id && (o.date ?? '') < (sheet.date ?? ''))
    .flatMap((o) => protocolsOf(o.form));

const protocolsOf = (form: unknown): Protocol[] => {
  const read = readProtocol(form);
  return read.ok ? [read.value] : [];
};

/** The newest layout saved before the day it was skated, else the current one of that season. */
function layoutThen(sheet: KeptSheet, layouts: readonly KeptLayout[]): Layout | null {
  const own = layouts.filter((l) => l.segment === sheet.segment && l.season === sheet.season);
  const before = own.filter((l) => sheet.date !== null && l.savedAt.slice(0, 10) <= sheet.date);
  const then = before.toSorted((a, b) => a.version - b.version).at(-1) ?? own.find((l) => l.current);
  if (then === undefined) return null;
  const layout = readLayout(then.form);
  return layout.ok ? layout.value : null;
}

const fieldSheets = (sheet: KeptSheet, fields: readonly KeptField[]): Protocol[] =>
  fields
    .filter((f) => f.segment === sheet.segment && f.category === sheet.category)
    .flatMap((f) => f.protocols)
    .flatMap(protocolsOf);
