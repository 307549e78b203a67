import { useId, useState } from 'react';
import { Button } from 'react-aria-components';
import { Tick } from '../../parts/tick.tsx';
import {
  held,
  hintOf,
  isChoice,
  kindOf,
  otherReadings,
  placeOf,
  shown,
  valueFrom,
  type PlaceKind,
  type Said,
} from './doubt-places.ts';
import type { Doubt } from './types.ts';

interface DoubtsProps {
  readonly form: Record<string, unknown>;
  readonly doubts: readonly Doubt[];
  readonly said: (doubt: Doubt) => Said | undefined;
  readonly onSay: (said: ReadonlyMap<Doubt, Said>) => void;
}

/** Real choices first: they hold up keeping. What is merely unclear stands below, with one press for all of it. */
export function Doubts({ form, doubts, said, onSay }: DoubtsProps) {
  const choices = doubts.filter((d) => isChoice(form, d));
  const unclear = doubts.filter((d) => !isChoice(form, d));
  const open = unclear.filter((d) => said(d) === undefined);
  const one = (d: Doubt) => {
    const props = { form, doubt: d, said: said(d), onSay: (s: Said) => onSay(new Map([[d, s]])) };
    return kindOf(d.at) === 'block' ? <Block key={d.at} {...props} /> : <OneDoubt key={d.at} {...props} />;
  };
  return (
    <>
      {choices.map(one)}
      {unclear.length > 0 && (
        <div className="unclear">
          <div className="tie">
            <p>
              {unclear.length === 1 ? 'One place is' : `${unclear.length} places are`} merely unclear. Kept as read
              unless you say otherwise.
            </p>
            <Button
              className="btn"
              isDisabled={open.length === 0}
              onPress={() => onSay(new Map(open.map((d): [Doubt, Said] => [d, { as: 'read' }])))}
            >
              All as read
            </Button>
          </div>
          {unclear.map(one)}
        </div>
      )}
    </>
  );
}

interface DoubtProps {
  readonly form: Record<string, unknown>;
  readonly doubt: Doubt;
  readonly said: Said | undefined;
  readonly onSay: (said: Said) => void;
}

/** A whole block or row has no single reading: one sentence, and that she looked. */
function Block({ doubt, said, onSay }: DoubtProps) {
  const words = typeof doubt.read === 'string' && doubt.read !== '' ? ` Read: ${doubt.read}.` : '';
  const count = typeof doubt.read === 'number' ? `, ${doubt.read} read` : '';
  return (
    <div className="problem">
      <p>
        <b>
          {placeOf(doubt.at)}
          {count}:
        </b>{' '}
        {doubt.why}
        {words}
      </p>
      <Tick checked={said?.as === 'read'} onChange={(on) => onSay({ as: on ? 'read' : 'unsaid' })}>
        I have looked at it
      </Tick>
    </div>
  );
}

/** The reading, marked as such, the other readings, and something else; none chosen beforehand. */
function OneDoubt({ form, doubt, said, onSay }: DoubtProps) {
  const name = useId();
  const kind = kindOf(doubt.at);
  const now = held(form, doubt.at);
  const others = otherReadings(form, doubt);
  // Chosen by its place and not by its value: what is typed may be one of the readings.
  const [typing, setTyping] = useState(false);
  const isClosed = kind === 'half' || kind === 'segment';
  const choose = (next: Said, other = false) => {
    setTyping(other);
    onSay(next);
  };
  return (
    <fieldset className="problem">
      <legend className="lab">
        {placeOf(doubt.at)}: {doubt.why}
      </legend>
      <div className="tie">
        <label className="btn reading">
          <input type="radio" name={name} checked={said?.as === 'read'} onChange={() => choose({ as: 'read' })} />
          <span>
            {shown(kind, now)} <span className="small quiet">as read</span>
          </span>
        </label>
        {others.map((value) => (
          <label key={JSON.stringify(value)} className="btn reading">
            <input
              type="radio"
              name={name}
              checked={!typing && said?.as === 'value' && JSON.stringify(said.value) === JSON.stringify(value)}
              onChange={() => choose({ as: 'value', value })}
            />
            <span>{shown(kind, value)}</span>
          </label>
        ))}
        {!isClosed && (
          <label className="btn reading">
            <input
              type="radio"
              name={name}
              checked={typing && said?.as !== 'read'}
              onChange={() => choose({ as: 'unsaid' }, true)}
            />
            <span>Something else</span>
          </label>
        )}
      </div>
      {typing && said?.as !== 'read' && <Other at={doubt.at} kind={kind} onSay={onSay} />}
    </fieldset>
  );
}

interface OtherProps {
  readonly at: string;
  readonly kind: PlaceKind;
  readonly onSay: (said: Said) => void;
}

/** What the sheet prints there, typed; what cannot stand there is said and not taken. */
function Other({ at, kind, onSay }: OtherProps) {
  const [text, setText] = useState('');
  const id = useId();
  const given = valueFrom(kind, text, at);
  return (
    <div className="short">
      <label className="lab" htmlFor={id}>
        What the sheet prints: {placeOf(at).replace(/^./, (letter) => letter.toLowerCase())}
      </label>
      <input
        id={id}
        className="field"
        maxLength={200}
        aria-describedby={`${id}-hint`}
        value={text}
        onChange={(e) => {
          setText(e.target.value);
          const next = valueFrom(kind, e.target.value, at);
          onSay(next.ok ? { as: 'value', value: next.value } : { as: 'unsaid' });
        }}
      />
      <p id={`${id}-hint`} className="small quiet" role="status">
        {given.ok || given.why === '' ? hintOf(kind) : given.why}
      </p>
    </div>
  );
}
