import { Link } from '@tanstack/react-router';
import type { Competition, ProtocolRecord, Skater } from '../../data/api.ts';
import { today } from '../../data/today.ts';
import { useList } from '../../data/use.ts';
import { ahead, Weeks, type WeekMark } from '../../figures/weeks.tsx';
import { Asked } from '../../parts/asked.tsx';
import { Row } from '../../parts/frame.tsx';
import { day, shortDay } from '../../words/numbers.ts';
import { Person } from './person-row.tsx';

/** The start: what waits today, the next eight weeks, each skater in three sentences. */
export function Skaters() {
  const skaters = useList('skaters');
  const competitions = useList('competitions');
  const protocols = useList('protocols');
  return (
    <Asked query={skaters}>
      {(all) => {
        const active = all.filter((s) => !s.archived);
        if (active.length === 0) return <Empty />;
        const events = competitions.data ?? [];
        return (
          <>
            <Waiting skaters={active} protocols={protocols.data ?? []} events={events} />
            <Row about="Next eight weeks" wide className="ahead">
              <WeeksOf events={events} skaters={active} />
            </Row>
            {active.map((skater) => (
              <Person
                key={skater.id}
                skater={skater}
                events={events}
                protocols={(protocols.data ?? []).filter((p) => p.skaterId === skater.id)}
              />
            ))}
          </>
        );
      }}
    </Asked>
  );
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

interface WaitingProps {
  readonly skaters: readonly Skater[];
  readonly protocols: readonly ProtocolRecord[];
  readonly events: readonly Competition[];
}

function Waiting({ skaters, protocols, events }: WaitingProps) {
  const date = today();
  const names = new Map(skaters.map((s) => [s.id, s]));
  const held = protocols.filter((p) => p.releasedAt === null && names.has(p.skaterId));
  const due = events
    .flatMap((e) => e.deadlines.map((d) => ({ ...d, event: e.name })))
    .filter((d) => d.date >= date)
    .toSorted((a, b) => a.date.localeCompare(b.date));
  return (
    <Row about={new Date(`${date}T12:00:00`).toLocaleDateString(undefined, { weekday: 'long' })}>
      <h1>{day(date)}</h1>
      <ul className="sums wait" style={{ marginTop: '.75rem' }}>
        {held.length > 0 && (
          <li>
            <span className="n">{held.length}</span>
            <p>
              <b>{held.length === 1 ? 'reading is not released: ' : 'readings are not released: '}</b>
              {held.slice(-3).map((p, i) => (
                <span key={p.id}>
                  {i > 0 && ', '}
                  <Link to="/reading/$id" params={{ id: p.id }}>
                    {names.get(p.skaterId)?.name}’s {p.segment === 'free' ? 'free skate' : 'short program'}
                  </Link>
                </span>
              ))}
              {held.length > 3 && ` and ${held.length - 3} more`}.
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
        {held.length === 0 && due.length === 0 && (
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
