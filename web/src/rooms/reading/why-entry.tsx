import { useEffect, useRef } from 'react';
import type { Reading } from '../../../../src/reading/index.ts';
import type { StaveEntry } from '../../figures/stave.tsx';
import { signed } from '../../words/numbers.ts';

/** The one panel beneath the figure: what the number is, from what, under which rule. Escape closes it. */
export function WhyEntry({ entry, reading, close }: { entry: StaveEntry; reading: Reading; close: () => void }) {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key === 'Escape') close();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, [close]);
  const ledger = reading.ledger.filter((e) => e.no === entry.no && e.cause === entry.cause);
  const advice = reading.advice.find((a) => a.no === entry.no && a.cause === entry.cause);
  const first = ledger[0];
  const grades = first?.grades;
  return (
    <div className="why noprint" role="status" ref={place}>
      <h3>
        Why {signed(entry.points)} for {entry.cause}
        {entry.no === null ? '' : ` on element ${entry.no}, ${first?.element ?? ''}`}?
      </h3>
      <div className="whys">
        <div>
          {ledger.map((e) => (
            <p key={e.evidence.join()}>
              <b className="n">{signed(e.points)}</b> in the account; repairing this alone would bring{' '}
              <b className="n">{signed(e.winBack)}</b>. The two differ where several causes meet on one element.
            </p>
          ))}
        </div>
        <div>
          {grades !== undefined && (
            <p>
              {grades.min === null
                ? 'The season’s list of obliged grades is not known, so none is booked here.'
                : `The call obliges judges to take ${grades.min} to ${grades.max ?? grades.min} grades off. Booked here: ${Math.round(grades.booked * 100) / 100}. What else the grade missed is under execution.`}
            </p>
          )}
          <p>
            {advice?.rule ??
              'Difference between the sheet and the reference, shared over the causes in every order and averaged.'}
          </p>
        </div>
        <div>
          <p>
            {first?.fieldOfPlay === true
              ? 'Decided on the ice: it stands and cannot be protested. Judges do not publish reasons for a grade.'
              : 'Bookkeeping: it can be asked about.'}
          </p>
          <p className="quiet">On the sheet: {[...new Set(ledger.flatMap((e) => e.evidence))].join(', ')}.</p>
        </div>
      </div>
    </div>
  );
}
