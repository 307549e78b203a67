import { useState } from 'react';
import type { Pronouns } from '../../../../src/notation/index.ts';
import type { Reading } from '../../../../src/reading/index.ts';
import { Balance } from '../../figures/balance.tsx';
import { Stave, type StaveEntry } from '../../figures/stave.tsx';
import { Row } from '../../parts/frame.tsx';
import { Marks } from '../../parts/mark.tsx';
import { Why } from '../../parts/why.tsx';
import { capital } from '../../words/capital.ts';
import { day, points, signed } from '../../words/numbers.ts';
import { SheetNotes, Slips } from './agreement.tsx';
import { Causes } from './causes.tsx';
import { piecesOf, staveElements, staveEntries, sum, winsOf } from './ledger-view.ts';
import { Letters } from './letters.tsx';
import { Notes } from './notes.tsx';
import { OnTop } from './on-top.tsx';
import type { PageProps } from './reading-page.tsx';
import { Release } from './release.tsx';
import { ToldByThePanel } from './told.tsx';
import { Train, TrainNotes } from './train.tsx';
import { WhyEntry } from './why-entry.tsx';
import { AwardedAnswer, DifferenceAnswer, ReferenceAnswer, SumAnswer } from './why-total.tsx';

const segmentName = (segment: string): string => (segment === 'free' ? 'free skate' : 'short program');

/** The reading for the coach: wins first, then the ledger, the letters, what to train, notes. */
export function ForTheCoach({ record, skater, competition, notes, read, who }: PageProps) {
  const { reading } = read;
  return (
    <>
      <Row about="Reading" aside="for the coach" notes={<SheetNotes read={read} />}>
        <h1>
          {skater.name}’s {segmentName(record.segment)}
          {competition === null ? '' : `, ${competition.name}`}
        </h1>
        <p className="meta">
          {[
            record.date === null ? record.season : day(record.date),
            record.category,
            reading.head.judges === 0 ? '' : `${reading.head.judges} judges`,
            video(competition),
          ]
            .filter((t) => t !== '')
            .join(' · ')}
        </p>
        <Lead read={read} who={who} />
        <Release record={record} name={skater.name} who={who} />
      </Row>
      <Slips reading={reading} />
      <Row about="What came on top" aside={<span className="n">{signed(sum(winsOf(reading.ledger)))}</span>}>
        <OnTop read={read} />
      </Row>
      <Row about="The ledger" aside="by cause" wide>
        <figure className="fig">
          <Balance pieces={piecesOf(reading.ledger)} />
          <figcaption>
            <b>The balance.</b> Pieces are as long as their points; what overhangs is the difference. Causes are named
            by what one would train, so a call carries the grades that it obliges. Judges do not publish reasons for a
            grade.
          </figcaption>
        </figure>
      </Row>
      <Where read={read} />
      {reading.feedback.length > 0 && (
        <Row about="What the letters say">
          <Letters read={read} who={who} />
        </Row>
      )}
      <Row about="What to train" aside="what repairing it alone would bring" notes={<TrainNotes who={who} />}>
        <Train record={record} read={read} who={who} />
      </Row>
      {reading.questions.length > 0 && (
        <Row
          about="Questions for the critique"
          notes={
            <p>
              Made from what the letters leave open. Calls, levels and grades stand; these are questions, not protests.
            </p>
          }
        >
          <ol className="ask">
            {reading.questions.map((q) => (
              <li key={q}>{q}</li>
            ))}
          </ol>
        </Row>
      )}
      <Row
        about="Told by the panel"
        notes={
          <p>
            What the panel told you at the critique is evidence beside the letters: a number of turns leaves only the
            accounts that allow it. It is yours alone and never printed.
          </p>
        }
      >
        <ToldByThePanel record={record} notes={notes} read={read} />
      </Row>
      {reading.field.length > 0 && <Field reading={reading} />}
      <Row about="Notes" notes={<p>Write nothing you would not read aloud to the family.</p>}>
        <Notes about="protocols" id={record.id} who={who} />
      </Row>
      <Row about="Marks">
        <Marks />
        <p className="small quiet">
          Also without a mark: printed on the sheet. Rules: {reading.head.rulebook}. Later rules may differ.
        </p>
      </Row>
    </>
  );
}

