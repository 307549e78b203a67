import type { Result } from '../../notation/index.ts';
import { boundAllocations, MAX_STREAM_BYTES } from './allocations.ts';
import { boundText } from './bound-text.ts';
import type { PdfLibrary, PdfTableReader } from './library.ts';
import { pagesOfPdf, type PdfOptions, type PdfPage } from './pages.ts';

export interface BrowserPdfOptions {
  /** Address of the folder that holds the library's own tables, ending in a slash; of this server alone. */
  readonly tables: string;
  readonly onProgress?: (done: number, pages: number) => void;
}

/**
 * The pages of a PDF, read in the thread that calls: it must be a worker that holds nothing else, so
 * that whoever waits for it can end it at any moment. There is no canvas: a page without usable text
 * comes with its trouble and without a picture.
 */
export async function* readPdfPages(
  bytes: Uint8Array,
  { tables, onProgress }: BrowserPdfOptions,
): AsyncGenerator<Result<PdfPage>, void, undefined> {
  const options: PdfOptions = { tables: tablesAt(tables), ...(onProgress === undefined ? {} : { onProgress }) };
  yield* pagesOfPdf(await loadLibrary(), bytes, options);
}

let loaded: Promise<PdfLibrary> | null = null;

/** Both halves of the library in one thread, as Node has them: the same words come out of the same file. */
const loadLibrary = (): Promise<PdfLibrary> => (loaded ??= load());

async function load(): Promise<PdfLibrary> {
  // The library finds its other half by the name that this leaves behind, and starts no thread of its own.
  // @ts-expect-error: that half carries no types
  await import('pdfjs-dist/legacy/build/pdf.worker.mjs');
  const library: unknown = await import('pdfjs-dist/legacy/build/pdf.mjs');
  boundAllocations(MAX_STREAM_BYTES);
  boundDecompression(MAX_STREAM_BYTES);
  return boundText(library as PdfLibrary);
}

const tablesAt = (folder: string): NonNullable<PdfOptions['tables']> => ({
  cMapUrl: `${folder}cmaps/`,
  cMapPacked: true,
  standardFontDataUrl: `${folder}standard_fonts/`,
  BinaryDataFactory: TablesOfServer,
});

/** The library's own reader of tables looks for a document, which a worker has not. */
class TablesOfServer implements PdfTableReader {
  readonly #folders: Readonly<Record<string, unknown>>;

  constructor(folders: Readonly<Record<string, unknown>>) {
    this.#folders = folders;
  }

  async fetch({ kind, filename }: { readonly kind: string; readonly filename: string }): Promise<Uint8Array> {
    const folder = this.#folders[kind];
    // A name comes out of the file that is read: it must not lead anywhere else.
    if (typeof folder !== 'string' || !/^[\w.+-]+$/.test(filename)) throw new Error('no such table');
    const answer = await fetch(folder + filename);
    // The app answers addresses that it does not know with its one page.
    if (!answer.ok || (answer.headers.get('content-type') ?? '').startsWith('text/html')) {
      throw new Error(`no table ${filename}`);
    }
    return new Uint8Array(await answer.arrayBuffer());
  }
}

/** As in Node: what unpacks to more than the limit fails, and the library unpacks it bit by bit, held down. */
function boundDecompression(limit: number): void {
  const Plain = globalThis.DecompressionStream;
  const Bounded = function boundedDecompression(format: 'deflate') {
    const { readable, writable } = new Plain(format);
    let length = 0;
    const counted = new TransformStream<Uint8Array, Uint8Array>({
      transform(chunk, controller) {
        length += chunk.byteLength;
        if (length > limit) throw new RangeError('stream unpacks to too much');
        controller.enqueue(chunk);
      },
    });
    return { writable, readable: readable.pipeThrough(counted) };
  };
  Object.defineProperty(globalThis, 'DecompressionStream', { value: Bounded });
}
