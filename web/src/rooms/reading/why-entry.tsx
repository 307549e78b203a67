import { useEffect } from 'react';
import type { LedgerEntry, Reading } from '../../../../src/reading/index.ts';
import { elementValue } from '../../../../src/scoring/index.ts';
import type { StaveEntry } from '../../figures/stave.tsx';
import { Source } from '../../parts/mark.tsx';
import { grade, points, signed } from '../../words/numbers.ts';
import { sum } from './ledger-view.ts';
import { placesOf } from './places.ts';
import type { PageProps } from './reading-page.tsx';

type Read = PageProps['read'];
type Asked = Pick<StaveEntry, 'no' | 'cause'>;

/** The question that an entry of the account answers. */
export const entryQuestion = (entry: Asked & { readonly points: number }, reading: Reading): string => {
  const element = reading.ledger.find((e) => e.no === entry.no)?.element ?? '';
  return `Why ${signed(entry.points)} for ${entry.cause}${entry.no === null ? '' : ` on element ${entry.no}, ${element}`}?`;
};

/** An entry of the account: what it is, from what, under which rule, and the source. */
export function EntryAnswer({ entry, read }: { entry: Asked; read: Read }) {
  const { reading } = read;
  const own = reading.ledger.filter((e) => e.no === entry.no && e.cause === entry.cause);
  const [first] = own;
  if (first === undefined) return null;
  const places = placesOf(own.flatMap((e) => e.evidence));
  return (
    <>
      <p>{calculation(entry, read)}</p>
      {own.map((e) => (
        <p key={e.evidence.join()}>
          Repairing this alone would bring <b className="n">{signed(e.winBack)}</b>
          {e.winBack === -e.points ? '.' : '; it differs from the share where several causes meet.'}
        </p>
      ))}
      <Grades entry={first} reading={reading} />
      <RuleOf entry={first} read={read} />
      <p>
        {first.fieldOfPlay
          ? 'Decided on the ice: it stands and cannot be protested. Judges do not publish reasons for a grade.'
          : 'Bookkeeping: it can be asked about.'}
      </p>
      {places !== '' && <p className="quiet">On the sheet: {places}.</p>}
    </>
  );
}

/** From what an entry comes: the two sides, and how their difference is shared. */
function calculation({ no, cause }: Asked, { reading, audited }: Read): string {
  if (no === null) return ofProgram(cause, reading);
  const isMissing = isPlannedOnly(reading.ledger.find((e) => e.no === no && e.cause === cause));
  const here = reading.ledger.filter((e) => e.no === no && isPlannedOnly(e) === isMissing);
  if (isMissing) {
    const code = here[0]?.element ?? 'An element';
    return `${code} was planned and is not on the sheet: ${points(-sum(here))} in the reference, nothing awarded.`;
  }
  const score = audited.elements.find((e, i) => (e.no ?? i + 1) === no)?.score ?? null;
  const all = sum(here);
  const code = here[0]?.element ?? '';
  const shares = here.map((e) => `${e.cause} ${signed(e.points)}`).join(', ');
  const sides =
    score === null
      ? `${code} has no score of its own here.`
      : `${code}: ${points(score)} awarded, ${points(score - all)} in the reference.`;
  return here.length === 1
    ? `${sides} All of the difference, ${signed(all)}, is ${cause}.`
    : `${sides} The difference, ${signed(all)}, is shared over its causes in every order and averaged: ${shares}.`;
}

/** An element that was planned and not skated is numbered by its place in the layout. */
const isPlannedOnly = (entry: LedgerEntry | undefined): boolean =>
  entry?.no != null && entry.evidence.every((path) => path.startsWith('layout'));

function ofProgram(cause: Asked['cause'], { awarded, reference, ledger }: Reading): string {
  const part = cause === 'components' ? 'pcs' : cause === 'bonus' ? null : 'deductions';
  const own = sum(ledger.filter((e) => e.no === null && e.cause === cause));
  if (part === null) return `Points that the event added: ${signed(own)}.`;
  const name = part === 'pcs' ? 'Components' : 'Deductions';
  const sides = [awarded[part], reference[part]].map((n) => (n === null ? 'not printed' : points(n)));
  return `${name}: ${sides[0]} awarded, ${sides[1]} in the reference. ${cause}: ${signed(own)}.`;
}

function Grades({ entry, reading }: { entry: LedgerEntry; reading: Reading }) {
  const note = reading.program.find((n) => n.no === entry.no && n.index !== null);
  const { grades } = entry;
  return (
    <>
      {entry.cause === 'execution' && note?.grade != null && (
        <p>
          The panel’s mean grade is {grade(note.grade)}, the reference has {grade(note.referenceGrade)}.
        </p>
      )}
      {entry.cause === 'level' && note != null && (
        <p>
          Level {note.level ?? 'not confirmed'}, in the reference level {note.referenceLevel ?? 'not known'}.
        </p>
      )}
      {grades !== undefined && (
        <p>
          {grades.min === null
            ? 'The season’s list of obliged grades is not known, so none is booked here.'
            : `The call obliges judges to take ${grades.min} to ${grades.max ?? grades.min} grades off. Booked here: ${Math.round(grades.booked * 100) / 100}. What else the grade missed is under execution.`}
        </p>
      )}
    </>
  );
}

/** The rule of the advice where there is one, else the rows of the scale of values that the element is read by. */
function RuleOf({ entry, read }: { entry: LedgerEntry; read: Read }) {
  const { reading, audited, rules } = read;
  const advice = reading.advice.find((a) => a.no === entry.no && a.cause === entry.cause);
  if (advice !== undefined && advice.sources.length > 0) return <Rule text={advice.rule} citations={advice.sources} />;
  const element = audited.elements.find((e, i) => (e.no ?? i + 1) === entry.no)?.element ?? null;
  if (element === null) return advice === undefined ? null : <p>{advice.rule}</p>;
  const { row, jumps } = elementValue(rules.values, element);
  const rows = jumps.length > 0 ? jumps.flatMap((j) => (j.row === null ? [] : [j.row])) : row === null ? [] : [row];
  const values = rows.map((r) => `${r.code} is worth ${r.base === null ? 'a value not known' : points(r.base)}`);
  const graded = row?.grades?.at(-rules.values.values.goe.max);
  const step = row === null || graded == null ? '' : ` One grade above 0 on ${row.code} brings ${points(graded)}.`;
  return (
    <Rule
      text={`${values.join('; ')}.${step}`}
      citations={[
        ...rows.map((r) => r.citation),
        ...(step === '' || row?.gradesCitation === undefined ? [] : [row.gradesCitation]),
      ]}
    />
  );
}

type Citations = Parameters<typeof Source>[0]['citation'];

/** A rule as a sentence, each of its sources once. */
export function Rule({ text, citations }: { text: string; citations: readonly Citations[] }) {
  const once = citations.filter((c, i) => citations.findIndex((o) => o.source === c.source) === i);
  return (
    <>
      {text !== '' && <p>{text}</p>}
      {once.map((citation) => (
        <p key={citation.source}>
          <Source citation={citation} />
        </p>
      ))}
    </>
  );
}

interface PanelProps {
  readonly entry: StaveEntry;
  readonly read: Read;
  readonly close: () => void;
}

/** The one panel beneath the stave. Escape closes it. */
export function WhyEntry({ entry, read, close }: PanelProps) {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key === 'Escape') close();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, [close]);
  return (
    <div className="why sheet noprint" role="status">
      <h3>{entryQuestion(entry, read.reading)}</h3>
      <div className="stack">
        <EntryAnswer entry={entry} read={read} />
      </div>
    </div>
  );
}
