/**
 * One word of a sheet with its place: what PDF, photograph, plain text and HTML have in common. The
 * recogniser knows nothing else of where a sheet came from.
 *
 * Lengths are in the unit of the source (PDF points, pixels, characters and lines); only their
 * proportions matter. `x`, `y` are the upper left corner, y grows downwards, text runs to the right.
 */
export interface Token {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** From 1. */
  readonly page: number;
  /** 0..1, only where the text was recognised from a picture. */
  readonly confidence?: number;
  /** Other readings of the same word with their confidence, best first; only from a picture. */
  readonly alternatives?: readonly TokenAlternative[];
}

export interface TokenAlternative {
  readonly text: string;
  /** 0..1. */
  readonly confidence: number;
}
