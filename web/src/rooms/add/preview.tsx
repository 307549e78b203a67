import { useMemo, useState } from 'react';
import { Button } from 'react-aria-components';
import { describeProblem } from '../../../../src/notation/index.ts';
import { audit } from '../../../../src/scoring/index.ts';
import { readProtocol, type Protocol } from '../../../../src/scoring/index.ts';
import type { Competition, Skater } from '../../data/api.ts';
import { rulesOf } from '../../data/rules.ts';
import { useList } from '../../data/use.ts';
import { Asked } from '../../parts/asked.tsx';
import { Row } from '../../parts/frame.tsx';
import { didEdit } from '../../parts/undo.tsx';
import { points } from '../../words/numbers.ts';
import { eventFrom, keyOf, NAME, nameIn, NEW, textOf, useKeep } from './keep.ts';
import type { Doubt, ReadProtocol, SheetRead } from './types.ts';

interface PreviewProps {
  readonly read: SheetRead;
  readonly again: () => void;
  readonly done: (protocolId: string | null) => void;
}

/** What was read; shown once the skaters and events are known, so that names can be matched to them. */
export function Preview(props: PreviewProps) {
  const skaters = useList('skaters');
  const events = useList('competitions');
  return (
    <Asked query={skaters}>
      {(all) => <Asked query={events}>{(e) => <PreviewOf {...props} skaters={all} events={e} />}</Asked>}
    </Asked>
  );
}

type Known = PreviewProps & { readonly skaters: readonly Skater[]; readonly events: readonly Competition[] };

/** Doubts to settle, which skater is yours, which event; then it is kept. */
function PreviewOf({ read, again, done, skaters, events }: Known) {
  const [settled, setSettled] = useState<ReadonlyMap<string, unknown>>(new Map());
  const [chosen, setChosen] = useState<ReadonlyMap<number, string>>(() => matched(read.protocols, skaters));
  const [eventId, setEventId] = useState('');
  const [problem, setProblem] = useState('');
  const [keeping, setKeeping] = useState(false);
  const write = useKeep();
  const total = read.protocols.length;
  const open = [...chosen].flatMap(([i, choice]) => [
    ...(read.protocols[i]?.doubts ?? []).filter((d) => !settled.has(keyOf(i, d))),
    ...(choice === NEW &&
    nameIn(read.protocols[i]?.form ?? {}) === '' &&
    textOf(settled.get(keyOf(i, NAME))).trim() === ''
      ? [NAME]
      : []),
  ]);
  const keep = async () => {
    setKeeping(true);
    try {
      const event = events.find((e) => e.id === eventId) ?? eventFrom(read.protocols[0], events);
      const first = await write({ read, event, events, skaters, chosen, settled });
      didEdit(chosen.size === 1 ? 'The sheet is kept.' : `${chosen.size} sheets are kept.`);
      done(first);
    } catch (error) {
      setProblem(error instanceof Error ? error.message : 'It could not be kept.');
      setKeeping(false);
    }
  };
  const one = (i: number) => {
    const given = read.protocols[i];
    if (given === undefined) return null;
    return (
      <One
        key={i}
        index={i}
        given={given}
        skaters={skaters}
        choice={chosen.get(i) ?? ''}
        settled={settled}
        onChoose={(choice) => {
          const next = new Map(chosen);
          if (choice === '') next.delete(i);
          else next.set(i, choice);
          setChosen(next);
        }}
        onSettle={(doubt, value) => setSettled(new Map(settled).set(keyOf(i, doubt), value))}
      />
    );
  };
  const all = read.protocols.map((_, i) => i);
  const few = total <= FEW;
  return (
    <>
      <Row about="What was read" notes={<p>{read.name}</p>}>
        <h1>{total === 1 ? 'One skater' : `${total} skaters`}</h1>
        {read.problems.map((p) => (
          <p key={p} className="problem">
            {p}
          </p>
        ))}
        {total === 0 && (
          <p>
            No protocol was found in it.{' '}
            <Button className="btn" onPress={again}>
              Try another
            </Button>
          </p>
        )}
      </Row>
      {all.filter((i) => few || chosen.has(i)).map(one)}
      {!few && (
        <Row
          about="The field"
          aside="kept without names"
          notes={<p>Numbers only, for “In this field”; nothing is shown below ten skaters.</p>}
        >
          <details className="drawer">
            <summary>{total - chosen.size} further skaters: is one of them yours?</summary>
            <ul className="stack">
              {all
                .filter((i) => !chosen.has(i))
                .map((i) => (
                  <li key={i} className="tie">
                    {nameIn(read.protocols[i]?.form ?? {}) || `Skater ${i + 1}`}
                    <Button className="btn" onPress={() => setChosen(new Map(chosen).set(i, NEW))}>
                      Mine
                    </Button>
                  </li>
                ))}
            </ul>
          </details>
        </Row>
      )}
      {total > 0 && (
        <Row about="Keep">
          <label style={{ maxWidth: '26rem', display: 'block' }}>
            <span className="lab">Event</span>
            <select className="field" value={eventId} onChange={(e) => setEventId(e.target.value)}>
              <option value="">{eventFrom(read.protocols[0], events).name} (from the sheet)</option>
              {events.map((e) => (
                <option key={e.id} value={e.id}>
                  {e.name}
                </option>
              ))}
            </select>
          </label>
          <div className="tie" style={{ marginTop: '1rem' }}>
            <Button
              className="btn main"
              isDisabled={chosen.size === 0 || open.length > 0 || keeping}
              onPress={() => void keep()}
            >
              Keep {chosen.size === 1 ? 'it and read it' : `${chosen.size} of them`}
            </Button>
            <Button className="btn" onPress={again}>
              Not this one
            </Button>
            {open.length > 0 && (
              <span>{open.length === 1 ? 'One doubt is' : `${open.length} doubts are`} to be settled first.</span>
            )}
            {chosen.size === 0 && <span>Say which skater is yours.</span>}
          </div>
          {problem !== '' && (
            <p className="problem" role="alert">
              {problem}
            </p>
          )}
        </Row>
      )}
    </>
  );
}

