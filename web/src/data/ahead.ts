/**
 * A program that the page may ask for next: another order or half, or one element with another chance of
 * coming off and everything else as in the program `of`. `key` names it: equal keys have equal ranges.
 */
export type Ahead = { readonly key: string; readonly target: number | null } & (
  | { readonly layout: Record<string, unknown> }
  | { readonly of: string; readonly index: number; readonly reliability: number }
);
