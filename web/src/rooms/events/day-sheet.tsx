import type { Skater } from '../../data/api.ts';
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
  const skaters = useList('skaters').data ?? [];
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
          {skaters
            .filter((s) => e.skaters.includes(s.id))
            .map((s) => (
              <SkaterDay key={s.id} skater={s} />
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
