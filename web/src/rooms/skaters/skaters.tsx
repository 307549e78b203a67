import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { api, type Competition, type Skater } from '../../data/api.ts';
import { PEOPLE_PAGE, usePeoplePages } from '../../data/people.ts';
import { today } from '../../data/today.ts';
import { useList } from '../../data/use.ts';
import { ahead, Weeks, type WeekMark } from '../../figures/weeks.tsx';
import { Row } from '../../parts/frame.tsx';
import { day, shortDay, weekday } from '../../words/numbers.ts';
import { Person } from './person-row.tsx';

/** The start: what waits today, the next eight weeks, each skater in three sentences. */
export function Skaters() {
  const pages = usePeoplePages();
  const competitions = useList('competitions');
  if (pages.data === undefined) {
    return pages.error === null ? (
      <p className="quiet">Looking it up.</p>
    ) : (
      <p className="problem" role="alert">
        {pages.error.message}
      </p>
    );
  }
  const active = pages.data.pages.flat().filter((person) => !person.skater.archived);
  if (active.length === 0 && !pages.hasNextPage) return <Empty />;
  const events = competitions.data ?? [];
  return (
    <>
      <Waiting events={events} isDemo={active.some((person) => person.skater.id.startsWith(DEMO))} />
      <Row about="Next eight weeks" wide className="ahead">
        <WeeksOf events={events} skaters={active.map((person) => person.skater)} />
      </Row>
      {active.map((person) => (
        <Person key={person.skater.id} person={person} events={events} />
      ))}
      {pages.hasNextPage && (
        <Row about="More skaters" notes={<p>“Find” reaches every skater by name.</p>}>
          <button type="button" className="btn" onClick={() => void pages.fetchNextPage()}>
            Show {PEOPLE_PAGE} more
          </button>
        </Row>
      )}
    </>
  );
}

/** Skaters of the demo season are known by the beginning of their ids. */
const DEMO = 'demo-';

interface Held {
  readonly count: number;
  readonly newest: readonly { readonly id: string; readonly name: string; readonly segment: string }[];
}

/** The first start: one thing to try now. */
function Empty() {
  return (
    <Row about="Skaters">
      <h1>Start with a sheet</h1>
      <p className="lead">
        Paste or drop a protocol: PDF, web page, text or photograph. Edgeledger reads it, checks its sums, and asks
        which skater is yours.
      </p>
      <div className="tie" style={{ marginTop: '1rem' }}>
        <Link className="btn main" to="/add">
          Add a sheet
        </Link>
        <Link className="btn" to="/skaters/new">
          Add a skater by hand
        </Link>
      </div>
    </Row>
  );
}

function Waiting({ events, isDemo }: { events: readonly Competition[]; isDemo: boolean }) {
  const date = today();
  const asked = useQuery({ queryKey: ['protocols', 'held'], queryFn: () => api.ask<Held>('/api/held') });
  const held = asked.data ?? { count: 0, newest: [] };
  const due = events
    .flatMap((e) => e.deadlines.map((d) => ({ ...d, event: e.name })))
    .filter((d) => d.date >= date)
    .toSorted((a, b) => a.date.localeCompare(b.date));
  return (
    <Row
      about={weekday(date)}
      notes={
        isDemo && (
          <p>
            Everyone here is invented, to look around. <Link to="/add">Add a sheet of your own</Link>, or{' '}
            <Link to="/settings">clear it and start your own</Link>.
          </p>
        )
      }
    >
      <h1>{day(date)}</h1>
      <ul className="sums wait" style={{ marginTop: '.75rem' }}>
        {held.count > 0 && (
          <li>
            <span className="n">{held.count}</span>
            <p>
              <b>{held.count === 1 ? 'reading is not released: ' : 'readings are not released: '}</b>
              {held.newest.map((p, i) => (
                <span key={p.id}>
                  {i > 0 && ', '}
                  <Link to="/reading/$id" params={{ id: p.id }}>
                    {p.name}’s {p.segment === 'free' ? 'free skate' : 'short program'}
                  </Link>
                </span>
              ))}
              {held.count > held.newest.length && ` and ${held.count - held.newest.length} more`}.
            </p>
          </li>
        )}
        {due.slice(0, 2).map((d) => (
          <li key={`${d.event}${d.what}`}>
            <span className="n" aria-hidden="true">
              ◇
            </span>
            <p>
              <b>{d.what}</b> on {day(d.date)}, {d.event}.
            </p>
          </li>
        ))}
        {held.count === 0 && due.length === 0 && (
          <li>
            <span className="n">0</span>
            <p>Nothing waits.</p>
          </li>
        )}
      </ul>
    </Row>
  );
}

/** Marks of events, deadlines and freezes, with the names concerned. */
function marksOf(events: readonly Competition[], skaters: readonly Skater[]): WeekMark[] {
  const nameOf = new Map(skaters.map((s) => [s.id, s.name]));
  const who = (ids: readonly string[]) => ids.flatMap((id) => nameOf.get(id) ?? []).join(', ');
  return events.flatMap((e) => [
    { date: e.date, kind: 'event' as const, what: e.name, who: who(e.skaters) },
    ...e.deadlines.map((d) => ({ date: d.date, kind: 'deadline' as const, what: d.what, who: who(d.skaters) })),
    ...(e.freeze === null
      ? []
      : [{ date: e.freeze, kind: 'deadline' as const, what: 'layout frozen', who: who(e.skaters) }]),
  ]);
}

function WeeksOf({ events, skaters }: { events: readonly Competition[]; skaters: readonly Skater[] }) {
  const marks = marksOf(events, skaters);
  const next = ahead(marks, today());
  return (
    <>
      <figure className="fig broad">
        <Weeks marks={marks} today={today()} />
      </figure>
      <ul className="sums narrow">
        {next.map((m) => (
          <li key={`${m.date}${m.what}`}>
            <span className="n">{shortDay(m.date)}</span>
            <p>
              <b>{m.what}.</b> {m.who}
            </p>
          </li>
        ))}
      </ul>
      {next.length === 0 && <p className="quiet">Nothing is entered. Events and deadlines are kept under Events.</p>}
    </>
  );
}
