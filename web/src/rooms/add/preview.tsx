import { useMemo, useState } from 'react';
import { Button } from 'react-aria-components';
import { describeProblem, parseCategory } from '../../../../src/notation/index.ts';
import { audit } from '../../../../src/scoring/index.ts';
import { readProtocol, type Protocol } from '../../../../src/scoring/index.ts';
import { newId, type Competition, type ProtocolRecord, type Skater } from '../../data/api.ts';
import { rulesOf } from '../../data/rules.ts';
import { useList, usePut } from '../../data/use.ts';
import { today } from '../../data/today.ts';
import { Row } from '../../parts/frame.tsx';
import { didEdit } from '../../parts/undo.tsx';
import { points } from '../../words/numbers.ts';
import { emptyEvent } from '../events/event-page.tsx';
import type { Doubt, ReadProtocol, SheetRead } from './types.ts';

interface PreviewProps {
  readonly read: SheetRead;
  readonly again: () => void;
  readonly done: (protocolId: string | null) => void;
}

/** What was read, with doubts to settle; which skater is yours; then it is kept. */
export function Preview({ read, again, done }: PreviewProps) {
  const skaters = useList('skaters').data ?? [];
  const events = useList('competitions').data ?? [];
  const putSkater = usePut('skaters');
  const putEvent = usePut('competitions');
  const putProtocol = usePut('protocols');
  const [settled, setSettled] = useState<ReadonlyMap<string, unknown>>(new Map());
  const [chosen, setChosen] = useState<ReadonlyMap<number, string>>(() => matched(read.protocols, skaters));
  const [eventId, setEventId] = useState('');
  const one = read.protocols.length === 1;
  const open = [...chosen.keys()].flatMap((i) =>
    (read.protocols[i]?.doubts ?? []).filter((d) => !settled.has(keyOf(i, d))),
  );

  const keep = async () => {
    let first: string | null = null;
    const event = events.find((e) => e.id === eventId) ?? eventFrom(read.protocols[0], events);
    if (!events.some((e) => e.id === event.id)) await putEvent.mutateAsync(event);
    for (const [i, choice] of chosen) {
      const given = read.protocols[i];
      if (given === undefined) continue;
      const form = withSettled(given.form, i, given.doubts, settled);
      const skater = skaters.find((s) => s.id === choice) ?? skaterFrom(form);
      if (choice === NEW) await putSkater.mutateAsync(skater);
      const record = recordFrom(form, skater, event, read.sheetId);
      await putProtocol.mutateAsync(record);
      first ??= record.id;
    }
    didEdit(chosen.size === 1 ? 'The sheet is kept.' : `${chosen.size} sheets are kept.`);
    done(first);
  };
  return (
    <>
      <Row about="What was read" notes={<p>{read.name}</p>}>
        <h1>{one ? 'One skater' : `${read.protocols.length} skaters`}</h1>
        {read.problems.map((p) => (
          <p key={p} className="problem">
            {p}
          </p>
        ))}
        {read.protocols.length === 0 && (
          <p>
            No protocol was found in it.{' '}
            <Button className="btn" onPress={again}>
              Try another
            </Button>
          </p>
        )}
      </Row>
      {read.protocols.map((p, i) => (
        <One
          key={i}
          index={i}
          given={p}
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
      ))}
      {read.protocols.length > 0 && (
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
              isDisabled={chosen.size === 0 || open.length > 0 || putProtocol.isPending}
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
        </Row>
      )}
    </>
  );
}

const NEW = 'new';
const keyOf = (i: number, doubt: Doubt): string => `${i}:${doubt.at}`;
const nameIn = (form: Record<string, unknown>): string => (typeof form.skater === 'string' ? form.skater : '');

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
          <option value={NEW}>a new skater, {name}</option>
          {skaters.map((s) => (
            <option key={s.id} value={s.id}>
              {s.name}
            </option>
          ))}
        </select>
      </label>
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
              {d.at}: {d.why}
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

/** A reading as words: what a doubt may be settled to. */
const shown = (value: unknown): string =>
  value === null ? 'not printed' : typeof value === 'string' ? value : JSON.stringify(value);

const textOf = (value: unknown): string => (typeof value === 'string' ? value : '');

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

/** The form with the settled readings in their places (`elements[2].goe`). */
function withSettled(
  form: Record<string, unknown>,
  i: number,
  doubts: readonly Doubt[],
  settled: ReadonlyMap<string, unknown>,
) {
  const copy = structuredClone(form);
  for (const doubt of doubts) {
    if (!settled.has(keyOf(i, doubt))) continue;
    const path = doubt.at.match(/[^.[\]]+/g) ?? [];
    let place: unknown = copy;
    for (const key of path.slice(0, -1)) place = (place as Record<string, unknown> | undefined)?.[key];
    const last = path.at(-1);
    if (typeof place === 'object' && place !== null && last !== undefined)
      (place as Record<string, unknown>)[last] = settled.get(keyOf(i, doubt));
  }
  return copy;
}

const categoryOf = (form: Record<string, unknown>): Skater['category'] => {
  const parsed = parseCategory(textOf(form.category));
  return parsed.ok ? parsed.value : 'novice women';
};

const skaterFrom = (form: Record<string, unknown>): Skater => ({
  id: newId(),
  name: nameIn(form) || 'My skater',
  category: categoryOf(form),
  body: textOf(form.body) || null,
  nextLesson: null,
  notNow: [],
  archived: false,
});

function eventFrom(given: ReadProtocol | undefined, events: readonly Competition[]): Competition {
  const name = textOf(given?.form.competition) || 'Event not named';
  const date = textOf(given?.form.date) || today();
  return (
    events.find((e) => e.name === name && (e.date === date || textOf(given?.form.date) === '')) ?? {
      ...emptyEvent(name, date),
    }
  );
}

const hundredths = (value: unknown): number | null => (typeof value === 'number' ? Math.round(value * 100) : null);

function recordFrom(
  form: Record<string, unknown>,
  skater: Skater,
  event: Competition,
  sheetId: string,
): ProtocolRecord {
  return {
    id: newId(),
    skaterId: skater.id,
    competitionId: event.id,
    sheetId,
    category: textOf(form.category) === '' ? skater.category : categoryOf(form),
    segment: form.segment === 'short' ? 'short' : 'free',
    season: textOf(form.season) || '2025/26',
    date: textOf(form.date) || event.date,
    practice: false,
    tes: hundredths(form.tes),
    pcs: hundredths(form.pcs),
    total: hundredths(form.total),
    form,
    reader: '1',
    onHerPage: [],
    releasedAt: null,
  };
}
