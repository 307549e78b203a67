/**
 * Sheets, PDF viewers and web pages write the same sign in many ways. This file turns every
 * look-alike into the plain sign and remembers where each sign stood, so that an error can name the
 * column of the text as given.
 */

/** Look-alikes that Unicode's own compatibility table does not cover. Left: as met. Right: plain. */
const LOOK_ALIKES: ReadonlyMap<string, string> = new Map([
  ...pairs('×✕✖ⅹхХ', 'x'),
  ...pairs('∗⁎✱﹡', '*'),
  ...pairs('‹〈⟨˂', '<'),
  ...pairs('«≪⟪《', '<<'),
  ...pairs('–—−‑‐', '-'),
  ...pairs('ǃ❗', '!'),
  ...pairs('АΑ', 'A'),
  ...pairs('ТΤ', 'T'),
  ...pairs('Ѕ', 'S'),
  ...pairs('ЕΕ', 'E'),
  ...pairs('е', 'e'),
  ...pairs('оο', 'o'),
  ...pairs('ОΟ', 'O'),
  ...pairs('СϹ', 'C'),
  ...pairs('с', 'c'),
  ...pairs('В', 'B'),
  ...pairs('р', 'p'),
]);

const INVISIBLE = /^[\u00ad\u200b-\u200f\u2060\ufeff]$/u;
const SPACE = /^\s$/u;
const ENTITIES: readonly (readonly [string, string])[] = [
  ['&lt;', '<'],
  ['&nbsp;', ' '],
  ['&times;', 'x'],
];

function pairs(signs: string, plain: string): [string, string][] {
  return Array.from(signs, (sign) => [sign, plain]);
}

/** Plain text and, for each of its characters, the column (from 1) in the text as given. */
export interface Spelling {
  readonly text: string;
  /** null: every character stands where it stood. */
  readonly columns: readonly number[] | null;
}

/** Nothing to fold: the common case, kept free of any work. */
const PLAIN = /^[\x20-\x25\x27-\x7e]*$/;

/** The plain spelling of a text; linear in its length. `３Ｌｚ＜` becomes `3Lz<`. */
export function plainSpelling(given: string): Spelling {
  if (PLAIN.test(given)) return { text: given, columns: null };
  let text = '';
  const columns: number[] = [];
  let at = 0;
  while (at < given.length) {
    const entity = given[at] === '&' ? ENTITIES.find(([name]) => given.startsWith(name, at)) : undefined;
    const sign = entity ? entity[0] : String.fromCodePoint(given.codePointAt(at) ?? 0);
    const plain = entity ? entity[1] : plainSign(sign);
    columns.push(...Array.from(plain, () => at + 1));
    text += plain;
    at += sign.length;
  }
  return { text, columns };
}

function plainSign(sign: string): string {
  const code = sign.charCodeAt(0);
  if (code > 32 && code < 127) return sign;
  const known = LOOK_ALIKES.get(sign);
  if (known !== undefined) return known;
  if (INVISIBLE.test(sign)) return '';
  if (SPACE.test(sign)) return ' ';
  const folded = sign.normalize('NFKC');
  return folded.length <= 2 ? folded : sign;
}
