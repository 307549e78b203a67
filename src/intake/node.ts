/** Door of the room `intake` for Node: readers for PDF files and pictures, each guarded. */
import { ok, type Result } from '../notation/index.ts';
import { type GuardedPdfOptions, readPdfPages } from './pdf/node.ts';
import type { PdfPage } from './pdf/pages.ts';
import type { TextReader } from './photo/text.ts';
import type { IntakeOptions, PageSource } from './read-sheet.ts';

export type { GuardedPdfOptions } from './pdf/node.ts';

/** Readers to hand to `readSheet`: PDF in a thread of its own, pictures by text recognition on this machine. */
export const nodeReaders = (options: GuardedPdfOptions = {}): Required<Pick<IntakeOptions, 'pdf' | 'picture'>> => ({
  pdf: (bytes) => pdfSource(bytes, options),
  picture: pictureSource,
});

/** Pages of a PDF; a page without usable text is read as a picture. */
async function* pdfSource(bytes: Uint8Array, options: GuardedPdfOptions): ReturnType<PageSource> {
  const reader = new LazyReader();
  try {
    for await (const page of readPdfPages(bytes, options)) {
      yield page.ok && page.value.picture !== null ? await readScan(page.value, reader) : page;
    }
  } finally {
    await reader.stop();
  }
}

/** Where recognition finds words the trouble is over: what they are worth, their confidences say. */
async function readScan(page: PdfPage, reader: LazyReader): Promise<Result<PdfPage>> {
  const { picture } = page;
  if (picture?.channels !== 1) return ok(page);
  const { tokensOfGrey } = await import('./photo/node.ts');
  const tokens = await tokensOfGrey(picture, await reader.start(), page.page);
  return ok({ ...page, tokens, picture: null, trouble: tokens.length === 0 ? page.trouble : null });
}

async function* pictureSource(bytes: Uint8Array): ReturnType<PageSource> {
  const reader = new LazyReader();
  try {
    const { tokensOfPhoto } = await import('./photo/node.ts');
    const tokens = await tokensOfPhoto(bytes, await reader.start());
    yield tokens.ok ? ok({ page: 1, tokens: tokens.value }) : tokens;
  } finally {
    await reader.stop();
  }
}

/** Picture and text recognition libraries are loaded, and started, only when the first picture comes. */
class LazyReader {
  #reader: Promise<TextReader> | null = null;

  start(): Promise<TextReader> {
    return (this.#reader ??= import('./photo/text.ts').then(({ startTextReader }) => startTextReader()));
  }

  async stop(): Promise<void> {
    await (await this.#reader)?.stop();
  }
}
