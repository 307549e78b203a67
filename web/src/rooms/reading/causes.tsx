import { Swatch } from '../../figures/patterns.tsx';
import { Why } from '../../parts/why.tsx';
import { signed } from '../../words/numbers.ts';
import { causesIn, staveEntries, sum } from './ledger-view.ts';
import type { PageProps } from './reading-page.tsx';
import { EntryAnswer, entryQuestion } from './why-entry.tsx';
import { SumAnswer } from './why-total.tsx';

/** The stave as a list: cause, element, points; every number says why. */
export function Causes({ read }: { read: PageProps['read'] }) {
  const { reading } = read;
  const entries = staveEntries(reading);
  const codeOf = (no: number | null): string =>
    no === null ? 'whole program' : `${no} ${reading.ledger.find((l) => l.no === no)?.element ?? ''}`;
  return (
    <ul className="causes">
      {causesIn(reading.ledger).map((cause) => {
        const own = entries.filter((e) => e.cause === cause);
        const all = sum(own);
        return (
          <li key={cause}>
            <div className="h">
              <Swatch cause={cause} side={all < 0 ? 'L' : 'W'} />
              <span>{cause}</span>
              <span className={`n ${all < 0 ? 'lost' : 'won'}`}>
                {own.length === 1 ? (
                  signed(all)
                ) : (
                  <Why
                    about={`Why ${signed(all)} for ${cause}?`}
                    answer={<SumAnswer entries={reading.ledger.filter((e) => e.cause === cause && e.points !== 0)} />}
                  >
                    {signed(all)}
                  </Why>
                )}
              </span>
            </div>
            {own.map((e) => (
              <div className="i" key={e.no ?? 'whole'}>
                <span className="code">{codeOf(e.no)}</span>
                <span />
                <span className={`n ${e.points < 0 ? 'lost' : 'won'}`}>
                  <Why about={entryQuestion(e, reading)} answer={<EntryAnswer entry={e} read={read} />}>
                    {e.atLeast ? 'at least ' : ''}
                    {signed(e.points)}
                  </Why>
                </span>
              </div>
            ))}
          </li>
        );
      })}
    </ul>
  );
}
