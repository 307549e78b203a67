import { formatCode, parseCode } from '../../notation/index.ts';
import type { Token } from '../token.ts';

/**
 * Codes have a grammar, so that most misread ones can be told: `47` in the column of codes is `4T`,
 * `StS93` is `StSq3`. A repaired code keeps little confidence: the base value beside it has to bear it
 * out.
 */
export function withRepairedCodes(tokens: readonly Token[]): Token[] {
  const columns = codeColumns(tokens);
  return tokens.map((token) => {
    if (isCode(token.text)) return withCallForHalf(token);
    const inColumn = columns.some((x) => Math.abs(x - token.x) < 0.7 * token.height);
    if (!inColumn && !LIKE_CODE.test(token.text)) return token;
    const repairs = repaired(token);
    const [best] = repairs;
    if (best === undefined || (!inColumn && repairs.length > 1)) return token;
    const others = [token.text, ...repairs.slice(1), ...(token.alternatives ?? []).map(({ text }) => text)];
    return withCallForHalf({
      ...token,
      text: best,
      confidence: Math.min(token.confidence ?? 1, REPAIRED),
      alternatives: [...new Set(others)].filter((text) => text !== best).map((text) => ({ text, confidence: 0.1 })),
    });
  });
}

/** `<` in small print looks like the `x` of the second half: the base value decides between them. */
function withCallForHalf(token: Token): Token {
  const other = `${token.text.slice(0, -1)}<`;
  if (!token.text.endsWith('x') || !isCode(other)) return token;
  return { ...token, alternatives: [{ text: other, confidence: 0.1 }, ...(token.alternatives ?? [])] };
}

const REPAIRED = 0.5;
/** Out of the column of codes only what can hardly be anything else. */
const LIKE_CODE = /^(?:[FCLUS]{0,2}(?:[Cc]o|[CSULcs])[S5s$][pP].?V?|[S5][t+][S5][qg9].?|C?h[S5][qg9p].?)$/;
const MAX_LENGTH = 18;

function isCode(text: string): boolean {
  if (text.length > MAX_LENGTH || !/^(?:[0-5][TSLFAE]|F?C?(?:Co|[ULCS])Sp|StSq|ChS[qpt])/.test(text)) return false;
  const parsed = parseCode(text);
  return parsed.ok && formatCode(parsed.value).replace(/\s/g, '') === text.replace(/\s/g, '');
}

/** Left edges that at least three codes share. */
function codeColumns(tokens: readonly Token[]): number[] {
  const codes = tokens.filter((token) => isCode(token.text));
  return codes
    .filter((token) => codes.filter((other) => Math.abs(other.x - token.x) < 0.7 * token.height).length >= 3)
    .map((token) => token.x)
    .filter((x, i, all) => all.findIndex((other) => Math.abs(other - x) < 4) === i);
}

/** What text recognition takes for something else, in the print of sheets. */
const CONFUSED: Readonly<Record<string, string>> = {
  '7': 'T',
  l: '1L',
  I: '1',
  '|': '1',
  i: '1',
  '9': 'q',
  g: 'q',
  $: 'S',
  '5': 'S',
  s: 'S',
  '8': 'SB',
  '0': 'oq',
  O: 'o',
  c: 'C',
  G: 'C',
  e: 'C',
  f: 'F',
  t: 'T',
  '2': 'zA',
  Z: 'z',
  E: 'FL',
  P: 'p',
  '1': 'T',
  '4': 'A',
  D: 'o',
  a: 'o',
  '€': 'C',
  '¢': 'c',
  '°': 'o',
  v: 'V',
  u: 'U',
  J: '3',
  S: '3',
  B: '3',
  '§': 'S',
  k: 'L',
  '?': 'T',
  ']': 'T',
};
const MAX_CHANGES = 4;
const MAX_TRIED = 600;

/** Spellings that are codes, with as few changes as possible; several where equally few do. */
function repaired(token: Token): string[] {
  const offered = (token.alternatives ?? []).map(({ text }) => text).filter(isCode);
  if (offered.length > 0) return offered;
  if (token.text.length > MAX_LENGTH || token.text.length < 2) return [];
  let level = [token.text];
  const seen = new Set(level);
  for (let changes = 0; changes < MAX_CHANGES && seen.size < MAX_TRIED; changes += 1) {
    level = level
      .flatMap((text) => changedOnce(text))
      .filter((text) => seen.size < MAX_TRIED && !seen.has(text) && seen.add(text));
    const found = level.filter(isCode);
    if (found.length > 0) return found;
  }
  return [];
}

/** Jumps that are second in a combination, most frequent first. */
const SECOND_JUMPS = ['T', 'Lo', 'S', 'F', 'A'];

/** One glyph taken for another, one taken for two, or the last letter of a combination lost. */
function changedOnce(text: string): string[] {
  const characters = Array.from(text);
  const replaced = characters.flatMap((character, i) =>
    Array.from(CONFUSED[character] ?? '').map((other) => characters.with(i, other).join('')),
  );
  const left = characters.flatMap((character, i) =>
    characters.length >= 5 || character === characters[i + 1] ? [characters.toSpliced(i, 1).join('')] : [],
  );
  const ended = /\+\d$/.test(text) ? SECOND_JUMPS.map((jump) => text + jump) : [];
  return [...replaced, ...left, ...ended];
}
