/** An element as a note on the strip. */
export interface StripNote {
  readonly id: string;
  readonly code: string;
  readonly start: number;
}
