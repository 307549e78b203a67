/** A spin as the coach types it: `CCoSp: L camel CF 3, L sit SF 3, R sit 3, R upright US 8 eight-revolutions`. */
export interface SpinDraft {
  readonly code: string;
  readonly parts: readonly Record<string, unknown>[];
}

const POSITIONS = new Set(['camel', 'sit', 'upright', 'layback', 'non-basic']);

/**
 * Reads one spin per line into the form of a spin plan; codes, positions and features are checked by the
 * levels room afterwards. Answers what could not be placed, with its line.
 */
export function spinDrafts(text: string): { readonly drafts: readonly SpinDraft[]; readonly problem: string | null } {
  const drafts: SpinDraft[] = [];
  for (const [i, line] of text.split('\n').entries()) {
    if (line.trim() === '') continue;
    const [code, rest] = splitOnce(line, ':');
    if (rest === null)
      return { drafts, problem: `Line ${i + 1}: found no colon; expected a code, then ":" and the parts.` };
    const parts = rest
      .split(',')
      .map((p) => p.trim())
      .filter((p) => p !== '');
    drafts.push({ code: code.trim(), parts: parts.map(partOf) });
  }
  return { drafts, problem: null };
}

function splitOnce(line: string, sign: string): [string, string | null] {
  const at = line.indexOf(sign);
  return at === -1 ? [line, null] : [line.slice(0, at), line.slice(at + 1)];
}

/** Foot, position, variation in capitals, revolutions, and what is left are features. */
function partOf(text: string): Record<string, unknown> {
  const words = text.split(/\s+/);
  const foot = words.find((w) => w === 'L' || w === 'R');
  const position = words.find((w) => POSITIONS.has(w.toLowerCase()))?.toLowerCase();
  const variation = words.find((w) => /^[A-Z]{2,3}$/.test(w));
  const revolutions = words.find((w) => /^\d+([.,]\d+)?$/.test(w));
  const known = new Set([foot, variation, revolutions, words.find((w) => POSITIONS.has(w.toLowerCase()))]);
  return {
    foot,
    position,
    ...(variation === undefined ? {} : { variation }),
    revolutions: revolutions === undefined ? undefined : Number(revolutions.replace(',', '.')),
    features: words.filter((w) => !known.has(w)),
  };
}
