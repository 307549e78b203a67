import { Link } from '@tanstack/react-router';
import type { Competition, LayoutRecord, ProtocolRecord, Skater } from '../../data/api.ts';
import { useList, usePut, useRecord } from '../../data/use.ts';
import { Asked } from '../../parts/asked.tsx';
import { useThreeSentences } from '../../data/sentences.ts';
import { useId } from '../../data/use-id.ts';
import { Row } from '../../parts/frame.tsx';
import { SheetTotal } from '../../parts/sheet-total.tsx';
import { day } from '../../words/numbers.ts';
import { Goals } from './goals.tsx';
import { NextDate, Sentences } from './person-row.tsx';
import { Trend } from './trend.tsx';

/** A skater's Season: three sentences, next date, goals, layouts and plans, sheets, best scores in words. */
export function PersonPage() {
  const id = useId();
  const skater = useRecord('skaters', id);
  return <Asked query={skater}>{(who) => <Season skater={who} />}</Asked>;
}

function Season({ skater }: { skater: Skater }) {
  const competitions = useList('competitions').data ?? [];
  const protocols = useList('protocols', { skaterId: skater.id }).data ?? [];
  const layouts = useList('layouts', { skaterId: skater.id }).data ?? [];
  const plans = useList('plans', { skaterId: skater.id }).data ?? [];
  return (
    <>
      <Row about="Season" aside={skater.category} notes={<NextDate skater={skater} events={competitions} />}>
        <h1>{skater.name}</h1>
        <div style={{ marginTop: '1rem' }}>
          <Sentences {...useThreeSentences(skater, protocols)} />
        </div>
      </Row>
      <Row about="Readings" aside="newest first">
        <Readings protocols={protocols} competitions={competitions} />
      </Row>
      <Row
        about="Trend"
        notes={
          <p>
            Her own past only. Events with and without video review are told apart: calls differ for that reason alone.
          </p>
        }
      >
        <Trend protocols={protocols} competitions={competitions} />
      </Row>
      <Row about="Program" aside="layouts and plans">
        <Programs skater={skater} layouts={layouts} />
        <ul className="sums" style={{ marginTop: '1rem' }}>
          {plans.map((plan) => (
            <li key={plan.id}>
              <span className="n quiet">{plan.kind === 'steps' ? 'steps' : 'spins'}</span>
              <p>
                <Link to={plan.kind === 'steps' ? '/steps/$id' : '/spins/$id'} params={{ id: plan.id }}>
                  {plan.title}
                </Link>
              </p>
            </li>
          ))}
        </ul>
        <p className="go">
          <Link to="/skaters/$id/new-steps" params={{ id: skater.id }}>
            New step plan
          </Link>
          <Link to="/skaters/$id/new-spins" params={{ id: skater.id }}>
            New spin plan
          </Link>
        </p>
      </Row>
      <Row about="Goals" notes={<p>Effort and habit first. Scores and places are not in our hands.</p>}>
        <Goals skater={skater} protocols={protocols} />
      </Row>
      <Row about="Best so far">
        <Best protocols={protocols} competitions={competitions} />
      </Row>
      <Row about="Record">
        <Archive skater={skater} />
      </Row>
    </>
  );
}

const newestFirst = (a: ProtocolRecord, b: ProtocolRecord): number => (b.date ?? '').localeCompare(a.date ?? '');
const segmentName = (segment: string): string => (segment === 'free' ? 'free skate' : 'short program');

interface ListProps {
  readonly protocols: readonly ProtocolRecord[];
  readonly competitions: readonly Competition[];
}

function Readings({ protocols, competitions }: ListProps) {
  if (protocols.length === 0) {
    return (
      <p>
        No sheet yet. <Link to="/add">Add one</Link>: PDF, web page, text or photograph.
      </p>
    );
  }
  const nameOf = new Map(competitions.map((c) => [c.id, c.name]));
  return (
    <ul className="sums">
      {protocols.toSorted(newestFirst).map((p) => (
        <li key={p.id}>
          <span className="n">
            <SheetTotal protocol={p} />
          </span>
          <p>
            <Link to="/reading/$id" params={{ id: p.id }}>
              {segmentName(p.segment)}, {nameOf.get(p.competitionId ?? '') ?? 'event not named'}
            </Link>{' '}
            <span className="quiet">
              {p.date === null ? p.season : day(p.date)}
              {p.releasedAt === null ? ' · not released' : ''}
            </span>
          </p>
        </li>
      ))}
    </ul>
  );
}

function Programs({ skater, layouts }: { skater: Skater; layouts: readonly LayoutRecord[] }) {
  const current = layouts.filter((l) => l.current);
  return (
    <>
      <ul className="sums">
        {current.map((layout) => (
          <li key={layout.id}>
            <span className="n quiet">{layout.segment}</span>
            <p>
              <Link to="/layout/$id" params={{ id: layout.id }}>
                {layout.title}
              </Link>
              , version {layout.version}
            </p>
          </li>
        ))}
      </ul>
      <p className="go">
        <Link to="/skaters/$id/new-layout" params={{ id: skater.id }}>
          New layout
        </Link>
        <Link to="/planb/$id" params={{ id: skater.id }}>
          Plan B
        </Link>
        <Link to="/practice/log/$id" params={{ id: skater.id }}>
          Log a run-through
        </Link>
      </p>
    </>
  );
}

/** Best scores lower down and in words. */
function Best({ protocols, competitions }: ListProps) {
  const nameOf = new Map(competitions.map((c) => [c.id, c.name]));
  const best = (['short', 'free'] as const).flatMap((segment) => {
    const own = protocols.filter((p) => p.segment === segment && p.total !== null && !p.practice);
    const top = own.toSorted((a, b) => (b.total ?? 0) - (a.total ?? 0))[0];
    return top?.total == null
      ? []
      : [{ segment, top, where: nameOf.get(top.competitionId ?? '') ?? '', date: top.date }];
  });
  if (best.length === 0) return <p className="quiet">Nothing yet.</p>;
  return (
    <ul className="sums">
      {best.map((b) => (
        <li key={b.segment}>
          <span className="n">
            <SheetTotal protocol={b.top} />
          </span>
          <p>
            is her best {segmentName(b.segment)} so far{b.where === '' ? '' : `, at ${b.where}`}
            {b.date === null ? '' : `, ${day(b.date)}`}.
          </p>
        </li>
      ))}
    </ul>
  );
}

function Archive({ skater }: { skater: Skater }) {
  const put = usePut('skaters');
  return (
    <p className="quiet">
      The whole record can be taken along: everything is exported as one file under{' '}
      <Link to="/settings">Settings and backup</Link>.{' '}
      <button type="button" className="linklike" onClick={() => put.mutate({ ...skater, archived: !skater.archived })}>
        {skater.archived ? 'Bring her back to the start page' : 'Take her off the start page'}
      </button>
    </p>
  );
}
