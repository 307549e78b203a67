import type { Line } from './cell.ts';

/** The lines of one skater, sorted into what they are. */
export interface SheetLines {
  readonly head: readonly Line[];
  readonly items: readonly { readonly kind: 'element' | 'component' | 'other'; readonly line: Line }[];
}
