import { useCallback, useEffect, useRef, useState } from 'react';
import type {
  ForecastAnswer,
  ForecastMessage,
  ForecastQuestion,
  ForecastRecord,
  ForecastReply,
  ForecastTrial,
  Move,
  RangeAnswer,
} from './forecast.worker.ts';

/** A forecast that follows the page while something on it is moved. */
export interface LiveForecast {
  /** null: still computing. */
  readonly answer: ForecastAnswer | null;
  /** The range with one element as a slider has it now; null where none is being moved. */
  readonly trial: RangeAnswer | null;
  /** What one more day of twenty brings, element by element; null until it is worked out. */
  readonly moves: readonly Move[] | null;
  /** Prepares for `tryOut` of an element (index from 0), so that its first step is as quick as the others. */
  readonly take: (index: number) => void;
  readonly tryOut: (trial: ForecastTrial) => void;
  /** The slider was let go, or left: the range is that of the page again. */
  readonly settle: () => void;
}

/** Quiet after the last answer before the longer question, what moves it most, is asked. */
const PAUSE = 350;

/** The worker with the messages that wait for it: of each kind the newest counts, the others are dropped. */
class Line {
  #busy = false;
  #ask: ForecastQuestion | null = null;
  #trial: ForecastTrial | null = null;
  readonly #post: (message: ForecastMessage) => void;

  constructor(post: (message: ForecastMessage) => void) {
    this.#post = post;
  }

  ask(question: ForecastQuestion): void {
    this.#ask = question;
    this.#trial = null;
    this.#next();
  }

  tryOut(trial: ForecastTrial): void {
    this.#trial = trial;
    this.#next();
  }

  answered(): void {
    this.#busy = false;
    this.#next();
  }

  #next(): void {
    if (this.#busy) return;
    if (this.#ask !== null) {
      this.#busy = true;
      this.#post({ kind: 'ask', question: this.#ask });
      this.#ask = null;
    } else if (this.#trial !== null) {
      this.#busy = true;
      this.#post({ kind: 'try', trial: this.#trial });
      this.#trial = null;
    }
  }
}

/**
 * Asks the forecast in a worker, so that moving a note or a slider stays smooth. While one question is
 * worked on only the newest of the rest is kept.
 */
export function useForecast(record: ForecastRecord, question: ForecastQuestion): LiveForecast {
  const [answer, setAnswer] = useState<ForecastAnswer | null>(null);
  const [trial, setTrial] = useState<RangeAnswer | null>(null);
  const [moves, setMoves] = useState<readonly Move[] | null>(null);
  const post = useRef<(message: ForecastMessage) => void>(() => undefined);
  const line = useRef<Line | null>(null);
  const moving = useRef(false);

  useEffect(() => {
    const worker = new Worker(new URL('./forecast.worker.ts', import.meta.url), { type: 'module' });
    const send = (message: ForecastMessage) => worker.postMessage(message);
    post.current = send;
    const own = new Line(send);
    line.current = own;
    worker.onmessage = ({ data }: MessageEvent<ForecastReply>) => {
      if (data.kind === 'moves') {
        setMoves(data.moves);
        return;
      }
      if (data.kind === 'answer') {
        setAnswer(data.answer);
        setTrial(null);
      } else if (moving.current) setTrial(data.range);
      own.answered();
    };
    worker.onerror = (event) => {
      setAnswer({ ok: false, why: `The range could not be computed: ${event.message}` });
      own.answered();
    };
    return () => worker.terminate();
  }, []);

  useEffect(() => {
    post.current({ kind: 'record', record });
  }, [record]);
  const asked = JSON.stringify(question);
  useEffect(() => {
    line.current?.ask(JSON.parse(asked) as ForecastQuestion);
  }, [asked, record]);
  useEffect(() => {
    if (answer?.ok !== true) return undefined;
    const later = setTimeout(() => post.current({ kind: 'moves' }), PAUSE);
    return () => clearTimeout(later);
  }, [answer]);

  const take = useCallback((index: number) => post.current({ kind: 'take', index }), []);
  const tryOut = useCallback((next: ForecastTrial) => {
    moving.current = true;
    line.current?.tryOut(next);
  }, []);
  const settle = useCallback(() => {
    moving.current = false;
  }, []);
  return { answer, trial, moves, take, tryOut, settle };
}
