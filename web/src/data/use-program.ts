import { useEffect, useRef, useState } from 'react';
import type { ProgramRecordForms } from './history.ts';
import type { ProgramAnswer, ProgramQuestion } from './program.worker.ts';

export type Asking =
  | { readonly state: 'idle' }
  | { readonly state: 'working' }
  | { readonly state: 'done'; readonly answer: ProgramAnswer };

/** Long work on programs in a worker of its own; Stop ends the worker at once and nothing is kept. */
export function useProgram(forms: ProgramRecordForms) {
  const [asking, setAsking] = useState<Asking>({ state: 'idle' });
  const worker = useRef<Worker | null>(null);
  const end = () => {
    worker.current?.terminate();
    worker.current = null;
  };
  useEffect(() => end, []);
  const ask = (question: ProgramQuestion['ask']) => {
    end();
    const made = new Worker(new URL('./program.worker.ts', import.meta.url), { type: 'module' });
    worker.current = made;
    setAsking({ state: 'working' });
    made.onmessage = ({ data }: MessageEvent<ProgramAnswer>) => {
      setAsking({ state: 'done', answer: data });
      end();
    };
    made.onerror = (event) => {
      setAsking({ state: 'done', answer: { ok: false, why: `It could not be computed: ${event.message}` } });
      end();
    };
    made.postMessage({ ...forms, ask: question } satisfies ProgramQuestion);
  };
  const stop = () => {
    end();
    setAsking({ state: 'idle' });
  };
  return { asking, ask, stop };
}
