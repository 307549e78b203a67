import { describeProblem } from '../notation/index.ts';
import { rescue } from '../programs/index.ts';
import { readKept, toldIn, skaterAdvice, type Reading } from '../reading/index.ts';
import {
  daySheet,
  plannedContent,
  practiceTargets,
  seasonReport,
  skaterPage,
  type ReportPage,
} from '../report/index.ts';
import { chooseRules, shippedLibrary, type Library } from '../rulebook/index.ts';
import { readLayout, readProtocol, type Layout, type Protocol } from '../scoring/index.ts';
import { threeSentences } from '../season/index.ts';
import type { RecordOf, Store } from '../store/index.ts';
import { ServerError } from './errors.ts';

/** Reports by what they are about: reading (a protocol), season and targets (a skater), content (a layout), day (an event). */
export const REPORT_KINDS = ['reading', 'season', 'content', 'targets', 'day'] as const;
export type ReportKind = (typeof REPORT_KINDS)[number];

/** What a report is made from: the store and the clock. */
export interface ReportSource {
  readonly store: Store;
  readonly now: () => string;
  /** Somebody's own rulebooks beside the shipped ones; absent: the shipped ones. */
  readonly library?: Library;
}

/**
 * The page of a report.
 * @throws ServerError where the record is missing, unreadable, or a reading that is not released.
 */
export const reportPage = (kind: ReportKind, id: string, source: ReportSource): Promise<ReportPage> =>
  MAKERS[kind](source, id);

const MAKERS: Readonly<Record<ReportKind, (context: ReportSource, id: string) => Promise<ReportPage>>> = {
  reading: readingPage,
  season: seasonPage,
  content: contentPage,
  targets: targetsPage,
  day: dayPage,
};

async function wanted<T>(found: Promise<T | null>, what: string): Promise<T> {
  const record = await found;
  if (record === null) throw new ServerError('record.missing', `There is no ${what} with this id.`);
  return record;
}

async function readingPage({ store, library }: ReportSource, id: string): Promise<ReportPage> {
  const record = await wanted(store.get('protocols', id), 'protocol');
  if (record.releasedAt === null)
    throw new ServerError('report.held', 'Release the reading first; then it can be printed.');
  const reading = await readingOf(store, record, library ?? shippedLibrary());
  const notes = await store.list('notes', { aboutId: id });
  const goals = await store.list('goals', { skaterId: record.skaterId });
  return skaterPage({
    reading,
    chosen: record.onHerPage,
    words: notes.find((n) => n.about === 'protocols' && n.aboutId === id && n.box === 'report')?.text ?? '',
    habits: goals.filter((g) => g.kind === 'habit' && g.state === 'open').map((g) => g.text),
  });
}

async function readingOf(store: Store, record: RecordOf<'protocols'>, library: Library): Promise<Reading> {
  const skaterId = record.skaterId;
  const made = readKept(record, {
    library,
    body: (await store.get('skaters', skaterId))?.body ?? null,
    layouts: await store.list('layouts', { skaterId }),
    others: await store.list('protocols', { skaterId }),
    told: toldIn(await store.list('notes', { aboutId: record.id }), record.id),
  });
  if (!made.ok) throw new ServerError('report.unreadable', describeProblem(made.error));
  return made.value.reading;
}

const protocolsOf = (record: RecordOf<'protocols'>): Protocol[] => {
  const protocol = readProtocol(record.form);
  return protocol.ok ? [protocol.value] : [];
};

function layoutOf(layouts: readonly RecordOf<'layouts'>[]): Layout | null {
  const current = layouts.find((l) => l.current) ?? layouts.at(-1);
  if (current === undefined) return null;
  const layout = readLayout(current.form);
  return layout.ok ? layout.value : null;
}

