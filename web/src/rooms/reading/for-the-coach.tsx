import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { Button, Dialog, DialogTrigger, Modal } from 'react-aria-components';
import type { Advice, LedgerEntry, Reading } from '../../../../src/reading/index.ts';
import type { ProtocolRecord } from '../../data/api.ts';
import { usePut } from '../../data/use.ts';
import { Balance } from '../../figures/balance.tsx';
import { Swatch } from '../../figures/patterns.tsx';
import { Stave, type StaveEntry } from '../../figures/stave.tsx';
import { Row } from '../../parts/frame.tsx';
import { Tick } from '../../parts/tick.tsx';
import { didEdit } from '../../parts/undo.tsx';
import { day, grade, points, signed } from '../../words/numbers.ts';
import { Letters } from './letters.tsx';
import { causesIn, piecesOf, staveElements, staveEntries, sum, winsOf } from './ledger-view.ts';
import { Notes } from './notes.tsx';
import type { PageProps } from './reading-page.tsx';
import { WhyEntry } from './why-entry.tsx';

const REFERENCE: Readonly<Record<Reading['reference']['kind'], string>> = {
  layout: 'The planned layout, with its planned levels and her usual grades, comes to',
  usual: 'Her usual, element by element, comes to',
  clean: 'Every element as attempted, at the highest level and grade 0, comes to',
};

const segmentName = (segment: string): string => (segment === 'free' ? 'free skate' : 'short program');

