import { UNREADABLE } from '../recognise/cell.ts';
import type { Token } from '../token.ts';

/** Signs that no sheet prints in its words: recognition puts them for letters of a script it does not know. */
const FOREIGN = /[#%@\u00a5\u20ac\u00a3\u00a2\u00a9\u00ae\u2122\u00a7\u00b6^\\\u201c\u201d\u201e\u00ab\u00bb{}]/u;

/**
 * Words of a script that recognition does not know become words that cannot be read: they still are
 * labels and names, where what was made of them (`#5`) would be neither. What was seen stays as the
 * other reading.
 */
export function withUnreadableWords(tokens: readonly Token[]): Token[] {
  return tokens.map((token) => {
    if (!FOREIGN.test(token.text)) return token;
    const letters = Math.min(40, Math.max(2, Math.round(token.width / Math.max(1, token.height))));
    const seen = [{ text: token.text, confidence: 0.1 }, ...(token.alternatives ?? [])];
    return {
      ...token,
      text: UNREADABLE.repeat(letters),
      confidence: Math.min(token.confidence ?? 1, 0.1),
      alternatives: seen,
    };
  });
}
