/** Door of the room `intake` for the browser: everything but pictures, read in a worker of the page. */
import { gatherSheets, type SheetRead } from './gather.ts';
import { describeProblem } from '../notation/index.ts';
import { readPdfPages } from './pdf/browser.ts';
import { PDF_PROBLEMS } from './pdf/problems.ts';
import { readSheet, sheetForm, type PageSource, type SheetInput } from './read-sheet.ts';
import type { Library } from '../rulebook/index.ts';

export type { SheetRead } from './gather.ts';

export interface BrowserReading {
  readonly library: Library;
  /** Address of the folder with the PDF library's tables, ending in a slash. */
  readonly tables: string;
  /** How far: pages are null for everything but a PDF. */
  readonly onProgress?: (done: { readonly page: number; readonly pages: number } | null, skaters: number) => void;
}

/** What to say where the thread was ended because it made no progress for so many seconds. */
export const noProgress = (seconds: number): string => describeProblem(PDF_PROBLEMS.outOfTime(seconds));

/** Why a sheet is not read here: it holds a picture, which the server of this machine reads. */
export interface NeedsPictures {
  /** The page that is a picture; null for a photograph. */
  page: number | null;
}

/**
 * Reads a whole sheet in this thread, which must be a worker: ended from outside, it leaves nothing
 * behind. A photograph, or a PDF with a page that has no usable text, is not read to the end.
 */
export async function readHere(
  input: SheetInput,
  { library, tables, onProgress = () => undefined }: BrowserReading,
): Promise<SheetRead | NeedsPictures> {
  if (sheetForm(input) === 'picture') return { page: null };
  const picture: NeedsPictures = { page: null };
  let skaters = 0;
  const pdf: PageSource = async function* (bytes) {
    for await (const page of readPdfPages(bytes, { tables })) {
      if (page.ok && page.value.trouble !== null) {
        picture.page = page.value.page;
        return;
      }
      yield page;
      if (page.ok) onProgress({ page: page.value.page, pages: page.value.pages }, skaters);
    }
  };
  const read = await gatherSheets(readSheet(input, { library, pdf }), (so) => {
    skaters = so;
  });
  return picture.page === null ? read : picture;
}
