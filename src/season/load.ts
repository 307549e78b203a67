/** A logged piece of training: a day and the jump attempts counted on it. */
export interface LoggedJumps {
  /** ISO day or instant. */
  readonly at: string;
  readonly attempts: number;
}

export interface WeekLoad {
  /** Monday of the week, ISO. */
  readonly week: string;
  readonly attempts: number;
  readonly days: number;
}

/** Said with every count of jumps; a number is no target and no permission. */
export const LOAD_CAUTIONS: readonly string[] = [
  'Counts only what was logged; a low number does not mean rest.',
  'How much is right for a skater is decided with coach, parents and, in pain or growth, medical staff. This tool cannot judge it.',
  'Pain: stop and tell a parent and coach; see a clinician.',
];

const DAY = 86_400_000;

/** Monday of the week of a day; null where the text is no date. */
function mondayOf(at: string): string | null {
  const time = Date.parse(`${at.slice(0, 10)}T00:00:00Z`);
  if (!Number.isFinite(time)) return null;
  const sinceMonday = (new Date(time).getUTCDay() + 6) % 7;
  return new Date(time - sinceMonday * DAY).toISOString().slice(0, 10);
}

/** Jump attempts by week, oldest first. Entries without a date are left out. No norm, no state, no colour. */
export function loadByWeek(log: readonly LoggedJumps[]): readonly WeekLoad[] {
  const weeks = new Map<string, { attempts: number; days: Set<string> }>();
  for (const { at, attempts } of log) {
    const week = mondayOf(at);
    if (week === null) continue;
    const entry = weeks.get(week) ?? { attempts: 0, days: new Set<string>() };
    weeks.set(week, entry);
    entry.attempts += attempts;
    entry.days.add(at.slice(0, 10));
  }
  return [...weeks]
    .map(([week, { attempts, days }]) => ({ week, attempts, days: days.size }))
    .sort((a, b) => (a.week < b.week ? -1 : 1));
}
