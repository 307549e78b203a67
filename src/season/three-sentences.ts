import { formatElement, parseCode, withoutCalls, type Element } from '../notation/index.ts';

/** A run-through as logged: only what was other than planned. */
export interface LoggedRun {
  readonly at: string;
  readonly exceptions: readonly { readonly code: string; readonly what: string }[];
}

/** A competition of hers: the codes of one protocol. */
export interface SkatedEvent {
  readonly date: string;
  readonly codes: readonly string[];
}

export interface ThreeSentences {
  readonly safer: string;
  readonly slipped: string;
  readonly fresh: string;
}

const RUNS = 10;
const EVENTS = 5;

/**
 * What a coach wants to know first: what stands better than before, what slipped, what is new. Made of
 * the last ten run-throughs and the last five protocols; counts, never rates, and her own past only.
 *
 * @param events protocols in any order; those with an unreadable code leave that element out.
 */
export function threeSentences(events: readonly SkatedEvent[], runs: readonly LoggedRun[]): ThreeSentences {
  const lastRuns = runs.toSorted((a, b) => a.at.localeCompare(b.at)).slice(-RUNS);
  const lastEvents = events.toSorted((a, b) => a.date.localeCompare(b.date)).slice(-EVENTS);
  return { safer: safer(lastEvents), slipped: slipped(lastEvents, lastRuns), fresh: fresh(events) };
}

interface Counted {
  readonly name: string;
  readonly times: number;
  readonly called: number;
}

/** Every element by its name without calls: how often it stood on a sheet, how often with a call. */
function counted(events: readonly SkatedEvent[]): Counted[] {
  const by = new Map<string, { times: number; called: number }>();
  for (const [code, times] of timesOf(events.flatMap((e) => e.codes))) {
    const parsed = parseCode(code);
    if (!parsed.ok) continue;
    const name = nameOf(parsed.value.element);
    const entry = by.get(name) ?? { times: 0, called: 0 };
    entry.times += times;
    if (hasCall(parsed.value.element)) entry.called += times;
    by.set(name, entry);
  }
  return [...by].map(([name, entry]) => ({ name, ...entry }));
}

/** A skater repeats her codes from event to event; each is parsed once. */
function timesOf(codes: readonly string[]): ReadonlyMap<string, number> {
  const times = new Map<string, number>();
  for (const code of codes) times.set(code, (times.get(code) ?? 0) + 1);
  return times;
}

const nameOf = (element: Element): string => formatElement(withoutCalls(element)).replace(/(?<=Sp|Sq|St)[B1-4]$/, '');

function hasCall(element: Element): boolean {
  if (element.kind === 'jump') {
    return element.jumps.some((j) => j.rotation !== null || j.edge === 'e' || j.noValue);
  }
  return element.noValue || (element.kind === 'spin' && element.v > 0);
}

function safer(events: readonly SkatedEvent[]): string {
  const clean = counted(events)
    .filter((c) => c.times >= 3 && c.called === 0)
    .toSorted((a, b) => b.times - a.times)[0];
  return clean === undefined
    ? 'Nothing yet; it takes three events.'
    : `${clean.name}: no call in ${clean.times} events.`;
}

function slipped(events: readonly SkatedEvent[], runs: readonly LoggedRun[]): string {
  const exceptions = new Map<string, number>();
  for (const { code } of runs.flatMap((r) => r.exceptions)) exceptions.set(code, (exceptions.get(code) ?? 0) + 1);
  const inRuns = [...exceptions].toSorted((a, b) => b[1] - a[1])[0];
  if (inRuns !== undefined && inRuns[1] >= 2) {
    return `${inRuns[0]}: other than planned in ${inRuns[1]} of the last ${runs.length} run-throughs.`;
  }
  const called = counted(events)
    .filter((c) => c.called >= 2)
    .toSorted((a, b) => b.called - a.called)[0];
  return called === undefined
    ? 'Nothing lately.'
    : `${called.name}: called in ${called.called} of ${called.times} events.`;
}

function fresh(events: readonly SkatedEvent[]): string {
  const sorted = events.toSorted((a, b) => a.date.localeCompare(b.date));
  const newest = sorted.at(-1);
  if (newest === undefined || sorted.length < 2) return 'Nothing to compare with yet.';
  const known = new Set(counted(sorted.slice(0, -1)).map((c) => c.name));
  const first = counted([newest]).filter((c) => !known.has(c.name));
  return first.length === 0
    ? 'The same elements as before.'
    : `${first
        .map((c) => c.name)
        .slice(0, 2)
        .join(' and ')}, for the first time at an event.`;
}
