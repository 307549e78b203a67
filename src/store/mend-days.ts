import { isDay, isTime, nearestDay } from './checks.ts';

const DAYS = new Set(['date', 'endDate', 'freeze', 'due', 'nextLesson', 'until']);
/** What belongs to other rooms is kept as given. */
const FORMS = new Set(['form', 'value', 'protocols']);

/**
 * A record of a store in which days were not checked: a day that does not exist becomes the nearest that
 * does, an end before the beginning is left out, a release that is no time is none.
 */
export function withRealDays(record: unknown): unknown {
  if (Array.isArray(record)) return record.map(withRealDays);
  if (typeof record !== 'object' || record === null) return record;
  const mended: Record<string, unknown> = {};
  for (const [key, value] of Object.entries(record)) {
    if (FORMS.has(key)) mended[key] = value;
    else if (DAYS.has(key) && typeof value === 'string') mended[key] = isDay(value) ? value : nearestDay(value);
    else if (key === 'releasedAt' && typeof value === 'string') mended[key] = isTime(value) ? value : null;
    else mended[key] = withRealDays(value);
  }
  const { date, endDate } = mended;
  if (typeof date === 'string' && typeof endDate === 'string' && endDate < date) mended.endDate = null;
  return mended;
}
