import { isDay } from '../notation/index.ts';

/**
 * A printed page as a value: what it says, in rows of margin and body. `pdf.ts` sets it on paper; tests
 * read it as words. Nothing here knows fonts or millimetres.
 */
export interface ReportPage {
  readonly title: string;
  readonly meta: string;
  readonly rows: readonly ReportRow[];
  /** Large type for a reader of ten. */
  readonly large: boolean;
  /** Small line at the foot. */
  readonly foot: string;
}

export interface ReportRow {
  /** The margin: what the row is about. */
  readonly about: string;
  readonly blocks: readonly ReportBlock[];
}

export type ReportBlock =
  | { readonly kind: 'text'; readonly text: string; readonly strong?: boolean }
  /** Lines with a figure or a time before each. */
  | { readonly kind: 'lines'; readonly lines: readonly (readonly [string, string])[] }
  /** Empty lines for handwriting. */
  | { readonly kind: 'writing'; readonly lines: number }
  /** A picture as SVG with the words that say the same. */
  | { readonly kind: 'picture'; readonly svg: string; readonly caption: string };

export const text = (value: string, strong = false): ReportBlock => ({ kind: 'text', text: value, strong });

const DAY = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' });

/** A day as it is read out: `2025-09-06` is 6 September 2025. What is no day stays as it was written. */
export const dayWords = (iso: string): string => (isDay(iso) ? DAY.format(new Date(`${iso}T00:00:00Z`)) : iso);

/** All words of a page, for tests and for reading aloud. */
export function wordsOf(page: ReportPage): string {
  const blocks = page.rows.flatMap((row) => [row.about, ...row.blocks.map(blockWords)]);
  return [page.title, page.meta, ...blocks, page.foot].join('\n');
}

function blockWords(block: ReportBlock): string {
  switch (block.kind) {
    case 'text':
      return block.text;
    case 'lines':
      return block.lines.map((line) => line.join(' ')).join('\n');
    case 'picture':
      return block.caption;
    case 'writing':
      return '';
  }
}