/** The reading for the coach: wins first, then the ledger, the letters, what to train, notes. */
export function ForTheCoach({ record, skater, competition, read }: PageProps) {
  const { reading, protocol } = read;
  const [asked, setAsked] = useState<StaveEntry | null>(null);
  const wins = winsOf(reading.ledger);
  const pieces = piecesOf(reading.ledger);
  const ask = (entry: StaveEntry) => setAsked((now) => (same(now, entry) ? null : entry));
  const entries = staveEntries(reading);
  const chosen = entries.find((e) => same(e, asked)) ?? null;
  return (
    <>
      <Row about="Reading" aside="for the coach" notes={<SheetNotes reading={reading} />}>
        <h1>
          {skater.name}’s {segmentName(record.segment)}
          {competition === null ? '' : `, ${competition.name}`}
        </h1>
        <p className="meta">
          {[
            record.date === null ? record.season : day(record.date),
            record.category,
            judges(reading),
            video(competition),
          ]
            .filter((t) => t !== '')
            .join(' · ')}
        </p>
        <p className="lead">
          <b className="n">{points(reading.awarded.total)}</b> awarded. {REFERENCE[reading.reference.kind]}{' '}
          <b className="n">{points(reading.reference.total)}</b>. The difference is{' '}
          <b className="n">{signed(reading.difference)}</b>: {points(sum(wins))} came on top,{' '}
          {points(-sum(reading.ledger.filter((e) => e.points < 0)))}{' '}
          {reading.reference.kind === 'clean' ? 'is room to grow' : 'is missing'}.
        </p>
        <Release record={record} name={skater.name} />
      </Row>
      <Slips reading={reading} />
      <Row about="What came on top" aside={<span className="n">{signed(sum(wins))}</span>}>
        {wins.length === 0 ? (
          <p>Nothing above the reference today.</p>
        ) : (
          <ul className="sums">
            {wins.slice(0, 6).map((e) => (
              <li key={keyOf(e)}>
                <span className="n won">{signed(e.points)}</span>
                <p>
                  <b>{e.element ?? e.cause}.</b> {winSentence(e, reading)}
                </p>
              </li>
            ))}
            {wins.length > 6 && (
              <li>
                <span className="n won">{signed(sum(wins.slice(6)))}</span>
                <p>{wins.length === 7 ? 'One smaller one.' : `${wins.length - 6} smaller ones.`}</p>
              </li>
            )}
          </ul>
        )}
      </Row>
      <Row about="The ledger" aside="by cause" wide>
        <figure className="fig">
          <Balance pieces={pieces} />
          <figcaption>
            <b>The balance.</b> Pieces are as long as their points; what overhangs is the difference. Causes are named
            by what one would train, so a call carries the grades that it obliges. Judges do not publish reasons for a
            grade.
          </figcaption>
        </figure>
      </Row>
      <Row about="Where in the program" aside={<span className="noprint">Press any number to ask why.</span>} wide>
        <figure className="fig broadp">
          <div className="broad">
            <Stave elements={staveElements(protocol)} entries={entries} chosen={chosen} onAsk={ask} />
          </div>
          <figcaption>
            <b>The stave.</b> One line for each cause, along the music. What stands on a line came on top; what hangs
            from it is missing. A torn end means “at least”.
          </figcaption>
        </figure>
        {chosen !== null && <WhyEntry entry={chosen} reading={reading} close={() => setAsked(null)} />}
        <div className="narrow">
          <Causes reading={reading} onAsk={ask} chosen={chosen} />
        </div>
        <details className="drawer broad">
          <summary>The same as a list</summary>
          <Causes reading={reading} onAsk={ask} chosen={chosen} />
        </details>
      </Row>
      {reading.feedback.length > 0 && (
        <Row about="What the letters say">
          <Letters feedback={reading.feedback} />
        </Row>
      )}
      <Row about="What to train" aside="what repairing it alone would bring" notes={<TrainNotes />}>
        <Train record={record} advice={reading.advice} />
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
      {reading.field.length > 0 && (
        <Row about="In this field" aside="anonymous">
          {reading.field.map((line) => (
            <p key={line.family + line.measure}>{line.text}</p>
          ))}
        </Row>
      )}
      <Row about="Notes" notes={<p>Write nothing you would not read aloud to the family.</p>}>
        <Notes about="protocols" id={record.id} />
      </Row>
      <Row about="Marks">
        <p className="small quiet">
          m: from memory, not read in a published text. p: provisional, the season’s text was not seen. Without a mark:
          published and read, or printed on the sheet. Rules: {reading.head.rulebook}. Later rules may differ.
        </p>
      </Row>
    </>
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

const same = (a: StaveEntry | null, b: StaveEntry | null): boolean =>
  a !== null && b !== null && a.no === b.no && a.cause === b.cause;
const keyOf = (e: LedgerEntry): string => `${e.no} ${e.element} ${e.cause}`;
const judges = (reading: Reading): string => (reading.head.judges === 0 ? '' : `${reading.head.judges} judges`);
const video = (competition: PageProps['competition']): string =>
  competition === null || competition.video === 'unknown'
    ? ''
    : competition.video === 'yes'
      ? 'video review'
      : 'no video review';

/** One quiet line when the figures agree; what does not agree is told in words, politely. */
function SheetNotes({ reading }: { reading: Reading }) {
  const wrong = reading.findings.filter((f) => f.kind === 'calculation' || f.kind === 'method');
  return (
    <>
      <p>
        <span className={`n fact ${wrong.length === 0 ? 'proved' : ''}`} style={{ fontSize: '1.125rem' }}>
          {points(reading.awarded.total)}
        </span>
      </p>
      {wrong.length === 0 ? (
        <p>Recomputed from codes, calls, marks and factors: all {reading.checked} printed figures agree.</p>
      ) : (
        <p>
          <b>{wrong.length === 1 ? 'One figure does' : `${wrong.length} figures do`} not agree.</b> See “Ask today”.
        </p>
      )}
      {reading.warnings.map((w) => (
        <p key={w} className="quiet">
          {w}
        </p>
      ))}
    </>
  );
}

function Slips({ reading }: { reading: Reading }) {
  const asks = reading.findings;
  if (asks.length === 0) return null;
  return (
    <Row
      about="Ask today"
      notes={
        <p>
          Calls, levels and grades stand and cannot be protested. Your event’s announcement and your federation’s
          current rulebook decide who may ask, how, by when and for what fee.
        </p>
      }
    >
      <ul className="stack">
        {asks.map((f) => (
          <li key={`${f.kind}${f.at}`} className="problem">
            <p>{f.message}</p>
          </li>
        ))}
      </ul>
    </Row>
  );
}

/** Nothing reaches skater or family before the coach releases it: one deliberate press. */
function Release({ record, name }: { record: ProtocolRecord; name: string }) {
  const put = usePut('protocols');
  const release = (at: string | null) => {
    put.mutate({ ...record, releasedAt: at });
    didEdit(at === null ? 'Taken back: only you can see it.' : `Released to ${name}.`);
  };
  return (
    <div className="held">
      <p>
        {record.releasedAt === null ? (
          <>
            <b>Not released.</b> Nobody but you can see this. Suggested: at her next lesson.
          </>
        ) : (
          <>
            <b>Released</b> {day(record.releasedAt.slice(0, 10))}. Her page can be printed and shown.
          </>
        )}
      </p>
      <div className="tie">
        <Link className="btn" to="/reading/$id/hers" params={{ id: record.id }}>
          See her page
        </Link>
        {record.releasedAt === null ? (
          <DialogTrigger>
            <Button className="btn main">Release to {name}</Button>
            <Modal className="modal" isDismissable>
              <Dialog role="alertdialog" className="box stack">
                {({ close }) => (
                  <>
                    <h3>Release this reading to {name}?</h3>
                    <p>
                      {name} and her family may then see her page: what went up, at most two things still to win, and
                      your words in “In the report”. Your private notes, the ledger and all chances stay with you.
                    </p>
                    <div className="tie">
                      <Button
                        className="btn main"
                        onPress={() => {
                          release(new Date().toISOString());
                          close();
                        }}
                      >
                        Release
                      </Button>
                      <Button className="btn" onPress={close}>
                        Not yet
                      </Button>
                    </div>
                  </>
                )}
              </Dialog>
            </Modal>
          </DialogTrigger>
        ) : (
          <Button className="btn" onPress={() => release(null)}>
            Take it back
          </Button>
        )}
      </div>
    </div>
  );
}

interface CausesProps {
  readonly reading: Reading;
  readonly chosen: StaveEntry | null;
  readonly onAsk: (entry: StaveEntry) => void;
}

/** The stave as a list: cause, element, points. */
function Causes({ reading, chosen, onAsk }: CausesProps) {
  const entries = staveEntries(reading);
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
              <span className={`n ${all < 0 ? 'lost' : 'won'}`}>{signed(all)}</span>
            </div>
            {own.map((e) => (
              <div className="i" key={e.no ?? 'whole'}>
                <span className="code">{codeOf(reading, e)}</span>
                <span />
                <span className={`n ${e.points < 0 ? 'lost' : 'won'}`}>
                  <button type="button" className="ask-why" aria-expanded={same(e, chosen)} onClick={() => onAsk(e)}>
                    {e.atLeast ? 'at least ' : ''}
                    {signed(e.points)}
                  </button>
                </span>
              </div>
            ))}
          </li>
        );
      })}
    </ul>
  );
}

