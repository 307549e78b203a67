import { useState } from 'react';
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
  return (
    <>
      <ul className="comesoff">
        {notes.map((note, i) => {
          const element = known.byElement[i];
          return element === undefined ? null : (
            <One
              key={note.id}
              note={note}
              modelled={element.reliability}
              fixed={element.fixed}
              practice={practiceSentence(note.code, practiceRecord(runs, note.code, today()))}
              onTake={() => live.take(i)}
              onTry={(reliability) => live.tryOut({ index: i, reliability })}
              onKeep={(reliability) => {
                live.settle();
                const said =
                  reliability === null
                    ? words.layout.reliabilityLearnt(note.code)
                    : words.layout.reliabilitySet(note.code, days(reliability));
                onReliability(note.id, reliability, said);
              }}
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
  readonly note: PlanNote;
  readonly modelled: number;
  readonly fixed: boolean;
  readonly practice: string | null;
  readonly onTake: () => void;
  readonly onTry: (reliability: number) => void;
  readonly onKeep: (reliability: number | null) => void;
}

function One({ note, modelled, fixed, practice, onTake, onTry, onKeep }: OneProps) {
  const stated = reliabilityIn(note);
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
          onTry(chanceOf(now));
        }}
        onChangeEnd={(end) => onKeep(chanceOf(end))}
      >
        <Label>
          <b className="code">{note.code}</b> <span className="quiet n">{clock(note.start)}</span>
        </Label>
        <div className="rail" onPointerEnter={onTake} onFocus={onTake}>
          <SliderTrack className="track">
            <span className="run" style={{ width: `${(100 * value) / DAYS}%` }} />
            <SliderThumb className="thumb" aria-label={words.layout.sliderLabel(note.code, clock(note.start))} />
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
              aria-label={words.layout.backToLearntLabel(note.code)}
              onPress={() => {
                setMoved({ value: kept, from: -1 });
                onKeep(null);
              }}
            >
              {words.layout.backToLearnt}
            </Button>
          </>
        )}
      </p>
    </li>
  );
}
