/** Door of the room in Node: readers of PDF files and pictures, opened only when such a file comes. */
import type { IntakeOptions } from './read-sheet.ts';

/** Reads the pages of a PDF file in a thread of its own. */
export const nodeSources: Pick<IntakeOptions, 'pdf'> = {
  pdf: async function* (bytes) {
    const { readPdfPages } = await import('./pdf/node.ts');
    yield* readPdfPages(bytes);
  },
};
