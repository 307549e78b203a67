import { memo, useCallback, useEffect, useMemo, useState } from 'react';
import { Input, Label, TextField } from 'react-aria-components';
import type { LoggedRunThrough } from '../../../../src/forecast/index.ts';
import type { ChosenRules } from '../../../../src/rulebook/index.ts';
import { useForecast } from '../../data/forecast.ts';
import type { KnownForecast, Move, RangeAnswer } from '../../data/forecast.worker.ts';
import type { ProgramRecordForms } from '../../data/history.ts';
import { RangeStrip, Tally } from '../../figures/range-strip.tsx';
import { Row } from '../../parts/frame.tsx';
import { Why } from '../../parts/why.tsx';
import { words } from '../../words/index.ts';
import { days, exact, plain, tenths, typed } from '../../words/numbers.ts';
import { lookingAhead, programKey, type Page, type Taken } from './ahead.ts';
import { ComesOff } from './comes-off.tsx';
import { withReliability, type PlanNote } from './notes.ts';
import { WhatMoves } from './what-moves.tsx';

interface LiveProps {
  /** Notes as they rest, in skating order; while one is dragged they stay as they were. */
  readonly notes: readonly PlanNote[];
  /** Notes as they are on the strip. */
  readonly shown: readonly PlanNote[];
  /** The note that a hand is on; null: none. */
  readonly held: string | null;
  readonly rules: ChosenRules | null;
  readonly seconds: number;
  /** The form of a layout with these notes, with season, category and segment. */
  readonly layoutOf: (notes: readonly PlanNote[]) => Record<string, unknown>;
  readonly forms: ProgramRecordForms;
  readonly runs: readonly LoggedRunThrough[];
  readonly withPractice: boolean;
  readonly onPractice: (on: boolean) => void;
  readonly onReliability: (id: string, reliability: number | null, said: string) => void;
}

/** A slider that is being moved. */
interface Trial {
  readonly id: string;
  readonly reliability: number;
  /** The notes that it was moved on: with others it is over. */
  readonly on: readonly PlanNote[];
}

/** The range instead of a sum, and beneath it the sliders that move it, in the same frame. */
export const Live = memo(function Live(props: LiveProps) {
  const { notes, shown, held, rules, seconds, layoutOf, forms, runs, withPractice, onPractice, onReliability } = props;
  const [target, setTarget] = useState('');
  const aim = typed(target);
  const [trial, setTrial] = useState<Trial | null>(null);
  const tried = trial?.on === notes ? trial : null;
  const page = useMemo<Page>(
    () => ({ notes, rules, seconds, target: aim, layoutOf }),
    [notes, rules, seconds, aim, layoutOf],
  );
  const question = useMemo(
    () => ({ key: programKey(notes, rules, aim), layout: layoutOf(notes), target: aim }),
    [notes, rules, aim, layoutOf],
  );
  const now =
    tried === null ? shown : shown.map((n) => (n.id === tried.id ? withReliability(n, tried.reliability) : n));
  const live = useForecast(forms, question, programKey(now, rules, aim));
  const { answer, lookAhead } = live;
  const known = answer?.ok === true ? answer : null;
  const [taken, setTaken] = useState<Taken | null>(null);
  const isTrying = tried !== null;
  useEffect(() => {
    // What is being moved keeps what was begun for it.
    if (known !== null && !isTrying) lookAhead(lookingAhead(page, held, held === null ? taken : null));
  }, [held, taken, page, known, isTrying, lookAhead]);
  const onTry = useCallback((id: string, reliability: number) => setTrial({ id, reliability, on: notes }), [notes]);
  const onTake = useCallback((index: number, days: number) => setTaken({ index, days }), []);
  return (
    <>
      <Row
        about="What it may bring"
        aside="points in all"
        notes={
          <>
            {known !== null && <p>{known.basis}</p>}
            <p>Computed without rounding error from uncertain estimates. Tenths are estimates; hundredths are facts.</p>
          </>
        }
      >
        {answer === null && <p className="quiet">{words.layout.computing}</p>}
        {answer?.ok === false && <p className="problem">{answer.why}</p>}
        {known !== null && (
          <Range
            known={known}
            range={live.range ?? known}
            moves={live.moves}
            notes={notes}
            aim={aim}
            target={target}
            setTarget={setTarget}
          />
        )}
      </Row>
      {known !== null && (
        <Row about={words.layout.comesOff} aside={words.layout.inCompetition} notes={OFF_NOTES}>
          <ComesOff
            known={known}
            notes={notes}
            runs={runs}
            withPractice={withPractice}
            onTake={onTake}
            onTry={onTry}
            onPractice={onPractice}
            onReliability={onReliability}
          />
        </Row>
      )}
    </>
  );
});

