import { useQuery } from '@tanstack/react-query';
import { api, type Skater } from '../../data/api.ts';
import { useList, useRecord } from '../../data/use.ts';
import { Asked } from '../../parts/asked.tsx';
import { useId } from '../../data/use-id.ts';
import { Row } from '../../parts/frame.tsx';
import { day } from '../../words/numbers.ts';
import { plannedOf } from '../practice/log.tsx';

/** One page for the day: every skater of the event with layout and one goal. For printing. */
export function DaySheet() {
  const id = useId();
  const event = useRecord('competitions', id);
  const attending = useQuery({
    queryKey: ['people', 'attending', id],
    queryFn: () => api.people({ attending: id, limit: '400' }),
  });
  return (
    <Asked query={event}>
      {(e) => (
        <>
          <Row about="Day sheet">
            <h1>{e.name}</h1>
            <p className="meta">{day(e.date)}</p>
            <p className="noprint">
              <button type="button" className="btn" onClick={() => window.print()}>
                Print
              </button>
            </p>
          </Row>
          {attending.data?.map(({ skater }) => (
            <SkaterDay key={skater.id} skater={skater} />
          ))}
        </>
      )}
    </Asked>
  );
}

function SkaterDay({ skater }: { skater: Skater }) {
  const layouts = (useList('layouts', { skaterId: skater.id }).data ?? []).filter((l) => l.current);
  const goal = (useList('goals', { skaterId: skater.id }).data ?? []).find(
    (g) => g.state === 'open' && g.kind !== 'score',
  );
  return (
    <Row about={skater.name} aside={skater.category}>
      {layouts.map((l) => (
        <p key={l.id}>
          <b>{l.segment === 'free' ? 'Free skate' : 'Short program'}:</b>{' '}
          <span className="code" style={{ whiteSpace: 'normal' }}>
            {plannedOf(l)
              .map((p) => p.code)
              .join(' · ')}
          </span>
        </p>
      ))}
      {layouts.length === 0 && <p className="quiet">No layout entered.</p>}
      {goal !== undefined && (
        <p>
          <b>Today:</b> {goal.text}
        </p>
      )}
    </Row>
  );
}