/** Up to this many skaters each have a row of their own; of more only one's own. */
const FEW = 4;

/** A sheet with one skater is hers; in a field only known names are chosen. */
function matched(protocols: readonly ReadProtocol[], skaters: readonly Skater[]): Map<number, string> {
  const found = new Map<number, string>();
  protocols.forEach((p, i) => {
    const name = nameIn(p.form).toLowerCase();
    const known = skaters.find((s) => s.name.toLowerCase() === name);
    if (known !== undefined) found.set(i, known.id);
    else if (protocols.length === 1) found.set(i, NEW);
  });
  return found;
}

interface OneProps {
  readonly index: number;
  readonly given: ReadProtocol;
  readonly skaters: readonly Skater[];
  readonly choice: string;
  readonly settled: ReadonlyMap<string, unknown>;
  readonly onChoose: (choice: string) => void;
  readonly onSettle: (doubt: Doubt, value: unknown) => void;
}

function One({ index, given, skaters, choice, settled, onChoose, onSettle }: OneProps) {
  const sums = useMemo(() => agreement(given.form), [given.form]);
  const name = nameIn(given.form) || `Skater ${index + 1}`;
  return (
    <Row about={name} aside={textOf(given.form.category)} notes={<p>{sums.text}</p>}>
      <label style={{ maxWidth: '26rem', display: 'block' }}>
        <span className="lab">Whose is it?</span>
        <select className="field" value={choice} onChange={(e) => onChoose(e.target.value)}>
          <option value="">not mine: keep without a name</option>
          <option value={NEW}>a new skater{nameIn(given.form) === '' ? '' : `, ${name}`}</option>
          {skaters.map((s) => (
            <option key={s.id} value={s.id}>
              {s.name}
            </option>
          ))}
        </select>
      </label>
      {choice === NEW && nameIn(given.form) === '' && (
        <label style={{ maxWidth: '26rem', display: 'block', marginTop: '.75rem' }}>
          <span className="lab">No name was read. Her name or nickname</span>
          <input
            className="field"
            maxLength={80}
            value={textOf(settled.get(keyOf(index, NAME)))}
            onChange={(e) => onSettle(NAME, e.target.value)}
          />
        </label>
      )}
      <p style={{ marginTop: '.75rem' }}>
        {codesOf(given.form)}
        {typeof given.form.total === 'number' && (
          <>
            {' '}
            Total <b className="n">{points(Math.round(given.form.total * 100))}</b>.
          </>
        )}
      </p>
      {choice !== '' &&
        given.doubts.map((d) => (
          <fieldset key={d.at} className="problem">
            <legend className="lab">
              {placeOf(d.at)}: {d.why}
            </legend>
            <div className="tie">
              {[d.read, ...d.alternatives].map((value) => (
                <label key={shown(value)} className="btn">
                  <input
                    type="radio"
                    name={keyOf(index, d)}
                    checked={settled.has(keyOf(index, d)) && settled.get(keyOf(index, d)) === value}
                    onChange={() => onSettle(d, value)}
                  />{' '}
                  {shown(value)}
                </label>
              ))}
            </div>
          </fieldset>
        ))}
    </Row>
  );
}

/** `elements[2].score` → "Element 3, score". */
const placeOf = (at: string): string =>
  at
    .replace(/^(element|component)s\[(\d+)\]\.?/, (_, what: string, i: string) => `${what} ${Number(i) + 1}, `)
    .replace(/, $/, '')
    .replace(/^./, (letter) => letter.toUpperCase());

/** A reading as words: what a doubt may be settled to. */
const shown = (value: unknown): string =>
  value === null ? 'not printed' : typeof value === 'string' ? value : JSON.stringify(value);

const codesOf = (form: Record<string, unknown>): string =>
  Array.isArray(form.elements)
    ? `${(form.elements as { code?: unknown }[]).map((e) => textOf(e.code)).join(' · ')}.`
    : '';

/** One quiet line: do the figures of the sheet agree? */
function agreement(form: Record<string, unknown>): { readonly text: string } {
  const protocol = readProtocol(form);
  if (!protocol.ok) return { text: describeProblem(protocol.error) };
  const { rules, why } = rulesFor(protocol.value);
  if (rules === null) return { text: why };
  const findings = audit(protocol.value, rules).findings.filter((f) => f.kind === 'calculation');
  return {
    text:
      findings.length === 0
        ? 'All printed figures agree.'
        : `${findings.length} printed figures do not agree; they are shown in the reading.`,
  };
}

const rulesFor = (p: Protocol) =>
  rulesOf({
    rulebook: p.rulebook ?? undefined,
    body: p.body ?? undefined,
    season: p.season ?? undefined,
    date: p.date ?? undefined,
    category: p.category ?? undefined,
    segment: p.segment ?? undefined,
  });
