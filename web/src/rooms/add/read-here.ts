import type { ReadJob, Told } from './read.worker.ts';
import type { Reading, ReadProtocol } from './types.ts';

/** The worker is ended when it has said nothing for so many seconds while it was reading. */
const PATIENCE = 30;
/** Loading the worker may take this long on a busy machine. */
const START_PATIENCE = 120;

export type Outcome =
  | { readonly kind: 'read'; readonly protocols: readonly ReadProtocol[]; readonly problems: readonly string[] }
  /** The server of this machine must read it: a picture, or the worker did not work here. */
  | { readonly kind: 'server'; readonly why: string };

/** Reads a sheet in a worker of this page; `stop` ends the worker at once, and `done` then stays open for ever. */
export function readInWorker(
  bytes: Uint8Array,
  name: string,
  onProgress: (saying: string, share: number | null) => void,
): Reading<Outcome> {
  const worker = new Worker(new URL('./read.worker.ts', import.meta.url), { type: 'module' });
  let watch: ReturnType<typeof setTimeout> | undefined;
  const stop = () => {
    clearTimeout(watch);
    worker.terminate();
  };
  const done = new Promise<Outcome>((resolve) => {
    const end = (outcome: Outcome) => {
      stop();
      resolve(outcome);
    };
    let silent: Outcome = NOT_HERE;
    const listen = (seconds: number) => {
      clearTimeout(watch);
      watch = setTimeout(() => end(silent), seconds * 1000);
    };
    worker.onmessage = ({ data }: MessageEvent<Told | { readonly tell?: undefined }>) => {
      if (data.tell === undefined) return;
      listen(PATIENCE);
      if (data.tell === 'begun') silent = { kind: 'read', protocols: [], problems: [data.ifSilent] };
      else if (data.tell === 'progress') onProgress(...progressOf(name, data));
      else if (data.tell === 'read') end({ kind: 'read', ...readOf(data) });
      else if (data.tell === 'pictures') end({ kind: 'server', why: picture(data.where.page) });
      else end(NOT_HERE);
    };
    worker.onerror = () => end(NOT_HERE);
    listen(START_PATIENCE);
    worker.postMessage({ bytes, name, patience: PATIENCE } satisfies ReadJob, [bytes.buffer]);
  });
  return { done, stop };
}

const NOT_HERE: Outcome = { kind: 'server', why: 'It could not be read in this browser; the server reads it.' };

const picture = (page: number | null): string =>
  page === null
    ? 'A photograph: the server on your machine reads it.'
    : `Page ${page} is a picture: the server on your machine reads it.`;

const readOf = ({ read }: Extract<Told, { tell: 'read' }>) => ({
  protocols: read.protocols as unknown as readonly ReadProtocol[],
  problems: read.problems,
});

function progressOf(name: string, { done, skaters }: Extract<Told, { tell: 'progress' }>): [string, number | null] {
  const so = skaters === 1 ? 'one skater so far' : `${skaters} skaters so far`;
  return done === null
    ? [`Reading ${name}: ${so}.`, null]
    : [`Reading ${name}: page ${done.page} of ${done.pages}, ${so}.`, done.page / done.pages];
}
