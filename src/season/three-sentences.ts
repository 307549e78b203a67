import { formatElement, parseCode, withoutCalls, type Element } from '../notation/index.ts';

/** A run-through as logged: only what was other than planned. */
export interface LoggedRun {
  readonly at: string;
  readonly exceptions: readonly { readonly code: string; readonly what: string }[];
}

/** The codes of one protocol of hers. */
export interface SkatedEvent {
  /** The competition; protocols of one competition are one event. Not known: those of one day are. */
  readonly event?: string | null | undefined;
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
/** Events it takes before an element is said to stand. */
const ENOUGH = 3;

/**
 * What a coach wants to know first: what stands better than before, what slipped, what is new. Made of
 * the last ten run-throughs and the last five events; counts, never rates, and her own past only.
 *
 * @param events protocols in any order; those with an unreadable code leave that element out.
 */
export function threeSentences(events: readonly SkatedEvent[], runs: readonly LoggedRun[]): ThreeSentences {
  const lastRuns = runs.toSorted((a, b) => a.at.localeCompare(b.at)).slice(-RUNS);
  const all = wholeEvents(events);
  const lastEvents = all.slice(-EVENTS);
  return { safer: safer(lastEvents), slipped: slipped(lastEvents, lastRuns), fresh: fresh(all) };
}

/** Short program and free skate of one competition as one event; the oldest first. */
function wholeEvents(protocols: readonly SkatedEvent[]): readonly SkatedEvent[] {
  const by = new Map<string, SkatedEvent>();
  for (const [i, one] of protocols.toSorted((a, b) => a.date.localeCompare(b.date)).entries()) {
    const key = one.event ?? (one.date === '' ? `no day ${i}` : one.date);
    by.set(key, { date: one.date, codes: [...(by.get(key)?.codes ?? []), ...one.codes] });
  }
  return [...by.values()].toSorted((a, b) => a.date.localeCompare(b.date));
}

interface Counted {
  readonly name: string;
  /** Events in which it stood on the sheet, and those of them in which it had a call. */
  readonly events: number;
  readonly called: number;
}

/**
 * Every element by its name without calls. An event counts once, however often the element stood in it:
 * two spins of a kind in one program say no more of a habit than one.
 */
function counted(events: readonly SkatedEvent[]): Counted[] {
  const by = new Map<string, { events: number; called: number }>();
  const read = remembered();
  for (const { codes } of events) {
    const inEvent = new Map<string, boolean>();
    for (const code of new Set(codes)) {
      const one = read(code);
      if (one !== null) inEvent.set(one.name, one.called || inEvent.get(one.name) === true);
    }
    for (const [name, called] of inEvent) {
      const entry = by.get(name) ?? { events: 0, called: 0 };
      entry.events += 1;
      if (called) entry.called += 1;
      by.set(name, entry);
    }
  }
  return [...by].map(([name, entry]) => ({ name, ...entry }));
}

interface ReadCode {
  readonly name: string;
  readonly called: boolean;
}

/** A skater repeats her codes from event to event; each is parsed once. */
function remembered(): (code: string) => ReadCode | null {
  const known = new Map<string, ReadCode | null>();
  return (code) => {
    const before = known.get(code);
    if (before !== undefined) return before;
    const parsed = parseCode(code);
    const one = parsed.ok ? { name: nameOf(parsed.value.element), called: hasCall(parsed.value.element) } : null;
    known.set(code, one);
    return one;
  };
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
    .filter((c) => c.events >= ENOUGH && c.called === 0)
    .toSorted((a, b) => b.events - a.events)[0];
  return clean === undefined
    ? 'Nothing yet; it takes three events.'
    : `${clean.name}: no call in ${clean.events} events.`;
}

function slipped(events: readonly SkatedEvent[], runs: readonly LoggedRun[]): string {
  const exceptions = new Map<string, number>();
  // A run-through counts once, however many things went otherwise in the same element.
  for (const code of runs.flatMap((run) => [...new Set(run.exceptions.map((one) => one.code))])) {
    exceptions.set(code, (exceptions.get(code) ?? 0) + 1);
  }
  const inRuns = [...exceptions].toSorted((a, b) => b[1] - a[1])[0];
  if (inRuns !== undefined && inRuns[1] >= 2) {
    return `${inRuns[0]}: other than planned in ${inRuns[1]} of the last ${runs.length} run-throughs.`;
  }
  const called = counted(events)
    .filter((c) => c.called >= 2)
    .toSorted((a, b) => b.called - a.called)[0];
  return called === undefined
    ? 'Nothing lately.'
    : `${called.name}: called in ${called.called} of ${called.events} events.`;
}

function fresh(events: readonly SkatedEvent[]): string {
  const newest = events.at(-1);
  if (newest === undefined || events.length < 2) return 'Nothing to compare with yet.';
  const known = new Set(counted(events.slice(0, -1)).map((c) => c.name));
  const first = counted([newest]).filter((c) => !known.has(c.name));
  return first.length === 0
    ? 'The same elements as before.'
    : `${first
        .map((c) => c.name)
        .slice(0, 2)
        .join(' and ')}, for the first time at an event.`;
}
