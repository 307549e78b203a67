import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import { Worker } from 'node:worker_threads';
import { fail, ok, type Problem, type Result } from '../../notation/index.ts';
import { PDF_LIMITS, type PdfLimits, type PdfPage } from './pages.ts';
import { detailOf, PDF_PROBLEMS } from './problems.ts';
import { unpackTokens } from './pack.ts';
import type { PackedPage, PdfJob, READY } from './worker.ts';

export interface GuardedPdfOptions {
  readonly limits?: PdfLimits;
  readonly signal?: AbortSignal;
  readonly onProgress?: (done: number, pages: number) => void;
  /** Render pages without usable text to pictures. Default true. */
  readonly pictures?: boolean;
  /** Memory the thread may take beyond what the process holds at its start, in bytes. */
  readonly maxMemory?: number;
  /** The thread is stopped when it has not delivered for so long while it was asked to. */
  readonly maxSilence?: number;
}

const MAX_MEMORY = 700_000_000;
const MAX_SILENCE_MS = 30_000;
/** Starting the thread and loading the library may take this long on a busy machine. */
const MAX_START_MS = 120_000;
/** Pages that may wait unread: enough to keep both threads busy, few enough to bound memory. */
const AHEAD = 32;
const WATCH_EVERY_MS = 20;
/** Asking how much memory is taken costs something: while pages come, it is asked at every so many looks. */
const BUSY_LOOKS = 5;

/**
 * The pages of a PDF read in a thread of its own that is stopped when it takes too much memory or
 * time, or on request. Every trouble is a `Problem` among the pages; the process itself goes on.
 */
export async function* readPdfPages(
  bytes: Uint8Array,
  options: GuardedPdfOptions = {},
): AsyncGenerator<Result<PdfPage>, void, undefined> {
  const limits = options.limits ?? PDF_LIMITS;
  if (bytes.length > limits.maxBytes) {
    yield fail(PDF_PROBLEMS.tooLarge(bytes.length, limits.maxBytes));
    return;
  }
  if (options.signal?.aborted === true) {
    yield fail(PDF_PROBLEMS.cancelled());
    return;
  }
  const thread = startThread({ bytes, limits, pictures: options.pictures ?? true });
  const queue = new Queue(thread, options);
  try {
    for (let next = await queue.next(); next !== null; next = await queue.next()) {
      yield next;
      if (next.ok) options.onProgress?.(next.value.page, next.value.pages);
    }
  } finally {
    queue.stop();
    await thread.terminate();
  }
}

function startThread(job: PdfJob): Worker {
  const options = {
    workerData: job,
    resourceLimits: { maxOldGenerationSizeMb: 512, maxYoungGenerationSizeMb: 32, stackSizeMb: 4 },
    stdout: true,
    stderr: true,
  };
  return import.meta.url.endsWith('.ts')
    ? new Worker(bootFromSource(), { ...options, eval: true })
    : new Worker(new URL('./worker.js', import.meta.url), { ...options, execArgv: [] });
}

/** From sources (tests, tools) the thread needs the loader that reads TypeScript before anything else. */
function bootFromSource(): string {
  const loader = pathToFileURL(
    createRequire(import.meta.url)
      .resolve('tsx/esm/api')
      .replace(/cjs$/, 'mjs'),
  ).href;
  const file = new URL('./worker.ts', import.meta.url).href;
  return `import(${JSON.stringify(loader)}).then(({ register }) => { register(); return import(${JSON.stringify(file)}); })`;
}

const unpack = (result: Result<PackedPage>): Result<PdfPage> =>
  result.ok ? ok({ ...result.value, tokens: unpackTokens(result.value.tokens) }) : result;

/** Results on their way from the thread, with the watch over its memory and silence. */
class Queue {
  readonly #thread: Worker;
  readonly #waiting: Result<PdfPage>[] = [];
  readonly #watch: NodeJS.Timeout;
  readonly #maxMemory: number;
  readonly #maxSilence: number;
  readonly #signal: AbortSignal | undefined;
  readonly #onAbort = (): void => this.#end(PDF_PROBLEMS.cancelled());
  /** Memory of the process when the library was loaded; before that nothing is watched but time. */
  #baseline = Infinity;
  #ended = false;
  #heard = Date.now();
  #looks = 0;
  #wake: (() => void) | null = null;

  constructor(thread: Worker, options: GuardedPdfOptions) {
    this.#thread = thread;
    this.#maxMemory = options.maxMemory ?? MAX_MEMORY;
    this.#maxSilence = options.maxSilence ?? MAX_SILENCE_MS;
    this.#signal = options.signal;
    this.#signal?.addEventListener('abort', this.#onAbort);
    thread.on('message', (page: Result<PackedPage> | typeof READY) => this.#push(page));
    thread.on('error', (error) => this.#end(this.#problemOfThread(error)));
    thread.on('exit', () => this.#end(null));
    thread.postMessage(AHEAD);
    this.#watch = setInterval(() => this.#check(), WATCH_EVERY_MS);
  }

  /** The next result, null after the last. */
  async next(): Promise<Result<PdfPage> | null> {
    while (this.#waiting.length === 0 && !this.#ended) {
      await new Promise<void>((resolve) => (this.#wake = resolve));
    }
    const page = this.#waiting.shift() ?? null;
    if (page !== null && !this.#ended) this.#thread.postMessage(1);
    return page;
  }

  stop(): void {
    clearInterval(this.#watch);
    this.#signal?.removeEventListener('abort', this.#onAbort);
    this.#ended = true;
  }

  #push(page: Result<PackedPage> | typeof READY): void {
    if (this.#ended) return;
    this.#heard = Date.now();
    if (page === 'ready') this.#baseline = process.memoryUsage.rss();
    else this.#waiting.push(unpack(page));
    this.#wake?.();
  }

  #check(): void {
    if (this.#waiting.length > 0) this.#heard = Date.now();
    this.#looks += 1;
    const quiet = Date.now() - this.#heard;
    if (quiet < WATCH_EVERY_MS && this.#looks % BUSY_LOOKS !== 0) return;
    if (process.memoryUsage.rss() - this.#baseline > this.#maxMemory) {
      this.#end(PDF_PROBLEMS.outOfMemory(this.#maxMemory));
    } else if (quiet > (this.#baseline === Infinity ? MAX_START_MS : this.#maxSilence)) {
      this.#end(PDF_PROBLEMS.outOfTime(Math.round(this.#maxSilence / 1000)));
    }
  }

  #end(problem: Problem | null): void {
    if (!this.#ended && problem !== null) this.#waiting.push(fail(problem));
    this.stop();
    void this.#thread.terminate();
    this.#wake?.();
  }

  #problemOfThread(error: unknown): Problem {
    const code = error instanceof Error && 'code' in error ? error.code : '';
    return code === 'ERR_WORKER_OUT_OF_MEMORY'
      ? PDF_PROBLEMS.outOfMemory(this.#maxMemory)
      : PDF_PROBLEMS.broken(detailOf(error));
  }
}