const OFF_NOTES = (
  <>
    <p>{words.layout.comesOffIntro}</p>
    <p className="only">{words.coachOnly}</p>
  </>
);

interface RangeProps {
  readonly known: KnownForecast;
  readonly range: RangeAnswer;
  readonly moves: readonly Move[] | null;
  readonly notes: readonly PlanNote[];
  readonly aim: number | null;
  readonly target: string;
  readonly setTarget: (text: string) => void;
}

const Range = memo(function Range({ known, range, moves, notes, aim, target, setTarget }: RangeProps) {
  const q = range.quantiles;
  const purpose = known.on === 'total' ? words.layout.segmentTotal : words.layout.elementsOnly;
  const why = <WhyRange known={known} notes={notes} />;
  const number = (value: number) => (
    <Why about={`${words.why} ${tenths(value)}`} answer={why}>
      <b>{tenths(value)}</b>
    </Why>
  );
  return (
    <>
      {known.on === 'tes' && (
        <p>
          <b>{words.layout.elementsAlone}</b> {words.layout.whyElementsAlone}
        </p>
      )}
      <figure className="fig" data-range={`${q['0.1']} ${q['0.5']} ${q['0.9']}`}>
        <RangeStrip
          range={{
            q025: q['0.025'],
            q10: q['0.1'],
            q25: q['0.25'],
            q50: q['0.5'],
            q75: q['0.75'],
            q90: q['0.9'],
            q975: q['0.975'],
          }}
          frame={known.quantiles}
          target={aim === null ? null : { points: aim, purpose }}
        />
      </figure>
      <p>
        {words.layout.usually} {number(q['0.1'])} {words.layout.and} {number(q['0.9'])}
        {words.layout.halfOfDays(tenths(q['0.25']), tenths(q['0.75']), tenths(q['0.5']))}
      </p>
      <WhatMoves known={known} moves={moves} notes={notes} />
      <TextField
        value={target}
        onChange={setTarget}
        inputMode="decimal"
        style={{ maxWidth: '12rem', marginTop: '.75rem' }}
      >
        <Label className="lab">{words.layout.target}</Label>
        <Input className="field" />
      </TextField>
      <Chance range={range} known={known} aim={aim} notes={notes} />
    </>
  );
});

interface ChanceProps {
  readonly range: RangeAnswer;
  readonly known: KnownForecast;
  readonly aim: number | null;
  readonly notes: readonly PlanNote[];
}

function Chance({ range, known, aim, notes }: ChanceProps) {
  const chance = range.chances?.[0];
  if (aim === null) return null;
  if (range.chances === null) return <p className="quiet">{words.layout.noChanceYet}</p>;
  if (chance === undefined) return null;
  const said = words.layout.orMore(plain(aim), days(chance.p));
  return (
    <p className="tie" style={{ marginTop: '.75rem' }}>
      <Tally p={chance.p} label={days(chance.p)} />
      <Why
        about={`${words.why} ${said}`}
        answer={
          <>
            <p>
              The chances of all totals from {plain(aim)} on, added up: exact value of the model{' '}
              <span className="n">{exact(chance.p)}</span>, told as days of twenty because the estimates it rests on
              bear no more.
            </p>
            <WhyRange known={known} notes={notes} />
          </>
        }
      >
        {said}
      </Why>{' '}
      <span className="only">{words.coachOnly}</span>
    </p>
  );
}

/** Where the range comes from: what each element brings on average, the rules, and what is assumed. */
function WhyRange({ known, notes }: { known: KnownForecast; notes: readonly PlanNote[] }) {
  return (
    <>
      <p>
        Every element has its outcomes with their chances; all programs that can come of them are called under the rules
        and their scores added without rounding error. The components move together by one draw of the day. The two ends
        are reached or passed on nine of ten days and on one of ten.
      </p>
      <ul className="sums">
        {known.byElement.map((e) => (
          <li key={e.no}>
            <span className="n">{tenths(e.mean)}</span>
            <p>
              <b>{notes[e.no - 1]?.code ?? `element ${e.no}`}</b> on average, mostly within {tenths(e.sd)}
            </p>
          </li>
        ))}
      </ul>
      <p>{known.basis}</p>
      <p className="small quiet">Rules: {known.rulebook}.</p>
      {known.warnings.map((w) => (
        <p key={w} className="small quiet">
          {w}
        </p>
      ))}
    </>
  );
}
