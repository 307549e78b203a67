import type { Writable } from 'node:stream';
import type { JobView } from './jobs.ts';

/**
 * Tells a watcher how a job goes, as server-sent events. Whoever does not read misses what lies between:
 * one state waits at most, the newest. The result is fetched from its address, not sent to every watcher.
 */
export function eventWriter(out: Writable): (view: JobView) => void {
  let waiting: JobView | null = null;
  let blocked = false;
  const write = (view: JobView): void => {
    const told = { ...view, result: undefined, resultAt: `/api/jobs/${view.id}` };
    blocked = !out.write(`data: ${JSON.stringify(told)}\n\n`);
    if (view.state !== 'working') out.end();
  };
  out.on('drain', () => {
    blocked = false;
    if (waiting === null) return;
    const view = waiting;
    waiting = null;
    write(view);
  });
  return (view) => {
    if (out.writableEnded || out.destroyed) return;
    if (blocked) waiting = view;
    else write(view);
  };
}
