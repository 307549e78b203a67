import type { PdfDocument, PdfLibrary, PdfLibraryPage, PdfTextContent, PdfTextItem } from './library.ts';

/** Pieces of text on one page beyond which it is no sheet; a full page of small print has three thousand. */
const MAX_PIECES = 100_000;

interface TextStream {
  getReader(): {
    read(): Promise<{ done: boolean; value?: PdfTextContent }>;
    cancel(reason: Error): Promise<void>;
  };
}

interface StreamingPage extends PdfLibraryPage {
  streamTextContent(): TextStream;
}

/**
 * The library with an end to the text of a page: where nobody can watch the memory of the thread, a
 * kilobyte that draws a thousand million words must fail before they are gathered.
 */
export const boundText = (library: PdfLibrary): PdfLibrary => ({
  getDocument(options) {
    const loading = library.getDocument(options);
    return { promise: loading.promise.then(boundDocument), destroy: () => loading.destroy() };
  },
});

const boundDocument = (document: PdfDocument): PdfDocument => ({
  numPages: document.numPages,
  getPage: async (page) => boundPage((await document.getPage(page)) as StreamingPage),
});

const boundPage = (page: StreamingPage): PdfLibraryPage => ({
  getViewport: (options) => page.getViewport(options),
  getTextContent: () => gather(page.streamTextContent()),
  render: (options) => page.render(options),
  cleanup: () => page.cleanup(),
});

async function gather(stream: TextStream): Promise<PdfTextContent> {
  const reader = stream.getReader();
  const items: PdfTextContent['items'][number][] = [];
  const styles = Object.create(null) as Record<string, PdfTextContent['styles'][string]>;
  for (let next = await reader.read(); !next.done; next = await reader.read()) {
    items.push(...((next.value?.items ?? []) as PdfTextItem[]));
    Object.assign(styles, next.value?.styles);
    if (items.length > MAX_PIECES) {
      const error = new RangeError(`more than ${MAX_PIECES} pieces of text`);
      await reader.cancel(error);
      throw error;
    }
  }
  return { items, styles };
}
