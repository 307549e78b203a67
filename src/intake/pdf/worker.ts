import { parentPort, workerData } from 'node:worker_threads';
import { fail, ok, type Result } from '../../notation/index.ts';
import { lowerCeilings } from './ceilings.ts';
import { loadPdfLibrary, nodeCanvas, pdfTables } from './load.ts';
import { type PackedTokens, packTokens } from './pack.ts';
import type { PdfLibrary } from './library.ts';
import { pagesOfPdf, type PdfLimits, type PdfPage } from './pages.ts';
import { problemOfError } from './problems.ts';
import { copyPlainDataSwiftly, withOwnPush } from './swift.ts';

/** What the thread is started with. */
export interface PdfJob {
  readonly bytes: Uint8Array;
  readonly limits: PdfLimits;
  readonly pictures: boolean;
}

/** Posted once the library is loaded: what is taken from here on is the file's doing. */
export const READY = 'ready';

/** A page on its way between the threads. */
export type PackedPage = Omit<PdfPage, 'tokens'> & { readonly tokens: PackedTokens };

const pack = (result: Result<PdfPage>): Result<PackedPage> =>
  result.ok ? ok({ ...result.value, tokens: packTokens(result.value.tokens, result.value.page) }) : result;

/** Both halves of the library, in this one thread. */
async function loadBoth(): Promise<PdfLibrary> {
  // @ts-expect-error: that half carries no types
  await import('pdfjs-dist/legacy/build/pdf.worker.mjs');
  return loadPdfLibrary();
}

/**
 * Thread that reads one PDF and posts page after page, never more than the reader has asked for. It
 * holds nothing but the job, so it can be killed at any moment.
 */
const port = parentPort;
if (port !== null) {
  let wanted = 0;
  let wake: (() => void) | null = null;
  port.on('message', (count: number) => {
    wanted += count;
    wake?.();
  });
  const asked = async (): Promise<void> => {
    while (wanted <= 0) await new Promise<void>((resolve) => (wake = resolve));
    wanted -= 1;
  };
  const run = async (job: PdfJob): Promise<void> => {
    const canvas = job.pictures ? nodeCanvas() : null;
    const options = { limits: job.limits, tables: pdfTables(), ...(canvas === null ? {} : { canvas }) };
    const library = await withOwnPush(loadBoth);
    copyPlainDataSwiftly();
    lowerCeilings();
    port.postMessage(READY);
    for await (const page of pagesOfPdf(library, job.bytes, options)) {
      await asked();
      port.postMessage(pack(page));
    }
  };
  run(workerData as PdfJob)
    .catch((error: unknown) => port.postMessage(fail(problemOfError(error))))
    .finally(() => port.close());
}
