import { memo, useCallback, useMemo, useState } from 'react';
import { flushSync } from 'react-dom';
import { Button, Label, Slider, SliderThumb, SliderTrack } from 'react-aria-components';
import type { LoggedRunThrough } from '../../../../src/forecast/index.ts';
import { practiceRecord, practiceSentence } from '../../../../src/season/practice.ts';
import type { KnownForecast } from '../../data/forecast.worker.ts';
import { today } from '../../data/today.ts';
import { Tick } from '../../parts/tick.tsx';
import { words } from '../../words/index.ts';
import { clock, days } from '../../words/numbers.ts';
import { DAYS, chanceOf } from './ahead.ts';
import { reliabilityIn, type PlanNote } from './notes.ts';

interface ComesOffProps {
  readonly known: KnownForecast;
  readonly notes: readonly PlanNote[];
  readonly runs: readonly LoggedRunThrough[];
  readonly withPractice: boolean;
  /** A hand comes near a slider that stands on so many days. */
  readonly onTake: (index: number, days: number) => void;
  readonly onTry: (id: string, reliability: number) => void;
  readonly onPractice: (on: boolean) => void;
  readonly onReliability: (id: string, reliability: number | null, said: string) => void;
}

/** One slider for each element: on how many of twenty days it comes off as planned. */
export const ComesOff = memo(function ComesOff(props: ComesOffProps) {
  const { known, notes, runs, withPractice, onTake, onTry, onPractice, onReliability } = props;
  const keep = useCallback(
    (id: string, code: string, reliability: number | null) => {
      const said =
        reliability === null
          ? words.layout.reliabilityLearnt(code)
          : words.layout.reliabilitySet(code, days(reliability));
      onReliability(id, reliability, said);
    },
    [onReliability],
  );
  const codes = notes.map((n) => n.code).join(' ');
  const habits = useMemo(
    () => new Map(codes.split(' ').map((code) => [code, practiceSentence(code, practiceRecord(runs, code, today()))])),
    [codes, runs],
  );
  return (
    <>
      <ul className="comesoff">
        {notes.map((note, i) => {
          const element = known.byElement[i];
          return element === undefined ? null : (
            <One
              key={note.id}
              index={i}
              id={note.id}
              code={note.code}
              at={clock(note.start)}
              stated={reliabilityIn(note)}
              modelled={element.reliability}
              fixed={element.fixed}
              practice={habits.get(note.code) ?? null}
              take={onTake}
              tryOut={onTry}
              keep={keep}
            />
          );
        })}
      </ul>
      <div className="noprint" style={{ marginTop: '1rem' }}>
        <Tick checked={withPractice} disabled={runs.length === 0} onChange={onPractice}>
          {words.layout.usePractice}
        </Tick>
        <p className="small quiet">
          {runs.length === 0 ? words.layout.noPractice : words.layout.practiceNote(runs.length)}
        </p>
      </div>
    </>
  );
});

interface OneProps {
  readonly index: number;
  readonly id: string;
  readonly code: string;
  readonly at: string;
  /** As the coach entered it; null: as learnt. */
  readonly stated: number | null;
  readonly modelled: number;
  readonly fixed: boolean;
  readonly practice: string | null;
  readonly take: ComesOffProps['onTake'];
  readonly tryOut: ComesOffProps['onTry'];
  readonly keep: (id: string, code: string, reliability: number | null) => void;
}

const One = memo(function One(props: OneProps) {
  const { index, id, code, at, stated, modelled, fixed, practice, take, tryOut, keep } = props;
  const kept = Math.round((stated ?? modelled) * DAYS);
  // Where the finger has it stands until the page has taken it over, or something else has moved it.
  const [moved, setMoved] = useState({ value: kept, from: kept });
  const value = moved.from === kept ? moved.value : kept;
  return (
    <li>
      <Slider
        value={value}
        minValue={0}
        maxValue={DAYS}
        isDisabled={fixed}
        formatOptions={{ style: 'unit', unit: 'day', unitDisplay: 'long' }}
        onChange={(now) => {
          // At once, not when there is time: slider and range are drawn in the frame of the movement.
          flushSync(() => {
            setMoved({ value: now, from: kept });
            tryOut(id, chanceOf(now));
          });
        }}
        onChangeEnd={(end) => keep(id, code, chanceOf(end))}
      >
        <Label>
          <b className="code">{code}</b> <span className="quiet n">{at}</span>
        </Label>
        <div className="rail" onPointerEnter={() => take(index, value)} onFocus={() => take(index, value)}>
          <SliderTrack className="track">
            <span className="run" style={{ width: `${(100 * value) / DAYS}%` }} />
            <SliderThumb className="thumb" aria-label={words.layout.sliderLabel(code, at)} />
          </SliderTrack>
        </div>
        <span className="days">{fixed ? words.layout.oneWay : days(value / DAYS)}</span>
      </Slider>
      <p className="small quiet">
        {stated === null ? words.layout.asLearnt : words.layout.asEntered}
        {practice === null ? '' : ` · ${practice}`}
        {stated !== null && (
          <>
            {' · '}
            <Button
              className="linklike"
              aria-label={words.layout.backToLearntLabel(code)}
              onPress={() => {
                setMoved({ value: kept, from: -1 });
                keep(id, code, null);
              }}
            >
              {words.layout.backToLearnt}
            </Button>
          </>
        )}
      </p>
    </li>
  );
});
