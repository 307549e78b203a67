import { useEffect, useRef, useState } from 'react';
import type { ForecastAnswer, ForecastQuestion } from './forecast.worker.ts';

/**
 * Asks the forecast in a worker, so that dragging stays smooth. Only the newest question counts: the
 * answers of older ones are dropped, and while one is worked on only the newest of the rest is kept.
 * null: still computing.
 */
export function useForecast(question: ForecastQuestion): ForecastAnswer | null {
  const [answer, setAnswer] = useState<ForecastAnswer | null>(null);
  const ask = useRef<(question: ForecastQuestion) => void>(() => undefined);
  const asked = JSON.stringify(question);
  useEffect(() => {
    const worker = new Worker(new URL('./forecast.worker.ts', import.meta.url), { type: 'module' });
    let busy = false;
    let next: ForecastQuestion | null = null;
    const send = (what: ForecastQuestion) => {
      busy = true;
      next = null;
      worker.postMessage({ no: 0, question: what });
    };
    worker.onmessage = ({ data }: MessageEvent<{ no: number; answer: ForecastAnswer }>) => {
      busy = false;
      setAnswer(data.answer);
      if (next !== null) send(next);
    };
    worker.onerror = (event) => {
      busy = false;
      setAnswer({ ok: false, why: `The range could not be computed: ${event.message}` });
    };
    ask.current = (what) => {
      if (busy) next = what;
      else send(what);
    };
    return () => worker.terminate();
  }, []);
  useEffect(() => {
    ask.current(JSON.parse(asked) as ForecastQuestion);
  }, [asked]);
  return answer;
}