const codeOf = (reading: Reading, e: StaveEntry): string =>
  e.no === null ? 'whole program' : `${e.no} ${reading.ledger.find((l) => l.no === e.no)?.element ?? ''}`;

function Train({ record, advice }: { record: ProtocolRecord; advice: readonly Advice[] }) {
  const put = usePut('protocols');
  const set = (key: string, chosen: boolean) => {
    const onHerPage = chosen ? [...record.onHerPage, key].slice(-2) : record.onHerPage.filter((k) => k !== key);
    put.mutate({ ...record, onHerPage });
  };
  if (advice.length === 0) return <p>Nothing is missing against the reference.</p>;
  return (
    <ul className="train">
      {advice.map((a) => {
        const key = adviceKey(a);
        const chosen = record.onHerPage.includes(key);
        return (
          <li key={key}>
            <span className="n">
              {signed(a.points)}
              {a.atLeast && <span className="small"> or more</span>}
            </span>
            <div>
              <p>{a.text}</p>
              <p className="quiet small">{a.rule}</p>
              {a.beside.map((b) => (
                <p className="quiet small" key={b}>
                  {b}
                </p>
              ))}
            </div>
            <Tick checked={chosen} disabled={!chosen && record.onHerPage.length >= 2} onChange={(on) => set(key, on)}>
              on her page
            </Tick>
          </li>
        );
      })}
    </ul>
  );
}

/** Names one piece of advice for the record: element and cause. */
export const adviceKey = (a: Advice): string => `${a.no ?? 'all'}-${a.cause}`;

function TrainNotes() {
  return (
    <>
      <p>Each number is what repairing that one thing alone would bring. They do not add up.</p>
      <p>At most two are on her page; to change, take one off first.</p>
      <p>More attempts of a jump? Decide with coach, parents and, in pain or growth, medical staff.</p>
    </>
  );
}
