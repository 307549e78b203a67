/**
 * The one shape of trouble in Edgeledger. Every room answers unreadable input with a value of this
 * kind instead of throwing; throwing is kept for our own bugs.
 */
export interface Problem {
  /** Stable name of the trouble, listed in `docs/errors.md`, e.g. `code.unknown-jump`. */
  readonly code: string;
  /** Path into the value as given (`elements[2].code`), or `line 4, column 7` for text. */
  readonly at: string;
  readonly found: string;
  readonly expected: string;
  /** What the person can do about it, as a sentence. */
  readonly advice: string;
}

export type Result<T, E = Problem> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: E };

export const ok = <T>(value: T): Result<T, never> => ({ ok: true, value });
export const fail = <E>(error: E): Result<never, E> => ({ ok: false, error });

/** One line for people: place, found, expected, what to do. */
export const describeProblem = (p: Problem): string => `${p.at}: found ${p.found}; expected ${p.expected}. ${p.advice}`;
