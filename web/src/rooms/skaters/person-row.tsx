import { Link } from '@tanstack/react-router';
import type { Competition, PersonLine, Skater } from '../../data/api.ts';
import { today } from '../../data/today.ts';
import { Asks, Why } from '../../parts/why.tsx';
import { words } from '../../words/index.ts';
import { day, shortDay } from '../../words/numbers.ts';

interface PersonProps {
  readonly person: PersonLine;
  readonly events: readonly Competition[];
}

/** One skater on the start page: three sentences, three ways in, the next date. */
export function Person({ person: { skater, newest, sentences }, events }: PersonProps) {
  return (
    <section className="row person">
      <h2 className="side">
        <Link to="/skaters/$id" params={{ id: skater.id }}>
          {skater.name}
        </Link>
        <span className="small quiet">{skater.category}</span>
      </h2>
      <div className="body">
        <Asks>
          <Sentences {...sentences} />
        </Asks>
        <p className="go">
          <Link className="btn" to="/practice/log/$id" params={{ id: skater.id }}>
            Log
          </Link>
          <Link className="btn" to="/planb/$id" params={{ id: skater.id }}>
            Plan B
          </Link>
          {newest !== null && (
            <Link className="btn" to="/reading/$id" params={{ id: newest }}>
              Reading
            </Link>
          )}
        </p>
      </div>
      <aside className="notes next">
        <NextDate skater={skater} events={events} />
      </aside>
    </section>
  );
}

export function Sentences({ safer, slipped, fresh }: PersonLine['sentences']) {
  return (
    <dl className="three">
      <dt>Safer now</dt>
      <dd>
        <Why about="Why safer now?" answer={<p>{words.season.whySafer}</p>}>
          {safer}
        </Why>
      </dd>
      <dt>Slipped</dt>
      <dd>
        <Why about="Why slipped?" answer={<p>{words.season.whySlipped}</p>}>
          {slipped}
        </Why>
      </dd>
      <dt>New</dt>
      <dd>
        <Why about="Why new?" answer={<p>{words.season.whyFresh}</p>}>
          {fresh}
        </Why>
      </dd>
    </dl>
  );
}

/** Her next event and what is due before it. */
export function NextDate({ skater, events }: { skater: Skater; events: readonly Competition[] }) {
  const date = today();
  const next = events.filter((e) => e.skaters.includes(skater.id) && e.date >= date).toSorted(byDate)[0];
  if (next === undefined) return <p className="quiet">No event is entered.</p>;
  const due = next.deadlines.filter((d) => d.skaters.includes(skater.id) && d.date >= date).toSorted(byDate)[0];
  return (
    <p>
      <b>{day(next.date)}</b>
      <span style={{ display: 'block' }}>{next.name}</span>
      <span className="quiet">
        {due === undefined ? 'Nothing is due.' : `${due.what}: ${shortDay(due.date)}.`}
        {next.freeze !== null && next.freeze >= date && ` Layout frozen from ${shortDay(next.freeze)}.`}
      </span>
    </p>
  );
}

const byDate = (a: { readonly date: string }, b: { readonly date: string }): number => a.date.localeCompare(b.date);
