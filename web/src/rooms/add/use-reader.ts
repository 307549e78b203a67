import { useEffect, useRef, useState } from 'react';
import { readInWorker } from './read-here.ts';
import { readOnServer } from './read-there.ts';
import type { Reading, SheetRead } from './types.ts';

const MOST = 32 * 1024 * 1024;

export type Stage =
  | { readonly at: 'start'; readonly problem: string }
  | { readonly at: 'working'; readonly saying: string; readonly share: number | null }
  | { readonly at: 'read'; readonly read: SheetRead };

/** Reads a sheet in this browser; a picture, or a sheet that cannot be read here, on the server of this machine. */
export function useReader() {
  const [stage, setStage] = useState<Stage>({ at: 'start', problem: '' });
  const under = useRef<Reading<unknown> | null>(null);
  const run = useRef(0);
  const end = () => {
    run.current += 1;
    under.current?.stop();
    under.current = null;
  };
  useEffect(() => end, []);

  const read = async (original: Blob, name: string) => {
    end();
    if (original.size > MOST) {
      setStage({ at: 'start', problem: `${name} is larger than 32 MB. Send the pages of your skaters alone.` });
      return;
    }
    const mine = run.current;
    const show = (next: Stage) => {
      if (mine === run.current) setStage(next);
    };
    const working = (saying: string, share: number | null) => show({ at: 'working', saying, share });
    const follow = <T>(reading: Reading<T>): Promise<T> => {
      if (mine === run.current) under.current = reading;
      else reading.stop();
      return reading.done;
    };
    working(`Reading ${name}.`, null);
    try {
      const bytes = new Uint8Array(await original.arrayBuffer());
      const here = await follow(readInWorker(bytes, name, working));
      if (here.kind === 'server') working(here.why, null);
      const answer = here.kind === 'read' ? here : await follow(readOnServer(original, name, working));
      show({ at: 'read', read: { original, name, protocols: answer.protocols, problems: answer.problems } });
    } catch (error) {
      show({
        at: 'start',
        problem: error instanceof Error ? error.message : 'It could not be read. Nothing was kept.',
      });
    }
  };
  const stop = () => {
    end();
    setStage({ at: 'start', problem: 'Stopped. Nothing was kept.' });
  };
  const again = () => setStage({ at: 'start', problem: '' });
  return { stage, read, stop, again };
}
