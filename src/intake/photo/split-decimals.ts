import type { Token } from '../token.ts';

const WHOLE = /^-?\d{1,3}[.,]$/;
const HUNDREDTHS = /^\d\d$/;
/** Between the parts of one figure in print of even pitch, in heights of a figure. */
const GAP = 0.9;

/** In print of even pitch a comma stands far from the figure behind it: `6,` and `89` are one figure again. */
export function withWholeDecimals(tokens: readonly Token[]): Token[] {
  const found: Token[] = [];
  for (const token of tokens) {
    const before = found.at(-1);
    if (before === undefined || !WHOLE.test(before.text) || !HUNDREDTHS.test(token.text) || !isNext(before, token)) {
      found.push(token);
      continue;
    }
    found[found.length - 1] = {
      ...before,
      text: before.text + token.text,
      width: token.x + token.width - before.x,
      confidence: Math.min(before.confidence ?? 1, token.confidence ?? 1),
      alternatives: (token.alternatives ?? []).map((one) => ({ ...one, text: before.text + one.text })),
    };
  }
  return found;
}

function isNext(before: Token, token: Token): boolean {
  const gap = token.x - before.x - before.width;
  return gap < GAP * token.height && Math.abs(token.y - before.y) < 0.4 * token.height;
}
