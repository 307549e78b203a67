import { isDay as exists } from '../notation/index.ts';

const DAY = /^(\d{4})-(\d{2})-(\d{2})$/;
const TIME = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:\d{2})$/;
const FIRST_YEAR = 1900;
const LAST_YEAR = 2199;

/** A day of the calendar within the years that a season can have. */
export const isDay = (text: string): boolean =>
  exists(text) && Number(text.slice(0, 4)) >= FIRST_YEAR && Number(text.slice(0, 4)) <= LAST_YEAR;

/** A moment as ISO text with its zone. */
export const isTime = (text: string): boolean =>
  TIME.test(text) && isDay(text.slice(0, 10)) && !Number.isNaN(Date.parse(text));

/** Looked at without recursion: what is too deep must not overrun the check either. */
export function isDeeperThan(value: unknown, most: number): boolean {
  let level: unknown[] = [value];
  for (let depth = 0; level.length > 0; depth += 1) {
    if (depth > most) return true;
    level = level.flatMap((v): unknown[] => (typeof v === 'object' && v !== null ? Object.values(v) : []));
  }
  return false;
}

/** The nearest day that exists; null for what is no date at all. */
export function nearestDay(text: string): string | null {
  const [, year, month, day] = DAY.exec(text) ?? [];
  if (year === undefined || month === undefined || day === undefined) return null;
  const within = (n: number, low: number, high: number) => Math.min(Math.max(n, low), high);
  const y = within(Number(year), FIRST_YEAR, LAST_YEAR);
  const m = within(Number(month), 1, 12);
  const last = new Date(Date.UTC(y, m, 0)).getUTCDate();
  return new Date(Date.UTC(y, m - 1, within(Number(day), 1, last))).toISOString().slice(0, 10);
}
