import { JUMP_NAMES } from './vocabulary.ts';

const LONGEST = 8;

/** Every element code without its level, as a vocabulary for "did you mean". */
const KNOWN: readonly string[] = [
  ...['1', '2', '3', '4', '5'].flatMap((turns) => JUMP_NAMES.filter((n) => n !== 'Eu').map((name) => turns + name)),
  '1Eu',
  ...['', 'F'].flatMap((entry) =>
    ['', 'C'].flatMap((foot) => ['U', 'L', 'C', 'S', 'Co'].map((position) => `${entry}${foot}${position}Sp`)),
  ),
  'StSq',
  'ChSq',
  'ChSp',
  'ChSt',
];

/**
 * The known codes nearest to a misspelt one, as a sentence: `Did you mean “3Lz”?`. Without a near
 * one, a general hint. Only the start of the word is looked at, so the cost is bounded.
 */
export function didYouMean(word: string): string {
  const start = /^[0-9A-Za-z]{1,9}/.exec(word)?.[0] ?? '';
  const near = nearest(start.length > 3 ? start.replace(/[0-9B]$/, '') : start);
  return near.length === 0 ? 'Check the code against the sheet.' : `Did you mean ${near.slice(0, 3).join(' or ')}?`;
}

function nearest(word: string): readonly string[] {
  if (word === '' || word.length > LONGEST) return [];
  const distances = KNOWN.map((name) => editDistance(word.toLowerCase(), name.toLowerCase()));
  const least = Math.min(...distances);
  if (least > Math.max(1, Math.floor(word.length / 3))) return [];
  return KNOWN.filter((_, i) => distances[i] === least).map((name) => `“${name}”`);
}

/** Levenshtein distance of two short words. */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(change, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}
