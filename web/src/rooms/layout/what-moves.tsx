import type { KnownForecast, Move } from '../../data/forecast.worker.ts';
import { Why } from '../../parts/why.tsx';
import { words } from '../../words/index.ts';
import { clock, tenths } from '../../words/numbers.ts';
import type { PlanNote } from './notes.ts';

interface MovesProps {
  readonly known: KnownForecast;
  /** null: still being worked out. */
  readonly moves: readonly Move[] | null;
  readonly notes: readonly PlanNote[];
}

/** Less than a tenth part of the spread is not worth naming. */
const NAMED = 0.1;
const MOST = 3;

/** Which element moves the range most: a sentence, no dial. */
export function WhatMoves({ known, moves, notes }: MovesProps) {
  const nameOf = (no: number): string => {
    const note = notes[no - 1];
    return note === undefined ? `element ${no}` : `the ${note.code} at ${clock(note.start)}`;
  };
  const most = known.byElement.toSorted((a, b) => b.share - a.share).filter((e) => e.share >= NAMED);
  const best = moves?.toSorted((a, b) => b.points - a.points)[0];
  const named = most.slice(0, MOST).map((e) => nameOf(e.no));
  return (
    <p style={{ marginTop: '.75rem' }}>
      <Why
        about="What moves it most?"
        answer={
          <>
            <p>
              The share of each element in the spread of the whole, and what one more day of twenty that it comes off as
              planned would bring on average. Everything else stays as it is.
            </p>
            <ul className="sums">
              {known.byElement.map((e) => {
                const move = moves?.find((m) => m.no === e.no);
                return (
                  <li key={e.no}>
                    <span className="n">{move === undefined ? '' : `+${tenths(move.points)}`}</span>
                    <p>
                      <b>{nameOf(e.no)}</b>: {words.layout.partOfSpread(tenths(10 * Math.max(0, e.share)))}
                      {e.fixed ? `; ${words.layout.oneWay.toLowerCase()}` : ''}
                    </p>
                  </li>
                );
              })}
            </ul>
          </>
        }
      >
        {named.length === 0 ? words.layout.spreadEven : words.layout.spreadFrom(named)}
      </Why>{' '}
      {best === undefined ? (
        <span className="quiet">{moves === null ? words.layout.workingOut : ''}</span>
      ) : (
        words.layout.oneDayMore(nameOf(best.no), tenths(best.points))
      )}
    </p>
  );
}
