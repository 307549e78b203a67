import { Link } from '@tanstack/react-router';
import type { LoggedRunThrough } from '../../../../src/forecast/index.ts';
import { practiceRecord, practiceSentence, type PracticeRecord } from '../../../../src/season/practice.ts';
import type { RunThrough, Skater } from '../../data/api.ts';
import { runThroughForms } from '../../data/run-throughs.ts';
import { PEOPLE_PAGE, usePeoplePages } from '../../data/people.ts';
import { today } from '../../data/today.ts';

import { Asked } from '../../parts/asked.tsx';
import { Row } from '../../parts/frame.tsx';
import { Why } from '../../parts/why.tsx';
import { words } from '../../words/index.ts';
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

interface SkaterPracticeProps {
  readonly skater: Skater;
  readonly runs: readonly RunThrough[];
}

/** Run-throughs and elements that are shown of one skater. */
const RUNS = 3;
const ELEMENTS = 3;

function SkaterPractice({ skater, runs }: SkaterPracticeProps) {
  const last = runs.toSorted((a, b) => b.at.localeCompare(a.at));
  const since = new Date(Date.parse(`${today()}T23:59:59`) - WEEK).toISOString();
  const thisWeek = last.filter((r) => r.at >= since);
  return (
    <Row about={skater.name} aside={skater.category}>
      {runs.length === 0 ? (
        <p className="quiet">{words.season.emptyPractice}</p>
      ) : (
        <p>
          <Why
            about={words.season.logged(thisWeek.length, thisWeek.length === RUNS_SHOWN)}
            answer={
              thisWeek.length === 0 ? (
                <p>{words.season.noneLogged}</p>
              ) : (
                <p>
                  {words.season.whyLogged} {thisWeek.map((r) => shortDay(r.at.slice(0, 10))).join(', ')}.
                </p>
              )
            }
          >
            {words.season.logged(thisWeek.length, thisWeek.length === RUNS_SHOWN)}
          </Why>
        </p>
      )}
      <ul className="sums">
        {last.slice(0, RUNS).map((run) => (
          <li key={run.id}>
            <span className="n">{shortDay(run.at.slice(0, 10))}</span>
            <p>
              {run.segment === 'free' ? 'Free skate' : 'Short program'}:{' '}
              {run.exceptions.length === 0
                ? words.season.allAsPlanned
                : run.exceptions.map((e) => `${e.code} ${e.what}`).join(', ')}
              .
            </p>
          </li>
        ))}
      </ul>
      <Habits runs={runThroughForms(runs, [])} />
      <p className="go">
        <Link className="btn" to="/practice/log/$id" params={{ id: skater.id }}>
          Log
        </Link>
      </p>
    </Row>
  );
}

/** The elements that went otherwise most often, each as a habit: “landed 7 of the last 12 in run-throughs”. */
function Habits({ runs }: { runs: readonly LoggedRunThrough[] }) {
  const codes = [...new Set(runs.flatMap((r) => r.elements))];
  const told = codes
    .map((code) => ({ code, record: practiceRecord(runs, code, today()) }))
    .filter(({ record }) => record.last.asPlanned < record.last.tried)
    .toSorted((a, b) => share(a.record) - share(b.record))
    .slice(0, ELEMENTS);
  if (told.length === 0) return null;
  return (
    <ul style={{ marginTop: '.5rem' }}>
      {told.map(({ code, record }) => (
        <li key={code}>
          <Why about={`${code}: ${practiceSentence(code, record) ?? ''}`} answer={<p>{words.season.whyCount}</p>}>
            <b className="code">{code}</b>: {practiceSentence(code, record)}
          </Why>
        </li>
      ))}
    </ul>
  );
}

const share = ({ last }: PracticeRecord): number => last.asPlanned / Math.max(1, last.tried);
