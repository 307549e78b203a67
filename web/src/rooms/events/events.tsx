import { Link } from '@tanstack/react-router';
import type { Competition } from '../../data/api.ts';
import { today } from '../../data/today.ts';
import { useList } from '../../data/use.ts';
import { Asked } from '../../parts/asked.tsx';
import { Row } from '../../parts/frame.tsx';
import { day, shortDay } from '../../words/numbers.ts';

/** The calendar: events to come, their deadlines, events past with their sheets. */
export function Events() {
  const competitions = useList('competitions');
  return (
    <Asked query={competitions}>
      {(all) => {
        const date = today();
        const coming = all.filter((c) => (c.endDate ?? c.date) >= date);
        const past = all.filter((c) => (c.endDate ?? c.date) < date).toReversed();
        return (
          <>
            <Row
              about="Events"
              notes={
                <p>
                  <a href="/api/calendar.ics">Events, deadlines and freezes as a calendar file</a>
                </p>
              }
            >
              <h1>Events</h1>
              <p className="go">
                <Link to="/events/new">Add an event</Link>
              </p>
            </Row>
            <Row about="To come">
              <EventList events={coming} none="Nothing is entered yet." />
            </Row>
            <Row about="Past" aside="newest first">
              <EventList events={past} none="Nothing yet." />
            </Row>
          </>
        );
      }}
    </Asked>
  );
}

function EventList({ events, none }: { events: readonly Competition[]; none: string }) {
  const skaters = useList('skaters').data ?? [];
  const nameOf = new Map(skaters.map((s) => [s.id, s.name]));
  if (events.length === 0) return <p className="quiet">{none}</p>;
  return (
    <ul className="sums">
      {events.map((event) => (
        <li key={event.id}>
          <span className="n">{shortDay(event.date)}</span>
          <div>
            <p>
              <Link to="/events/$id" params={{ id: event.id }}>
                <b>{event.name}</b>
              </Link>
              , {event.skaters.flatMap((id) => nameOf.get(id) ?? []).join(', ') || 'nobody entered'}
            </p>
            {event.deadlines.map((d) => (
              <p key={d.what} className="quiet">
                {d.what}: {day(d.date)}
              </p>
            ))}
          </div>
        </li>
      ))}
    </ul>
  );
}
