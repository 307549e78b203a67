import { fail, ok, type Result } from './problem.ts';
import type { Segment } from './vocabulary.ts';

const SEASON = /^(?:19|20)\d\d[ ]*[/\-–—][ ]*(?:(?:19|20)?\d\d)$/;

/** Reads a season, `2023/24`, `2023-24`, `2023/2024`, and gives `2023/24`. The two years must follow each other. */
export function parseSeason(text: string): Result<string> {
  const given = text.trim();
  const years = SEASON.test(given) ? (given.match(/\d+/g) ?? []) : [];
  const [first = '', second = ''] = years;
  if (
    first !== '' &&
    (Number(first) + 1) % 100 === Number(second) % 100 &&
    (second.length === 2 || Number(second) === Number(first) + 1)
  ) {
    return ok(seasonFrom(Number(first)));
  }
  return fail({
    code: 'season.unknown',
    at: 'season',
    found: `“${given.slice(0, 24)}”`,
    expected: 'two years that follow each other, such as 2023/24',
    advice: 'Write the season as 2023/24.',
  });
}

/** The season that begins in July of a year: 2023 gives `2023/24`. */
export const seasonFrom = (year: number): string => `${year}/${String((year + 1) % 100).padStart(2, '0')}`;

const SHORT = /\b(?:short|sp)\b/i;
const FREE = /\b(?:free|long|fs)\b/i;

/** Reads a segment: `short`, `Short Program`, `SP`; `free`, `Free Skating`, `Free Skate`, `FS`. */
export function parseSegment(text: string): Result<Segment> {
  const short = SHORT.test(text);
  if (short !== FREE.test(text)) return ok(short ? 'short' : 'free');
  return fail({
    code: 'segment.unknown',
    at: 'segment',
    found: `“${text.trim().slice(0, 24)}”`,
    expected: 'short or free',
    advice: 'Write short or free.',
  });
}