async function seasonPage({ store }: ReportSource, id: string): Promise<ReportPage> {
  const skater = await wanted(store.get('skaters', id), 'skater');
  const protocols = (await store.list('protocols', { skaterId: id })).filter((p) => !p.practice);
  const events = new Map((await store.list('competitions')).map((c) => [c.id, c.name]));
  const goals = await store.list('goals', { skaterId: id });
  const runs = await store.list('runthroughs', { skaterId: id });
  const texts = (state: 'open' | 'met' | 'moved') => goals.filter((g) => g.state === state).map((g) => g.text);
  const season = protocols.at(-1)?.season ?? '';
  const ofSeason = protocols.filter((p) => p.season === season);
  return seasonReport({
    name: skater.name,
    season,
    events: ofSeason.map((p) => ({
      date: p.date ?? '',
      event: events.get(p.competitionId ?? '') ?? 'an event',
      segment: p.segment,
      total: p.total,
    })),
    sentences: threeSentences(
      protocols.flatMap((p) =>
        protocolsOf(p).map((one) => ({
          event: p.competitionId,
          date: p.date ?? '',
          codes: one.elements.map((e) => e.code),
        })),
      ),
      runs,
    ),
    goalsMet: texts('met'),
    goalsOpen: texts('open'),
    goalsMoved: goals.filter((g) => g.state === 'moved').map((g) => `${g.text} (${g.movedBecause ?? 'moved'})`),
    words: '',
  });
}

async function contentPage({ store }: ReportSource, id: string): Promise<ReportPage> {
  const record = await wanted(store.get('layouts', id), 'layout');
  const skater = await wanted(store.get('skaters', record.skaterId), 'skater');
  const layout = readLayout({
    ...record.form,
    season: record.season,
    segment: record.segment,
    category: skater.category,
  });
  if (!layout.ok) throw new ServerError('report.unreadable', describeProblem(layout.error));
  return plannedContent(layout.value, { name: skater.name, event: null });
}

async function targetsPage(context: ReportSource, id: string): Promise<ReportPage> {
  const { store } = context;
  const skater = await wanted(store.get('skaters', id), 'skater');
  const newest = (await store.list('protocols', { skaterId: id })).filter((p) => p.releasedAt !== null).at(-1);
  const goals = await store.list('goals', { skaterId: id });
  const next = (await store.list('competitions')).find(
    (c) => c.skaters.includes(id) && c.date >= context.now().slice(0, 10),
  );
  return practiceTargets({
    name: skater.name,
    weeks: next?.name ?? 'the next event',
    habits: goals.filter((g) => g.kind === 'habit' && g.state === 'open').map((g) => g.text),
    targets:
      newest === undefined
        ? []
        : skaterAdvice(await readingOf(store, newest, context.library ?? shippedLibrary())).map((a) => a.text),
  });
}

async function dayPage({ store, library }: ReportSource, id: string): Promise<ReportPage> {
  const event = await wanted(store.get('competitions', id), 'event');
  const skaters = await store.list('skaters', { ids: event.skaters });
  const days = await Promise.all(
    skaters.map(async (s) => {
      const layouts = (await store.list('layouts', { skaterId: s.id })).filter((l) => l.current);
      const goals = await store.list('goals', { skaterId: s.id });
      return {
        name: s.name,
        category: s.category,
        programs: layouts.map((l) => ({
          segment: l.segment === 'free' ? 'Free skate' : 'Short program',
          codes: layoutOf([l])?.elements.map((e) => e.code) ?? [],
        })),
        planB: layouts.flatMap((l) => planB(l, s, library ?? shippedLibrary())),
        goal: goals.find((g) => g.state === 'open' && g.kind !== 'score')?.text ?? null,
      };
    }),
  );
  return daySheet(event.name, event.date, days);
}

/** The plan-B card of a layout, a line each; none where the layout or its rules cannot be read. */
function planB(record: RecordOf<'layouts'>, skater: RecordOf<'skaters'>, library: Library): string[] {
  const query = { season: record.season, category: skater.category, segment: record.segment };
  const layout = readLayout({ ...record.form, ...query });
  const rules = chooseRules(library, { ...query, body: skater.body ?? undefined });
  if (!layout.ok || !rules.ok) return [];
  const made = rescue(layout.value, rules.value);
  if (!made.ok) return [];
  const name = record.segment === 'free' ? 'free skate' : 'short program';
  return made.value.card.length === 0
    ? [`${name}: go on as planned.`]
    : made.value.card.map((line) => `${name}: ${line}`);
}
