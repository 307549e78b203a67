import { useQueryClient } from '@tanstack/react-query';
import { parseCategory } from '../../../../src/notation/index.ts';
import { api, newId, type Competition, type ProtocolRecord, type RecordOf, type Skater } from '../../data/api.ts';
import { today } from '../../data/today.ts';
import { emptyEvent } from '../events/event-page.tsx';
import { withSaid, type Said } from './doubt-places.ts';
import { sheetHeaders } from './read-there.ts';
import { sameFigures } from './twice.ts';
import type { Doubt, ReadProtocol, SheetRead } from './types.ts';

/** The choice "a new skater" in place of an id. */
export const NEW = 'new';
/** Asked where the sheet prints no name that could be read. */
export const NAME: Doubt = { at: 'skater', read: '', alternatives: [], why: 'no name was read' };
/** The name that was typed where none was read. */
export const saidName = (settled: ReadonlyMap<string, Said>, i: number): string => {
  const said = settled.get(keyOf(i, NAME));
  return said?.as === 'value' ? textOf(said.value) : '';
};
export const keyOf = (i: number, doubt: Doubt): string => `${i}:${doubt.at}`;
export const nameIn = (form: Record<string, unknown>): string => (typeof form.skater === 'string' ? form.skater : '');
export const textOf = (value: unknown): string => (typeof value === 'string' ? value : '');

export interface Keeping {
  readonly read: SheetRead;
  readonly event: Competition;
  readonly events: readonly Competition[];
  readonly skaters: readonly Skater[];
  readonly chosen: ReadonlyMap<number, string>;
  readonly settled: ReadonlyMap<string, Said>;
  /** Records that sheets of this reading take the place of, by the sheet's index. */
  readonly replacing: ReadonlyMap<number, ProtocolRecord>;
  /** The file as it came is kept too, though it names skaters who are not hers. */
  readonly withOthers: boolean;
}

/** Keeps the event, the coach's own skaters in full, and the rest of the field without names. */
export function useKeep() {
  const client = useQueryClient();
  return async (what: Keeping): Promise<string | null> => {
    let first: string | null = null;
    const own = [...what.chosen].flatMap(([i, choice]) => {
      const given = what.read.protocols[i];
      if (given === undefined) return [];
      const form = withSaid(given.form, [...given.doubts, NAME], (d) => what.settled.get(keyOf(i, d)));
      const skater = what.skaters.find((s) => s.id === choice) ?? skaterFrom(form);
      return [{ form, choice, skater, before: what.replacing.get(i) ?? null }];
    });
    // A file that holds other children's names stays where it came from, unless she says otherwise.
    const isHersAlone = what.chosen.size === what.read.protocols.length;
    const sheetId = isHersAlone || what.withOthers ? await keepOriginal(what.read) : null;
    for (const { choice, skater } of own) if (choice === NEW) await api.put('skaters', skater);
    const taking = [...new Set([...what.event.skaters, ...own.map((o) => o.skater.id)])];
    const changed = taking.length !== what.event.skaters.length || !what.events.some((e) => e.id === what.event.id);
    if (changed) await api.put('competitions', { ...what.event, skaters: taking });
    for (const field of fieldsOf(what.read.protocols, what.event)) await api.put('fields', field);
    for (const { form, skater, before } of own) {
      const record = inPlaceOf(before, recordFrom(form, skater, what.event, sheetId));
      await api.put('protocols', record);
      first ??= record.id;
    }
    await client.invalidateQueries();
    return first;
  };
}

/** The original goes to the store when something of it is kept, not before. */
async function keepOriginal({ original, name }: SheetRead): Promise<string> {
  const request = { method: 'POST', headers: sheetHeaders(name), body: original };
  const { sheetId } = await api.ask<{ sheetId: string }>('/api/sheets/keep', request);
  return sheetId;
}

/** What she chose for the skater's page stays; a sheet with other figures is to be released anew. */
const inPlaceOf = (before: ProtocolRecord | null, record: ProtocolRecord): ProtocolRecord =>
  before === null
    ? record
    : {
        ...record,
        id: before.id,
        onHerPage: before.onHerPage,
        releasedAt: sameFigures(before.form, record.form) ? before.releasedAt : null,
      };

const NAMED = ['id', 'skater', 'rank', 'startNumber', 'competition', 'club', 'nation'];

/** One field per category and segment of the sheet, every name and number of a person taken off. */
function fieldsOf(protocols: readonly ReadProtocol[], event: Competition): RecordOf<'fields'>[] {
  if (protocols.length < 2) return [];
  const groups = new Map<string, ReadProtocol[]>();
  for (const protocol of protocols) {
    const key = `${categoryOf(protocol.form)} ${segmentOf(protocol.form)}`;
    groups.set(key, [...(groups.get(key) ?? []), protocol]);
  }
  return [...groups.values()].flatMap((group): RecordOf<'fields'>[] => {
    const form = group[0]?.form ?? {};
    const category = categoryOf(form);
    const segment = segmentOf(form);
    return [
      {
        id: `${event.id}.${category.replaceAll(' ', '-')}.${segment}`.slice(-80),
        competitionId: event.id,
        category,
        segment,
        season: textOf(form.season) || seasonOf(event.date),
        date: textOf(form.date) || event.date,
        protocols: group.slice(0, 400).map((p) => without(p.form)),
      },
    ];
  });
}

const without = (form: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(form).filter(([key]) => !NAMED.includes(key)));

/** The season that holds on a day: it starts on 1 July. */
function seasonOf(date: string): string {
  const [year, month] = date.split('-').map(Number);
  const start = (month ?? 7) >= 7 ? (year ?? 0) : (year ?? 0) - 1;
  return `${start}/${String((start + 1) % 100).padStart(2, '0')}`;
}

const segmentOf = (form: Record<string, unknown>): 'short' | 'free' => (form.segment === 'short' ? 'short' : 'free');

const categoryOf = (form: Record<string, unknown>): Skater['category'] => {
  const parsed = parseCategory(textOf(form.category));
  return parsed.ok ? parsed.value : 'novice women';
};

const skaterFrom = (form: Record<string, unknown>): Skater => ({
  id: newId(),
  name: nameIn(form) || 'My skater',
  category: categoryOf(form),
  body: textOf(form.body) || null,
  nextLesson: null,
  notNow: [],
  archived: false,
});

export function eventFrom(given: ReadProtocol | undefined, events: readonly Competition[]): Competition {
  const name = textOf(given?.form.competition) || 'Event not named';
  const date = textOf(given?.form.date) || today();
  return (
    events.find((e) => e.name === name && (e.date === date || textOf(given?.form.date) === '')) ?? {
      ...emptyEvent(name, date),
    }
  );
}

const hundredths = (value: unknown): number | null => (typeof value === 'number' ? Math.round(value * 100) : null);

function recordFrom(
  form: Record<string, unknown>,
  skater: Skater,
  event: Competition,
  sheetId: string | null,
): ProtocolRecord {
  return {
    id: newId(),
    skaterId: skater.id,
    competitionId: event.id,
    sheetId,
    category: textOf(form.category) === '' ? skater.category : categoryOf(form),
    segment: segmentOf(form),
    season: textOf(form.season) || seasonOf(textOf(form.date) || event.date),
    date: textOf(form.date) || event.date,
    practice: false,
    tes: hundredths(form.tes),
    pcs: hundredths(form.pcs),
    total: hundredths(form.total),
    form,
    reader: '1',
    onHerPage: [],
    releasedAt: null,
  };
}
