import { useEffect, useRef, useState } from 'react';
import type { ProgramRecordForms } from './history.ts';
import type { ProgramAnswer, ProgramQuestion, ProgramReply } from './program.worker.ts';

export type Asking =
  | { readonly state: 'idle' }
  /** With what was found so far; null: nothing yet. */
  | { readonly state: 'working'; readonly soFar: ProgramAnswer | null }
  | { readonly state: 'done'; readonly answer: ProgramAnswer; readonly stopped: boolean };

/**
 * Long work on programs in a worker of its own. Stop ends the worker at once; what it had found by then
 * stays as the answer.
 */
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
    setAsking({ state: 'working', soFar: null });
    made.onmessage = ({ data }: MessageEvent<ProgramReply>) => {
      if (data.final) end();
      setAsking(
        data.final ? { state: 'done', answer: data.answer, stopped: false } : { state: 'working', soFar: data.answer },
      );
    };
    made.onerror = (event) => {
      const why = `It could not be computed: ${event.message}`;
      setAsking({ state: 'done', answer: { ok: false, why }, stopped: false });
      end();
    };
    made.postMessage({ ...forms, ask: question } satisfies ProgramQuestion);
  };
  const stop = () => {
    end();
    setAsking((now) =>
      now.state === 'working' && now.soFar !== null
        ? { state: 'done', answer: now.soFar, stopped: true }
        : { state: 'idle' },
    );
  };
  return { asking, ask, stop };
}
