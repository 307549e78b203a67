/**
 * A sheet before it is set in type: lines and tables, nothing about fonts or paper. Every producer
 * (`pdfmake.ts`, `html.ts`, `postscript.ts`, `text.ts`) sets the same document in its own way.
 */
export type Block =
  | { readonly kind: 'line'; readonly text: string; readonly role: 'title' | 'heading' | 'plain' | 'small' }
  | {
      readonly kind: 'table';
      readonly columns: readonly Column[];
      readonly head: readonly string[] | null;
      readonly rows: readonly Row[];
    }
  | { readonly kind: 'break' };

export interface Column {
  readonly align: 'left' | 'right' | 'center';
  /** Share of the width, any unit. */
  readonly weight: number;
}

/** `raised` is set smaller and higher, between the parts of the text it splits. */
export type Cell = string | { readonly parts: readonly { readonly text: string; readonly raised: boolean }[] };
export type Row = readonly Cell[];

export const plainText = (cell: Cell): string =>
  typeof cell === 'string' ? cell : cell.parts.map((part) => part.text).join('');

/** How a document is set: the same for all producers, as far as each can. */
export interface Style {
  readonly face: 'sans' | 'serif' | 'mono' | 'narrow';
  /** Points. */
  readonly size: number;
  readonly landscape: boolean;
  /** Lines between rows and columns. */
  readonly rules: 'none' | 'rows' | 'grid';
  /** Page number at the foot: the text before it, null for none. */
  readonly folio: string | null;
  /** Degrees by which the pages lie on their side. */
  readonly turn: 0 | 90 | 180 | 270;
}
