import { Link } from '@tanstack/react-router';
import type { RunThrough, Skater } from '../../data/api.ts';
import { today } from '../../data/today.ts';
import { useList } from '../../data/use.ts';
import { Asked } from '../../parts/asked.tsx';
import { Row } from '../../parts/frame.tsx';
import { shortDay } from '../../words/numbers.ts';

const WEEK = 7 * 86_400_000;

/** Run-throughs of the last weeks, by skater: what stood and what was other than planned. */
export function Practice() {
  const skaters = useList('skaters');
  const runs = useList('runthroughs').data ?? [];
  return (
    <Asked query={skaters}>
      {(all) => (
        <>
          <Row
            about="Practice"
            notes={
              <>
                <p>Counts what was logged; a low number does not mean rest.</p>
                <p>
                  No number of safe jump repetitions is published. Decide with coach, parents and, in pain or growth,
                  medical staff.
                </p>
                <p>Pain: stop and tell a parent and coach; see a clinician. This tool cannot judge it.</p>
              </>
            }
          >
            <h1>Practice</h1>
            <p className="lead">
              Log a run-through at the boards: one press when all is as planned, exceptions only when not.
            </p>
          </Row>
          {all
            .filter((s) => !s.archived)
            .map((s) => (
              <SkaterPractice key={s.id} skater={s} runs={runs.filter((r) => r.skaterId === s.id)} />
            ))}
        </>
      )}
    </Asked>
  );
}

function SkaterPractice({ skater, runs }: { skater: Skater; runs: readonly RunThrough[] }) {
  const last = runs.toSorted((a, b) => b.at.localeCompare(a.at));
  const since = new Date(Date.parse(`${today()}T23:59:59`) - WEEK).toISOString();
  const thisWeek = last.filter((r) => r.at >= since).length;
  return (
    <Row about={skater.name} aside={skater.category}>
      <p>
        {thisWeek} {thisWeek === 1 ? 'run-through' : 'run-throughs'} logged in the last seven days.
      </p>
      <ul className="sums">
        {last.slice(0, 3).map((run) => (
          <li key={run.id}>
            <span className="n">{shortDay(run.at.slice(0, 10))}</span>
            <p>
              {run.segment === 'free' ? 'Free skate' : 'Short program'}:{' '}
              {run.exceptions.length === 0
                ? 'all as planned'
                : run.exceptions.map((e) => `${e.code} ${e.what}`).join(', ')}
              .
            </p>
          </li>
        ))}
      </ul>
      <p className="go">
        <Link className="btn" to="/practice/log/$id" params={{ id: skater.id }}>
          Log
        </Link>
      </p>
    </Row>
  );
}