const reference = (kind: Reading['reference']['kind'], who: Pronouns): string =>
  ({
    layout: `The planned layout, with its planned levels and ${who.hersOf} usual grades, comes to`,
    usual: `${capital(who.hersOf)} usual, element by element, comes to`,
    clean: 'Every element as attempted, at the highest level and grade 0, comes to',
  })[kind];

/** The key sentence: awarded, reference, difference; every number says why. */
function Lead({ read, who }: Pick<PageProps, 'read' | 'who'>) {
  const { reading } = read;
  const { awarded, ledger, difference } = reading;
  const lost = ledger.filter((e) => e.points < 0);
  const wins = winsOf(ledger);
  return (
    <p className="lead">
      <b className="n">
        <Why about={`Why ${points(awarded.total)}?`} answer={<AwardedAnswer read={read} />}>
          {points(awarded.total)}
        </Why>
      </b>{' '}
      awarded. {reference(reading.reference.kind, who)}{' '}
      <b className="n">
        <Why about={`Why ${points(reading.reference.total)}?`} answer={<ReferenceAnswer read={read} />}>
          {points(reading.reference.total)}
        </Why>
      </b>
      . The difference is{' '}
      <b className="n">
        <Why about={`Why ${signed(difference)}?`} answer={<DifferenceAnswer read={read} />}>
          {signed(difference)}
        </Why>
      </b>
      :{' '}
      <Why about={`Why ${points(sum(wins))} on top?`} answer={<SumAnswer entries={wins} />}>
        {points(sum(wins))}
      </Why>{' '}
      came on top,{' '}
      <Why about={`Why ${points(-sum(lost))} missing?`} answer={<SumAnswer entries={lost} />}>
        {points(-sum(lost))}
      </Why>{' '}
      {reading.reference.kind === 'clean' ? 'is room to grow' : 'is missing'}.
    </p>
  );
}

/** The stave along the music; on a phone, and for whoever prefers it, the same as a list. */
function Where({ read }: Pick<PageProps, 'read'>) {
  const [asked, setAsked] = useState<StaveEntry | null>(null);
  const entries = staveEntries(read.reading);
  const chosen = entries.find((e) => same(e, asked)) ?? null;
  return (
    <Row about="Where in the program" aside={<span className="noprint">Press any number to ask why.</span>} wide>
      <figure className="fig broadp">
        <div className="broad">
          <Stave
            elements={staveElements(read.protocol)}
            entries={entries}
            chosen={chosen}
            onAsk={(entry) => setAsked((now) => (same(now, entry) ? null : entry))}
          />
        </div>
        <figcaption>
          <b>The stave.</b> One line for each cause, along the music. What stands on a line came on top; what hangs from
          it is missing. A torn end means “at least”.
        </figcaption>
      </figure>
      {chosen !== null && <WhyEntry entry={chosen} read={read} close={() => setAsked(null)} />}
      <div className="narrow">
        <Causes read={read} />
      </div>
      <details className="drawer broad">
        <summary>The same as a list</summary>
        <Causes read={read} />
      </details>
    </Row>
  );
}

const same = (a: StaveEntry | null, b: StaveEntry | null): boolean =>
  a !== null && b !== null && a.no === b.no && a.cause === b.cause;

/** Her place in the field of the event, anonymous. */
function Field({ reading }: { reading: Reading }) {
  return (
    <Row about="In this field" aside="anonymous">
      {reading.field.map((line) => (
        <p key={line.family + line.measure}>
          {line.text}{' '}
          <Why
            about="From what?"
            answer={
              <p>
                Counted over the {line.skaters} skaters of this event, category and segment whose sheets are kept
                without names: {line.above} had more, {line.equal} as much. Nothing is shown below ten skaters.
              </p>
            }
          >
            From what?
          </Why>
        </p>
      ))}
    </Row>
  );
}

const video = (competition: PageProps['competition']): string =>
  competition === null || competition.video === 'unknown'
    ? ''
    : competition.video === 'yes'
      ? 'video review'
      : 'no video review';
