import { useQueries } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { api, type Competition, type ProtocolRecord, type Skater } from '../../data/api.ts';
import { useList } from '../../data/use.ts';
import { Asked } from '../../parts/asked.tsx';
import { Row } from '../../parts/frame.tsx';
import { Tick } from '../../parts/tick.tsx';
import { didEdit } from '../../parts/undo.tsx';
import type { TwiceChoice } from './kept-already.tsx';
import { isChoice, kindOf, type Said } from './doubt-places.ts';
import { eventFrom, keyOf, nameIn, NEW, saidName, useKeep } from './keep.ts';
import { OneSheet } from './one-sheet.tsx';
import { keptAlready, type Twice } from './twice.ts';
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
  const [settled, setSettled] = useState<ReadonlyMap<string, Said>>(new Map());
  const [chosen, setChosen] = useState<ReadonlyMap<number, string>>(() => matched(read.protocols, skaters));
  const [twice, setTwice] = useState<ReadonlyMap<number, TwiceChoice>>(new Map());
  const [eventId, setEventId] = useState('');
  const [problem, setProblem] = useState('');
  const [keeping, setKeeping] = useState(false);
  const [withOthers, setWithOthers] = useState(false);
  const write = useKeep();
  const known = useKept(read.protocols, chosen);
  const total = read.protocols.length;
  const doubts = doubtsLeft(read.protocols, chosen, settled);
  const again2 = [...known.twice.keys()].filter((i) => !twice.has(i)).length;
  const replacing = new Map(
    [...known.twice].flatMap(([i, { kept }]): [number, ProtocolRecord][] =>
      twice.get(i) === 'replace' ? [[i, kept]] : [],
    ),
  );
  const keep = async () => {
    setKeeping(true);
    try {
      const event = events.find((e) => e.id === eventId) ?? eventFrom(read.protocols[0], events);
      const first = await write({ read, event, events, skaters, chosen, settled, replacing, withOthers });
      didEdit(saidOf(chosen.size, replacing.size));
      done(first);
    } catch (error) {
      setProblem(error instanceof Error ? error.message : 'It could not be kept.');
      setKeeping(false);
    }
  };
  const choose = (i: number, choice: string) => {
    const next = new Map(chosen);
    if (choice === '') next.delete(i);
    else next.set(i, choice);
    setChosen(next);
    // Another skater, another kept sheet: the choice is made anew.
    setTwice(new Map([...twice].filter(([at]) => at !== i)));
  };
  const one = (i: number) => {
    const given = read.protocols[i];
    if (given === undefined) return null;
    return (
      <OneSheet
        key={i}
        index={i}
        given={given}
        skaters={skaters}
        choice={chosen.get(i) ?? ''}
        twice={known.twice.get(i) ?? null}
        twiceChoice={twice.get(i) ?? null}
        settled={settled}
        onChoose={(choice) => choose(i, choice)}
        onTwice={(choice) => setTwice(new Map(twice).set(i, choice))}
        onSettle={(said) => setSettled(new Map([...settled, ...[...said].map(([d, s]) => [keyOf(i, d), s] as const)]))}
      />
    );
  };
  const all = read.protocols.map((_, i) => i);
  const few = total <= FEW;
  return (
    <>
      <Row about="What was read" notes={<p>{read.name}</p>}>
        <h1>{total === 0 ? 'No protocol was found' : total === 1 ? 'One skater' : `${total} skaters`}</h1>
        {read.problems.map((p) => (
          <p key={p} className="problem">
            {p}
          </p>
        ))}
        {total === 0 && (
          <p>
            <Button className="btn main" onPress={again}>
              Try another
            </Button>
          </p>
        )}
      </Row>
      {all.filter((i) => few || chosen.has(i)).map(one)}
      {!few && <Field read={read} chosen={chosen} mine={(i) => choose(i, NEW)} />}
      {total > 0 && (
        <Row about="Keep">
          <label className="short">
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
          {chosen.size > 0 && chosen.size < total && (
            <OriginalOf others={total - chosen.size} kept={withOthers} onChange={setWithOthers} />
          )}
          <div className="tie" style={{ marginTop: '1rem' }}>
            <Button
              className="btn main"
              isDisabled={chosen.size === 0 || doubts > 0 || again2 > 0 || !known.ready || keeping}
              onPress={() => void keep()}
            >
              Keep {chosen.size === 1 ? 'it and read it' : `${chosen.size} of them`}
            </Button>
            <Button className="btn" onPress={again}>
              Not this one
            </Button>
            {doubts > 0 && <span>{doubts === 1 ? 'One doubt is' : `${doubts} doubts are`} to be settled first.</span>}
            {again2 > 0 && <span>Say first what becomes of the sheet that is kept already.</span>}
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

interface OriginalProps {
  readonly others: number;
  readonly kept: boolean;
  readonly onChange: (kept: boolean) => void;
}

/** A file with other skaters in it is not kept by itself: it would bring their names into the store and its backups. */
function OriginalOf({ others, kept, onChange }: OriginalProps) {
  return (
    <div style={{ marginTop: '1rem' }}>
      <Tick checked={kept} onChange={onChange}>
        Keep the file itself too
      </Tick>
      <p className="small quiet">
        It names {others === 1 ? 'one skater who is' : `${others} skaters who are`} not yours. Without it their names
        are nowhere here; to read the sheet again you would add the file again.
      </p>
    </div>
  );
}

interface FieldProps {
  readonly read: SheetRead;
  readonly chosen: ReadonlyMap<number, string>;
  readonly mine: (index: number) => void;
}

/** The skaters of a whole event that are nobody's here, to be claimed one by one. */
function Field({ read, chosen, mine }: FieldProps) {
  return (
    <Row
      about="The field"
      aside="kept without names"
      notes={<p>Numbers alone, for “In this field”; nothing is shown below ten skaters.</p>}
    >
      <details className="drawer">
        <summary>{read.protocols.length - chosen.size} further skaters: is one of them yours?</summary>
        <ul className="stack">
          {read.protocols.map((p, i) =>
            chosen.has(i) ? null : (
              <li key={i} className="tie">
                {nameIn(p.form) || `Skater ${i + 1}`}
                <Button className="btn" onPress={() => mine(i)}>
                  Mine
                </Button>
              </li>
            ),
          )}
        </ul>
      </details>
    </Row>
  );
}

/** Up to this many skaters each have a row of their own; of more only one's own. */
const FEW = 4;

const saidOf = (kept: number, replaced: number): string => {
  if (kept === 1) return replaced === 1 ? 'The sheet is put in place of the kept one.' : 'The sheet is kept.';
  return `${kept} sheets are kept${replaced === 0 ? '' : `, ${replaced} in place of kept ones`}.`;
};

/** A choice not made, or something else without what. */
const isOpen = (form: ReadProtocol['form'], doubt: Doubt, said: Said | undefined): boolean =>
  kindOf(doubt.at) !== 'block' && (said === undefined ? isChoice(form, doubt) : said.as === 'unsaid');

/** How many doubts hold up keeping the chosen sheets; a new skater without a name is one. */
function doubtsLeft(
  protocols: readonly ReadProtocol[],
  chosen: ReadonlyMap<number, string>,
  settled: ReadonlyMap<string, Said>,
): number {
  return [...chosen].flatMap(([i, choice]) => {
    const given = protocols[i];
    if (given === undefined) return [];
    const open = given.doubts.filter((d) => isOpen(given.form, d, settled.get(keyOf(i, d))));
    const nameless = choice === NEW && nameIn(given.form) === '' && saidName(settled, i).trim() === '';
    return nameless ? [...open.filter((d) => d.at !== 'skater'), null] : open;
  }).length;
}

/** Which of the chosen sheets are kept already, from the protocols of the skaters they are given to. */
function useKept(protocols: readonly ReadProtocol[], chosen: ReadonlyMap<number, string>) {
  const own = [...chosen].filter(([, choice]) => choice !== NEW);
  const ids = [...new Set(own.map(([, choice]) => choice))];
  const asked = useQueries({
    queries: ids.map((skaterId) => ({
      queryKey: ['protocols', 'list', { skaterId }],
      queryFn: () => api.list('protocols', { skaterId }),
    })),
  });
  const twice = new Map<number, Twice>();
  for (const [i, choice] of own) {
    const kept = asked[ids.indexOf(choice)]?.data ?? [];
    const found = keptAlready(protocols[i]?.form ?? {}, kept);
    if (found !== null) twice.set(i, found);
  }
  return { ready: asked.every((a) => !a.isPending), twice };
}

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
