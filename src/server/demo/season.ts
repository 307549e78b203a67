import type { Segment } from '../../notation/index.ts';
import { pdfOfText } from '../../report/index.ts';
import { chooseRules, shippedLibrary, type ChosenRules } from '../../rulebook/index.ts';
import { writeProtocol, type Protocol } from '../../scoring/index.ts';
import { hashOf, type RecordOf, type Sheet, type SheetStore, type Store } from '../../store/index.ts';
import { CAST, DEMO_SEASON, DEMO_TODAY, EVENTS, type DemoEvent, type DemoSkater } from './cast.ts';
import { chanceFrom, seedOf } from './chance.ts';
import { sheetText } from './sheet-text.ts';
import { skate } from './skate.ts';

/** An invented season in full: five skaters, eight events, sheets, layouts, plans, run-throughs, goals. */
export interface DemoSeason {
  readonly protocols: readonly Protocol[];
  readonly sheets: readonly Sheet[];
}

/** Every program of the season's past events, with its sheet: the newest event as PDF, older ones as text. */
export async function demoSeason(): Promise<DemoSeason> {
  const protocols = pastEvents().flatMap((event) =>
    CAST.filter((who) => event.skaters.includes(who.id)).flatMap((who) =>
      segmentsOf(who).map((segment) => skate(who, event, segment, rulesFor(who, segment, event.date))),
    ),
  );
  const newest = pastEvents().at(-1)?.name;
  const sheets = await Promise.all(
    protocols.map(async (p) => {
      const text = sheetText(p);
      return p.competition === newest
        ? sheetOf(p, 'pdf', 'application/pdf', await pdfOfText(text))
        : sheetOf(p, 'txt', 'text/plain', new TextEncoder().encode(text));
    }),
  );
  return { protocols, sheets };
}

/** Writes the demo season into a store; what was there under the same ids is replaced. */
export async function loadDemo(store: Store, sheetStore: SheetStore): Promise<void> {
  const { protocols, sheets } = await demoSeason();
  for (const sheet of sheets) await sheetStore.keep(sheet);
  await store.put('skaters', CAST.map(skaterRecord));
  await store.put('competitions', EVENTS.map(eventRecord));
  await store.put('protocols', protocols.map(protocolRecord));
  await store.put('layouts', CAST.flatMap(layoutRecords));
  await store.put('plans', CAST.map(planRecord));
  await store.put('runthroughs', CAST.flatMap(runThroughs));
  await store.put('goals', CAST.flatMap(goalRecords));
  await store.put('settings', [{ id: 'today', value: DEMO_TODAY }]);
}

const pastEvents = (): readonly DemoEvent[] => EVENTS.filter((e) => e.date < DEMO_TODAY);
const segmentsOf = (who: DemoSkater): Segment[] =>
  (['short', 'free'] as const).filter((s) => who.programs[s] !== undefined);

function rulesFor(who: DemoSkater, segment: Segment, date: string): ChosenRules {
  const query = { body: who.body, season: DEMO_SEASON, date, category: who.category, segment };
  const chosen = chooseRules(shippedLibrary(), query);
  if (!chosen.ok) throw new Error(`No rules for the demo's ${who.category}: ${chosen.error.found}`);
  return chosen.value;
}

const sheetId = (p: Protocol): string => `sheet-${p.id ?? ''}`;

const sheetOf = (p: Protocol, ending: string, media: string, bytes: Uint8Array): Sheet => ({
  id: sheetId(p),
  name: `${p.id ?? 'sheet'}.${ending}`,
  media,
  sha256: hashOf(bytes),
  bytes,
  receivedAt: `${p.date ?? DEMO_TODAY}T18:00:00.000Z`,
});

const skaterRecord = (who: DemoSkater): RecordOf<'skaters'> => ({
  id: who.id,
  name: who.name,
  category: who.category,
  body: who.body,
  nextLesson: '2025-12-04',
  notNow: [],
  archived: false,
});

const eventRecord = (e: DemoEvent): RecordOf<'competitions'> => ({
  id: e.id,
  name: e.name,
  date: e.date,
  endDate: null,
  body: null,
  panelSize: e.judges,
  video: e.video,
  purpose: e.purpose,
  skaters: [...e.skaters],
  deadlines: e.deadlines.map(([what, date]) => ({ what, date, skaters: [...e.skaters] })),
  freeze: e.freeze,
  note: null,
});

