import type { Io } from './io.ts';

/**
 * What a file says must not steer the terminal: control signs, and signs that turn the direction of what
 * follows, are written out as `\\u001b`. Inside JSON that is the same text; for people it shows what stands there.
 */

/** All controls but tab and line feed, C1 included, and the marks that reorder text. */
const STEERING = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/g;
/** The signs with which this program colours its own words; they colour, and do nothing else. */
const OWN_INK = /^\[(?:0|1|2|22|38;5;\d{1,3})m/;

/** @param coloured the program's own colours are wanted and stay. */
export const harmless = (text: string, coloured: boolean): string =>
  text.replace(STEERING, (sign, at: number) =>
    coloured && sign === '\u001b' && OWN_INK.test(text.slice(at + 1, at + 12)) ? sign : written(sign),
  );

const written = (sign: string): string => `\\u${(sign.codePointAt(0) ?? 0).toString(16).padStart(4, '0')}`;

/** The same outside world, to which nothing is written that steers a terminal. */
export const guarded = (io: Io): Io => ({
  ...io,
  out: (text) => io.out(harmless(text, io.colour)),
  err: (text) => io.err(harmless(text, io.colour)),
});
