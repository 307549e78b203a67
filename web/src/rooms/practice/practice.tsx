import { Link } from '@tanstack/react-router';
import type { RunThrough, Skater } from '../../data/api.ts';
import { PEOPLE_PAGE, usePeoplePages } from '../../data/people.ts';
import { today } from '../../data/today.ts';

import { Asked } from '../../parts/asked.tsx';
import { Row } from '../../parts/frame.tsx';
import { shortDay } from '../../words/numbers.ts';

/** The server gives her ten newest run-throughs. */
const RUNS_SHOWN = 10;
const WEEK = 7 * 86_400_000;

/** Run-throughs of the last weeks, by skater: what stood and what was other than planned. */
export function Practice() {
  const pages = usePeoplePages();
  return (
    <Asked query={pages}>
      {({ pages: all }) => (
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
            .flat()
            .filter(({ skater }) => !skater.archived)
            .map(({ skater, runs }) => (
              <SkaterPractice key={skater.id} skater={skater} runs={runs} />
            ))}
          {pages.hasNextPage && (
            <Row about="More skaters" notes={<p>“Find” reaches every skater by name.</p>}>
              <button type="button" className="btn" onClick={() => void pages.fetchNextPage()}>
                Show {PEOPLE_PAGE} more
              </button>
            </Row>
          )}
        </>
      )}
    </Asked>
  );
}

function SkaterPractice({ skater, runs }: { skater: Skater; runs: readonly RunThrough[] }) {
  const since = new Date(Date.parse(`${today()}T23:59:59`) - WEEK).toISOString();
  const thisWeek = runs.filter((r) => r.at >= since).length;
  return (
    <Row about={skater.name} aside={skater.category}>
      <p>
        {thisWeek === RUNS_SHOWN ? `${RUNS_SHOWN} or more` : thisWeek} {thisWeek === 1 ? 'run-through' : 'run-throughs'}{' '}
        logged in the last seven days.
      </p>
      <ul className="sums">
        {runs.slice(0, 3).map((run) => (
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
