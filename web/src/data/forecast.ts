import { useCallback, useEffect, useRef, useState, useSyncExternalStore } from 'react';
import type { Ahead } from './ahead.ts';
import type {
  ForecastAnswer,
  ForecastMessage,
  ForecastQuestion,
  ForecastRecord,
  ForecastReply,
  Move,
  RangeAnswer,
} from './forecast.worker.ts';

/** A forecast that follows the page while something on it is moved. */
export interface LiveForecast {
  /** null: still computing. */
  readonly answer: ForecastAnswer | null;
  /** The range of the program that the page shows now; of the one before while it is worked out. null: none yet. */
  readonly range: RangeAnswer | null;
  /** What one more day of twenty brings, element by element; null until it is worked out. */
  readonly moves: readonly Move[] | null;
  /** Has programs worked out before they are shown, likeliest first, so that their range stands in the same frame. */
  readonly lookAhead: (list: readonly Ahead[]) => void;
}

/** Quiet after the last answer before the longer question, what moves it most, is asked. */
const PAUSE = 350;

/** The worker with the question that waits for it: the newest counts, the others are dropped. */
class Line {
  #busy = false;
  #ask: ForecastQuestion | null = null;
  readonly #post: (message: ForecastMessage) => void;

  constructor(post: (message: ForecastMessage) => void) {
    this.#post = post;
  }

  ask(question: ForecastQuestion): void {
    this.#ask = question;
    this.#next();
  }

  answered(): void {
    this.#busy = false;
    this.#next();
  }

  #next(): void {
    if (this.#busy || this.#ask === null) return;
    this.#busy = true;
    this.#post({ kind: 'ask', question: this.#ask });
    this.#ask = null;
  }
}

/** Ranges by the key of their program. */
class Ranges {
  readonly #known = new Map<string, RangeAnswer>();
  readonly #listeners = new Set<() => void>();

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  get(key: string): RangeAnswer | null {
    return this.#known.get(key) ?? null;
  }

  set(key: string, range: RangeAnswer): void {
    // What is known already stays: the same number, and nothing is drawn anew.
    if (this.#known.has(key)) return;
    this.#known.set(key, range);
    for (const listener of this.#listeners) listener();
  }

  clear(): void {
    this.#known.clear();
  }
}

/**
 * Asks the forecast in a worker, so that the page stays free. `now` is the key of the program that the
 * page shows while a note or a slider is moved: where it was worked out ahead, its range is there at once.
 */
export function useForecast(record: ForecastRecord, question: ForecastQuestion, now: string): LiveForecast {
  const [answer, setAnswer] = useState<ForecastAnswer | null>(null);
  const [moves, setMoves] = useState<readonly Move[] | null>(null);
  const [ranges] = useState(() => new Ranges());
  const post = useRef<(message: ForecastMessage) => void>(() => undefined);
  const line = useRef<Line | null>(null);

  useEffect(() => {
    const worker = new Worker(new URL('./forecast.worker.ts', import.meta.url), { type: 'module' });
    const send = (message: ForecastMessage) => worker.postMessage(message);
    post.current = send;
    const own = new Line(send);
    line.current = own;
    worker.onmessage = ({ data }: MessageEvent<ForecastReply>) => {
      if (data.kind === 'moves') setMoves(data.moves);
      else if (data.kind === 'ahead') ranges.set(data.key, data.range);
      else {
        if (data.answer.ok) ranges.set(data.key, data.answer);
        setAnswer(data.answer);
        own.answered();
      }
    };
    worker.onerror = (event) => {
      setAnswer({ ok: false, why: `The range could not be computed: ${event.message}` });
      own.answered();
    };
    return () => worker.terminate();
  }, [ranges]);

  useEffect(() => {
    ranges.clear();
    post.current({ kind: 'record', record });
  }, [ranges, record]);
  const asked = JSON.stringify(question);
  useEffect(() => {
    line.current?.ask(JSON.parse(asked) as ForecastQuestion);
  }, [asked, record]);
  useEffect(() => {
    if (answer?.ok !== true) return undefined;
    const later = setTimeout(() => post.current({ kind: 'moves' }), PAUSE);
    return () => clearTimeout(later);
  }, [answer]);

  const found = useSyncExternalStore(ranges.subscribe, () => ranges.get(now));
  const [range, setRange] = useState<RangeAnswer | null>(null);
  if (found !== null && found !== range) setRange(found);

  const lookAhead = useCallback(
    (list: readonly Ahead[]) => {
      const open = list.filter((one) => ranges.get(one.key) === null);
      post.current({ kind: 'ahead', list: open });
    },
    [ranges],
  );
  return { answer, range: found ?? range, moves, lookAhead };
}
