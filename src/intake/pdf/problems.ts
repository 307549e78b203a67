import type { Problem } from '../../notation/index.ts';

/** Why a PDF, or one page of it, could not be read. Listed in `docs/errors.md`. */
export const PDF_PROBLEMS = {
  encrypted: () => ({
    code: 'pdf.encrypted',
    at: 'document',
    found: 'a PDF that asks for a password',
    expected: 'a PDF that opens without one',
    advice: 'Open it with its password, print it to a new PDF and read that one.',
  }),
  broken: (detail: string) => ({
    code: 'pdf.broken',
    at: 'document',
    found: `something that cannot be opened as a PDF (${detail})`,
    expected: 'a whole PDF file',
    advice: 'Fetch the file again; it may have been cut off on the way.',
  }),
  truncated: () => ({
    code: 'pdf.truncated',
    at: 'end of file',
    found: 'no end mark',
    expected: 'a PDF that ends with its end mark',
    advice: 'The file may have been cut off: compare the number of pages and skaters with the original.',
  }),
  page: (page: number, detail: string) => ({
    code: 'pdf.page',
    at: `page ${page}`,
    found: `a page that cannot be read (${detail})`,
    expected: 'a page of text',
    advice: 'The other pages were read. Fetch the file again, or take a picture of this page and read that.',
  }),
  noText: (page: number) => ({
    code: 'pdf.no-text',
    at: `page ${page}`,
    found: 'a page without text, probably a scan',
    expected: 'text',
    advice: 'It is read as a picture where that is possible; check every figure against the sheet.',
  }),
  noLetters: (page: number) => ({
    code: 'pdf.no-letters',
    at: `page ${page}`,
    found: 'characters whose font does not say which letters they are',
    expected: 'text that can be copied',
    advice: 'It is read as a picture where that is possible; check every figure against the sheet.',
  }),
  tooLarge: (bytes: number, limit: number) => ({
    code: 'pdf.too-large',
    at: 'document',
    found: `${megabytes(bytes)} MB`,
    expected: `at most ${megabytes(limit)} MB`,
    advice: 'Split the file, or save it without pictures.',
  }),
  tooManyPages: (pages: number, limit: number) => ({
    code: 'pdf.too-many-pages',
    at: 'document',
    found: `${pages} pages`,
    expected: `at most ${limit} pages`,
    advice: 'Split the file and read the parts one after another.',
  }),
  outOfMemory: (limit: number) => ({
    code: 'pdf.memory',
    at: 'document',
    found: `a file that unpacks to more than the ${megabytes(limit)} MB allowed for reading`,
    expected: 'a sheet or an event book of ordinary size',
    advice: 'Reading was stopped. Print the file to a new PDF, or split it, and read that.',
  }),
  outOfTime: (seconds: number) => ({
    code: 'pdf.time',
    at: 'document',
    found: `no progress for ${seconds} seconds`,
    expected: 'a page every few milliseconds',
    advice: 'Reading was stopped. Print the file to a new PDF and read that one.',
  }),
  cancelled: () => ({
    code: 'pdf.cancelled',
    at: 'document',
    found: 'a request to stop',
    expected: 'reading to the end',
    advice: 'Nothing was saved. Start again when you wish.',
  }),
} as const satisfies Record<string, (...values: never[]) => Problem>;

const megabytes = (bytes: number): number => Math.round(bytes / 1_000_000);

/** A library error as a problem of the whole document. */
export function problemOfError(error: unknown): Problem {
  const name = error instanceof Error ? error.name : '';
  if (name === 'PasswordException') return PDF_PROBLEMS.encrypted();
  return PDF_PROBLEMS.broken(detailOf(error));
}

/** First line of an error's message, short and printable: the file may have put anything into it. */
export function detailOf(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error);
  const line = message.split('\n', 1)[0] ?? '';
  return line.replace(/[^\x20-\x7e]/g, '?').slice(0, 120) || 'no reason given';
}
