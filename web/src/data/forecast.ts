import { useEffect, useRef, useState } from 'react';
import type { ForecastAnswer, ForecastQuestion } from './forecast.worker.ts';

/**
 * Asks the forecast in a worker, so that dragging stays smooth. Only the newest question counts: the
 * answers of older ones are dropped. null: still computing.
 */
export function useForecast(question: ForecastQuestion): ForecastAnswer | null {
  const [answer, setAnswer] = useState<ForecastAnswer | null>(null);
  const worker = useRef<Worker | null>(null);
  const number = useRef(0);
  const asked = JSON.stringify(question);
  useEffect(() => {
    worker.current = new Worker(new URL('./forecast.worker.ts', import.meta.url), { type: 'module' });
    worker.current.onmessage = ({ data }: MessageEvent<{ no: number; answer: ForecastAnswer }>) => {
      if (data.no === number.current) setAnswer(data.answer);
    };
    return () => worker.current?.terminate();
  }, []);
  useEffect(() => {
    number.current += 1;
    worker.current?.postMessage({ no: number.current, question: JSON.parse(asked) as ForecastQuestion });
  }, [asked]);
  return answer;
}
