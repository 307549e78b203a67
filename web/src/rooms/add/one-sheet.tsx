import { useMemo } from 'react';
import { pronouns } from '../../../../src/notation/index.ts';
import type { Skater } from '../../data/api.ts';
import { Row } from '../../parts/frame.tsx';
import { points } from '../../words/numbers.ts';
import { agreement } from './agreement.ts';
import { KeptAlready, type TwiceChoice } from './kept-already.tsx';
import { keyOf, NAME, nameIn, NEW, textOf } from './keep.ts';
import type { Twice } from './twice.ts';
import type { Doubt, ReadProtocol } from './types.ts';

interface OneProps {
  readonly index: number;
  readonly given: ReadProtocol;
  readonly skaters: readonly Skater[];
  readonly choice: string;
  readonly twice: Twice | null;
  readonly twiceChoice: TwiceChoice | null;
  readonly settled: ReadonlyMap<string, unknown>;
  readonly onChoose: (choice: string) => void;
  readonly onTwice: (choice: TwiceChoice) => void;
  readonly onSettle: (doubt: Doubt, value: unknown) => void;
}

/** One skater's sheet as it was read: whose it is, whether it is kept already, and what is in doubt. */
export function OneSheet(props: OneProps) {
  const { index, given, skaters, choice, settled, onChoose, onSettle } = props;
  const sums = useMemo(() => agreement(given.form), [given.form]);
  const printed = nameIn(given.form);
  const name = printed || `Skater ${index + 1}`;
  const who = pronouns(textOf(given.form.category));
  return (
    <Row about={name} aside={textOf(given.form.category)} notes={<p>{sums}</p>}>
      <label className="short">
        <span className="lab">Whose is it?</span>
        <select className="field" value={choice} onChange={(e) => onChoose(e.target.value)}>
          <option value="">not mine: keep without a name</option>
          <option value={NEW}>a new skater{printed === '' ? '' : `, ${name}`}</option>
          {skaters.map((s) => (
            <option key={s.id} value={s.id}>
              {s.name}
            </option>
          ))}
        </select>
      </label>
      {choice === NEW && printed === '' && (
        <label className="short">
          <span className="lab">
            No name was read. {who.hersOf.replace(/^./, (letter) => letter.toUpperCase())} name or nickname
          </span>
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
      {choice !== '' && props.twice !== null && (
        <KeptAlready index={index} twice={props.twice} choice={props.twiceChoice} onChoose={props.onTwice} />
      )}
      {choice !== '' &&
        given.doubts.map((d) => (
          <OneDoubt
            key={d.at}
            doubt={d}
            name={keyOf(index, d)}
            isChosen={(value) => settled.has(keyOf(index, d)) && settled.get(keyOf(index, d)) === value}
            onChoose={(value) => onSettle(d, value)}
          />
        ))}
    </Row>
  );
}

interface DoubtProps {
  readonly doubt: Doubt;
  readonly name: string;
  readonly isChosen: (value: unknown) => boolean;
  readonly onChoose: (value: unknown) => void;
}

/** Both readings as equal choices, none chosen beforehand. */
function OneDoubt({ doubt, name, isChosen, onChoose }: DoubtProps) {
  return (
    <fieldset className="problem">
      <legend className="lab">
        {placeOf(doubt.at)}: {doubt.why}
      </legend>
      <div className="tie">
        {[doubt.read, ...doubt.alternatives].map((value) => (
          <label key={shown(value)} className="btn">
            <input type="radio" name={name} checked={isChosen(value)} onChange={() => onChoose(value)} /> {shown(value)}
          </label>
        ))}
      </div>
    </fieldset>
  );
}

const SUMS: Readonly<Record<string, string>> = { tes: 'element score', pcs: 'component score', total: 'segment total' };

/** `elements[2].score` → "Element 3, score". */
const placeOf = (at: string): string =>
  (SUMS[at] ?? at)
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
