import { memo, useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { Button, Label, Slider, SliderThumb, SliderTrack } from 'react-aria-components';
import type { LoggedRunThrough } from '../../../../src/forecast/index.ts';
import { practiceRecord, practiceSentence } from '../../../../src/season/practice.ts';
import type { LiveForecast } from '../../data/forecast.ts';
import type { KnownForecast } from '../../data/forecast.worker.ts';
import { today } from '../../data/today.ts';
import { Tick } from '../../parts/tick.tsx';
import { words } from '../../words/index.ts';
import { clock, days } from '../../words/numbers.ts';
import { reliabilityIn, type PlanNote } from './notes.ts';

interface ComesOffProps {
  readonly known: KnownForecast;
  readonly live: LiveForecast;
  readonly notes: readonly PlanNote[];
  readonly runs: readonly LoggedRunThrough[];
  readonly withPractice: boolean;
  readonly onPractice: (on: boolean) => void;
  readonly onReliability: (id: string, reliability: number | null, said: string) => void;
}

/** One slider for each element: on how many of twenty days it comes off as planned. */
export function ComesOff(props: ComesOffProps) {
  const { known, live, notes, runs, withPractice, onPractice, onReliability } = props;
  const { take, tryOut, settle } = live;
  const latest = useRef(onReliability);
  useEffect(() => {
    latest.current = onReliability;
  });
  // The same function at every drawing: while a note is dragged the other rows are not drawn anew.
  const keep = useCallback(
    (id: string, code: string, reliability: number | null) => {
      settle();
      const said =
        reliability === null
          ? words.layout.reliabilityLearnt(code)
          : words.layout.reliabilitySet(code, days(reliability));
      latest.current(id, reliability, said);
    },
    [settle],
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
              take={take}
              tryOut={tryOut}
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
}

const DAYS = 20;
/** "Hardly ever" and "nearly always" are not never and always. */
const SELDOM = 0.5 / DAYS;
const chanceOf = (onDays: number): number => Math.min(1 - SELDOM, Math.max(SELDOM, onDays / DAYS));

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
  readonly take: LiveForecast['take'];
  readonly tryOut: LiveForecast['tryOut'];
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
          setMoved({ value: now, from: kept });
          tryOut({ index, reliability: chanceOf(now) });
        }}
        onChangeEnd={(end) => keep(id, code, chanceOf(end))}
      >
        <Label>
          <b className="code">{code}</b> <span className="quiet n">{at}</span>
        </Label>
        <div className="rail" onPointerEnter={() => take(index)} onFocus={() => take(index)}>
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
