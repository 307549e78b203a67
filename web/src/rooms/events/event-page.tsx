import { Link, useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { Button, Input, Label, TextField } from 'react-aria-components';
import { newId, type Competition } from '../../data/api.ts';
import { today } from '../../data/today.ts';
import { useList, usePut, useRecord } from '../../data/use.ts';
import { Asked } from '../../parts/asked.tsx';
import { useId } from '../../data/use-id.ts';
import { Row } from '../../parts/frame.tsx';
import { Tick } from '../../parts/tick.tsx';
import { didEdit } from '../../parts/undo.tsx';
import { SheetTotal } from '../../parts/sheet-total.tsx';
import { day } from '../../words/numbers.ts';

/** A new event: name and date are enough. */
export function NewEvent() {
  const navigate = useNavigate();
  const put = usePut('competitions');
  const [name, setName] = useState('');
  const [date, setDate] = useState(today());
  return (
    <Row about="New event">
      <h1>Add an event</h1>
      <form
        className="stack"
        style={{ maxWidth: '26rem', marginTop: '1rem' }}
        onSubmit={(submit) => {
          submit.preventDefault();
          const event = emptyEvent(name.trim(), date);
          put.mutate(event, { onSuccess: () => void navigate({ to: '/events/$id', params: { id: event.id } }) });
        }}
      >
        <TextField isRequired value={name} onChange={setName} maxLength={120} autoFocus>
          <Label className="lab">Name</Label>
          <Input className="field" />
        </TextField>
        <label>
          <span className="lab">First day</span>
          <input className="field" type="date" required value={date} onChange={(e) => setDate(e.target.value)} />
        </label>
        <Button type="submit" className="btn main" isDisabled={name.trim() === ''}>
          Add the event
        </Button>
      </form>
    </Row>
  );
}

export const emptyEvent = (name: string, date: string): Competition => ({
  id: newId(),
  name,
  date,
  endDate: null,
  body: null,
  panelSize: null,
  video: 'unknown',
  purpose: null,
  skaters: [],
  deadlines: [],
  freeze: null,
  note: null,
});

export function EventPage() {
  const id = useId();
  const event = useRecord('competitions', id);
  return <Asked query={event}>{(e) => <EventOf key={e.id} event={e} />}</Asked>;
}

const VIDEO = { yes: 'with video review', no: 'without video review', unknown: 'video review not known' } as const;
const PURPOSE = { 'try-out': 'try-out', counts: 'counts', peak: 'peak of the season' } as const;

function EventOf({ event }: { event: Competition }) {
  const put = usePut('competitions');
  const skaters = useList('skaters').data ?? [];
  const protocols = useList('protocols', { competitionId: event.id }).data ?? [];
  const change = (part: Partial<Competition>, said: string) =>
    put.mutate({ ...event, ...part }, { onSuccess: () => didEdit(said) });
  const nameOf = new Map(skaters.map((s) => [s.id, s.name]));
  return (
    <>
      <Row
        about="Event"
        notes={
          <p>
            Context matters for trends: an event with three judges and no video gives few edge and rotation calls.
            Readings are compared within like events.
          </p>
        }
      >
        <h1>{event.name}</h1>
        <p className="meta">
          {day(event.date)} · {VIDEO[event.video]}
          {event.purpose === null ? '' : ` · ${PURPOSE[event.purpose]}`}
        </p>
        <p className="go">
          <Link to="/events/$id/day" params={{ id: event.id }}>
            Day sheet
          </Link>
          <Link to="/add">Add a sheet</Link>
        </p>
      </Row>
      <Row about="Skaters">
        <div className="stack">
          {skaters
            .filter((s) => !s.archived)
            .map((s) => (
              <Tick
                key={s.id}
                checked={event.skaters.includes(s.id)}
                onChange={(on) =>
                  change(
                    { skaters: on ? [...event.skaters, s.id] : event.skaters.filter((x) => x !== s.id) },
                    on ? `${s.name} is entered.` : `${s.name} is taken off.`,
                  )
                }
              >
                {s.name}
              </Tick>
            ))}
        </div>
      </Row>
      <Row about="Sheets">
        {protocols.length === 0 ? (
          <p className="quiet">No sheet of this event yet.</p>
        ) : (
          <ul className="sums">
            {protocols.map((p) => (
              <li key={p.id}>
                <span className="n">
                  <SheetTotal protocol={p} />
                </span>
                <p>
                  <Link to="/reading/$id" params={{ id: p.id }}>
                    {nameOf.get(p.skaterId) ?? 'a skater'}, {p.segment === 'free' ? 'free skate' : 'short program'}
                  </Link>
                </p>
              </li>
            ))}
          </ul>
        )}
      </Row>
      <Row about="Deadlines">
        <Deadlines event={event} change={change} />
      </Row>
      <Row about="Context">
        <div className="stack" style={{ maxWidth: '22rem' }}>
          <label>
            <span className="lab">Video review</span>
            <select
              className="field"
              value={event.video}
              onChange={(e) => change({ video: e.target.value as Competition['video'] }, 'Video review entered.')}
            >
              {Object.entries(VIDEO).map(([key, name]) => (
                <option key={key} value={key}>
                  {name}
                </option>
              ))}
            </select>
          </label>
          <label>
            <span className="lab">Purpose</span>
            <select
              className="field"
              value={event.purpose ?? ''}
              onChange={(e) =>
                change(
                  { purpose: e.target.value === '' ? null : (e.target.value as keyof typeof PURPOSE) },
                  'Purpose entered.',
                )
              }
            >
              <option value="">not said</option>
              {Object.entries(PURPOSE).map(([key, name]) => (
                <option key={key} value={key}>
                  {name}
                </option>
              ))}
            </select>
          </label>
          <label>
            <span className="lab">Layout frozen from</span>
            <input
              className="field"
              type="date"
              max={event.date}
              value={event.freeze ?? ''}
              onChange={(e) => change({ freeze: e.target.value === '' ? null : e.target.value }, 'Freeze entered.')}
            />
          </label>
        </div>
      </Row>
    </>
  );
}

function Deadlines({
  event,
  change,
}: {
  event: Competition;
  change: (part: Partial<Competition>, said: string) => void;
}) {
  const [what, setWhat] = useState('planned content due');
  const [date, setDate] = useState('');
  return (
    <>
      <ul style={{ listStyle: 'none', padding: 0 }}>
        {event.deadlines.map((d) => (
          <li key={d.what + d.date}>
            <p>
              {d.what}: {day(d.date)}{' '}
              <button
                type="button"
                className="linklike"
                onClick={() => change({ deadlines: event.deadlines.filter((x) => x !== d) }, `Removed: ${d.what}.`)}
              >
                Remove
              </button>
            </p>
          </li>
        ))}
      </ul>
      <form
        className="tie"
        onSubmit={(submit) => {
          submit.preventDefault();
          if (date !== '')
            change({ deadlines: [...event.deadlines, { what, date, skaters: event.skaters }] }, `Added: ${what}.`);
        }}
      >
        <TextField value={what} onChange={setWhat} maxLength={80} aria-label="What is due">
          <Input className="field" />
        </TextField>
        <input
          className="field"
          style={{ width: 'auto' }}
          type="date"
          aria-label="Date"
          value={date}
          onChange={(e) => setDate(e.target.value)}
        />
        <Button type="submit" className="btn" isDisabled={date === ''}>
          Add
        </Button>
      </form>
    </>
  );
}