function protocolRecord(p: Protocol): RecordOf<'protocols'> {
  const who = CAST.find((s) => s.name === p.skater);
  const event = EVENTS.find((e) => e.name === p.competition);
  if (who === undefined || event === undefined || p.segment === null) throw new Error(`The demo lost ${p.id ?? ''}.`);
  return {
    id: p.id ?? '',
    skaterId: who.id,
    competitionId: event.id,
    sheetId: sheetId(p),
    category: who.category,
    segment: p.segment,
    season: DEMO_SEASON,
    date: p.date,
    practice: false,
    tes: p.tes,
    pcs: p.pcs,
    total: p.total,
    form: writeProtocol(p),
    reader: 'demo',
    onHerPage: [],
    releasedAt: event.date < '2025-11-20' ? `${event.date}T20:00:00.000Z` : null,
  };
}

/** The layouts that were skated, and the version that is being tried where there is one. */
const layoutRecords = (who: DemoSkater): RecordOf<'layouts'>[] =>
  segmentsOf(who).flatMap((segment) => {
    const id = `layout-${who.id}-${segment}`;
    const program = who.programs[segment] ?? [];
    if (segment === 'short' || who.draft === undefined) return [layoutRecord(who, segment, id, 1, program, true)];
    const changed = new Map(who.draft.map(([code, start]) => [start, code]));
    const draft = program.map(([code, start]) => [changed.get(start) ?? code, start] as const);
    return [layoutRecord(who, segment, `${id}-1`, 1, program, false), layoutRecord(who, segment, id, 2, draft, true)];
  });

const layoutRecord = (
  who: DemoSkater,
  segment: Segment,
  id: string,
  version: number,
  program: readonly (readonly [code: string, start: number])[],
  current: boolean,
): RecordOf<'layouts'> => ({
  id,
  skaterId: who.id,
  segment,
  season: DEMO_SEASON,
  version,
  title: segment === 'free' ? 'Free skate' : 'Short program',
  current,
  form: {
    season: DEMO_SEASON,
    category: who.category,
    segment,
    body: who.body,
    elements: program.map(([code, start]) => ({ code, start })),
  },
  savedAt: version === 1 ? '2025-08-30T09:00:00.000Z' : '2025-12-02T18:00:00.000Z',
});

const planRecord = (who: DemoSkater): RecordOf<'plans'> => ({
  id: `steps-${who.id}`,
  skaterId: who.id,
  kind: 'steps',
  title: 'Step sequence',
  segment: who.programs.short === undefined ? 'free' : 'short',
  season: DEMO_SEASON,
  line: who.steps,
  form: { estimates: { left: true, right: true, body: true } },
  savedAt: '2025-08-30T09:00:00.000Z',
});

const WHAT = ['opened', 'short', 'fell', 'stepped out', 'no tail'] as const;
const RUNS = 12;
const DAY = 86_400_000;

function runThroughs(who: DemoSkater): RecordOf<'runthroughs'>[] {
  const chance = chanceFrom(seedOf(`runs ${who.id}`));
  const planned = who.programs.free ?? [];
  return Array.from({ length: RUNS }, (_, i) => ({
    id: `run-${who.id}-${i}`,
    skaterId: who.id,
    layoutId: `layout-${who.id}-free`,
    segment: 'free' as const,
    at: new Date(Date.parse(`${DEMO_TODAY}T16:00:00.000Z`) - (RUNS - i) * 3 * DAY).toISOString(),
    planned: planned.map(([code]) => code),
    exceptions: planned.flatMap(([code], k) =>
      /^\d/.test(code) && chance.is(0.22)
        ? [{ no: k + 1, code, what: WHAT[Math.floor(chance.next() * WHAT.length)] ?? 'short' }]
        : [],
    ),
    note: null,
  }));
}

function goalRecords(who: DemoSkater): RecordOf<'goals'>[] {
  const base = { skaterId: who.id, target: null, on: null, movedBecause: null } as const;
  return [
    { ...base, id: `goal-${who.id}-1`, kind: 'habit', text: who.habit, due: '2026-01-10', state: 'open' },
    {
      ...base,
      id: `goal-${who.id}-2`,
      kind: 'level',
      text: 'Step sequence one level up, twice in a row',
      due: '2026-01-10',
      state: 'open',
    },
    {
      ...base,
      id: `goal-${who.id}-3`,
      kind: 'quality',
      text: 'Every landing held while counting to two',
      due: '2025-11-08',
      state: 'met',
    },
  ];
}
