import type { LedgerEntry, Reading } from '../../../../src/reading/index.ts';
import { Why } from '../../parts/why.tsx';
import { grade, signed } from '../../words/numbers.ts';
import { sum, winsOf } from './ledger-view.ts';
import type { PageProps } from './reading-page.tsx';
import { EntryAnswer, entryQuestion } from './why-entry.tsx';
import { SumAnswer } from './why-total.tsx';

/** So many are told one by one; the rest together. */
const TOLD = 6;

/** What came on top, largest first. */
export function OnTop({ read }: { read: PageProps['read'] }) {
  const { reading } = read;
  const wins = winsOf(reading.ledger);
  const rest = wins.slice(TOLD);
  if (wins.length === 0) return <p>Nothing above the reference today.</p>;
  return (
    <ul className="sums">
      {wins.slice(0, TOLD).map((e) => (
        <li key={`${e.no} ${e.element} ${e.cause}`}>
          <span className="n won">
            <Why about={entryQuestion(e, reading)} answer={<EntryAnswer entry={e} read={read} />}>
              {signed(e.points)}
            </Why>
          </span>
          <p>
            <b>{e.element ?? e.cause}.</b> {winSentence(e, reading)}
          </p>
        </li>
      ))}
      {rest.length > 0 && (
        <li>
          <span className="n won">
            <Why about={`Why ${signed(sum(rest))}?`} answer={<SumAnswer entries={rest} />}>
              {signed(sum(rest))}
            </Why>
          </span>
          <p>{rest.length === 1 ? 'One smaller one.' : `${rest.length} smaller ones.`}</p>
        </li>
      )}
    </ul>
  );
}

/** Why an entry came on top, from the sheet and the reference. */
function winSentence(e: LedgerEntry, reading: Reading): string {
  const note = reading.program.find((n) => n.no === e.no && n.index !== null);
  if (e.no === null || note === undefined) return 'Above the reference.';
  if (e.cause === 'execution' && note.grade !== null) {
    return `Panel grade ${grade(note.grade)}; the reference is ${grade(note.referenceGrade)}.`;
  }
  if (e.cause === 'level') return `Level ${note.level ?? ''}, reference ${note.referenceLevel ?? ''}.`;
  return `${e.cause}, element ${e.no}.`;
}
