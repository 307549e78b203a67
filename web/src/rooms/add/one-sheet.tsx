import { useMemo } from 'react';
import { pronouns } from '../../../../src/notation/index.ts';
import type { Skater } from '../../data/api.ts';
import { Row } from '../../parts/frame.tsx';
import { points } from '../../words/numbers.ts';
import { agreement } from './agreement.ts';
import { KeptAlready, type TwiceChoice } from './kept-already.tsx';
import { withSaid, type Said } from './doubt-places.ts';
import { Doubts } from './doubts.tsx';
import { keyOf, NAME, nameIn, NEW, saidName, textOf } from './keep.ts';
import type { Twice } from './twice.ts';
import type { Doubt, ReadProtocol } from './types.ts';

interface OneProps {
  readonly index: number;
  readonly given: ReadProtocol;
  readonly skaters: readonly Skater[];
  readonly choice: string;
  readonly twice: Twice | null;
  readonly twiceChoice: TwiceChoice | null;
  readonly settled: ReadonlyMap<string, Said>;
  readonly onChoose: (choice: string) => void;
  readonly onTwice: (choice: TwiceChoice) => void;
  readonly onSettle: (said: ReadonlyMap<Doubt, Said>) => void;
}

/** One skater's sheet as it was read: whose it is, whether it is kept already, and what is in doubt. */
export function OneSheet(props: OneProps) {
  const { index, given, skaters, choice, settled, onChoose, onSettle } = props;
  const form = useMemo(
    () => withSaid(given.form, given.doubts, (d) => settled.get(keyOf(index, d))),
    [given, index, settled],
  );
  const sums = useMemo(() => agreement(form), [form]);
  const printed = nameIn(given.form);
  const asksName = choice === NEW && printed === '';
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
      {asksName && (
        <label className="short">
          <span className="lab">
            No name was read. {who.hersOf.replace(/^./, (letter) => letter.toUpperCase())} name or nickname
          </span>
          <input
            className="field"
            maxLength={80}
            value={saidName(settled, index)}
            onChange={(e) => onSettle(new Map([[NAME, { as: 'value', value: e.target.value }]]))}
          />
        </label>
      )}
      <p style={{ marginTop: '.75rem' }}>
        {codesOf(form)}
        {typeof form.total === 'number' && (
          <>
            {' '}
            Total <b className="n">{points(Math.round(form.total * 100))}</b>.
          </>
        )}
      </p>
      {choice !== '' && props.twice !== null && (
        <KeptAlready index={index} twice={props.twice} choice={props.twiceChoice} onChoose={props.onTwice} />
      )}
      {choice !== '' && (
        <Doubts
          form={given.form}
          doubts={asksName ? given.doubts.filter((d) => d.at !== NAME.at) : given.doubts}
          said={(d) => settled.get(keyOf(index, d))}
          onSay={onSettle}
        />
      )}
    </Row>
  );
}

const codesOf = (form: Record<string, unknown>): string =>
  Array.isArray(form.elements)
    ? `${(form.elements as { code?: unknown }[]).map((e) => textOf(e.code)).join(' · ')}.`
    : '';
