import { Link } from '@tanstack/react-router';
import {
  HOW_WE_TRAIN,
  skaterAdvice,
  skaterDate,
  skaterEnd,
  skaterTitle,
  skaterWins,
} from '../../../../src/reading/index.ts';
import { useList } from '../../data/use.ts';
import { Row } from '../../parts/frame.tsx';
import { adviceKey } from './train.tsx';
import type { PageProps } from './reading-page.tsx';

/** Her page: what went up first, then at most two things still to win, the score last. Reading age ten. */
export function HerPage({ record, skater, notes, read, who }: PageProps) {
  const { reading } = read;
  const told = notes.find((n) => n.about === 'protocols' && n.aboutId === record.id && n.box === 'report')?.text ?? '';
  const habits = (useList('goals', { skaterId: skater.id }).data ?? []).filter(
    (g) => g.state === 'open' && g.kind === 'habit',
  );
  const wins = skaterWins(reading);
  const chosen =
    record.onHerPage.length === 0
      ? reading.advice
      : reading.advice.filter((a) => record.onHerPage.includes(adviceKey(a)));
  const still = skaterAdvice({ ...reading, advice: chosen });
  return (
    <div className="plain" style={{ display: 'contents' }}>
      <div className="bar noprint">
        <span>
          {record.releasedAt === null
            ? `You see ${who.hersOf} page before ${who.she} ${who.plural ? 'do' : 'does'}. It is not released.`
            : 'Released.'}
        </span>
        <span className="tie">
          <Link to="/reading/$id" params={{ id: record.id }}>
            Back to your reading
          </Link>
          {record.releasedAt !== null && (
            <>
              <button type="button" className="linklike" onClick={() => window.print()}>
                Print
              </button>
              <a href={`/api/reports/reading/${record.id}`}>PDF</a>
            </>
          )}
        </span>
      </div>
      <Row about={skater.name}>
        <h1>{skaterTitle(reading)}</h1>
        <p className="meta">{skaterDate(reading)}</p>
        {told !== '' && <p className="lead">{told}</p>}
      </Row>
      <Row about="What went up">
        {wins.length === 0 ? <p>You skated your whole program in front of judges.</p> : <List lines={wins} />}
      </Row>
      <Row about="Still to win">
        {still.length === 0 ? (
          <p>Your coach will tell you at your next lesson.</p>
        ) : (
          <List lines={still.map((a) => a.text)} />
        )}
      </Row>
      {habits.length > 0 && (
        <Row about="Your plan">
          {habits.map((g) => (
            <p key={g.id}>{g.text}</p>
          ))}
        </Row>
      )}
      <Row about="Your words">
        <div className="writing" />
        <div className="writing" />
      </Row>
      <Row about="The score">
        <p>{skaterEnd(reading)}</p>
        <p className="small quiet">{HOW_WE_TRAIN}</p>
      </Row>
    </div>
  );
}

function List({ lines }: { lines: readonly string[] }) {
  return (
    <ul className="stack">
      {lines.map((line) => (
        <li key={line}>
          <p>{line}</p>
        </li>
      ))}
    </ul>
  );
}
