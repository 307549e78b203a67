import { contentKey, parseCode, type Element } from '../notation/index.ts';
import type { PanelRule, Protocol } from '../scoring/index.ts';
import { levelNumber } from '../levels/index.ts';
import { median, type Fraction } from './fraction.ts';
import { meanGrade } from './grades.ts';

/** What she usually shows of one element. */
interface UsualElement {
  /** Median level, Basic as 0; of two middle levels the lower, for it was reached both times. */
  readonly level: number | null;
  /** Median of the panels' mean grades, calls and falls included. */
  readonly grade: Fraction | null;
  /** Earlier programs that have the element. */
  readonly times: number;
}

/** Her usual element by element, from earlier protocols. */
export interface Usual {
  of(element: Element): UsualElement | null;
  /** Earlier protocols that were used. */
  readonly programs: number;
}

interface Seen {
  readonly levels: number[];
  readonly grades: Fraction[];
}

/**
 * Medians per element over earlier protocols. Elements are matched after taking off the calls; what
 * cannot be read is passed over. The caller sees to it that all use one scale of grades.
 */
export function usualOf(history: readonly Protocol[], panel: PanelRule): Usual {
  const seen = new Map<string, Seen[]>();
  for (const protocol of history)
    for (const printed of protocol.elements) {
      const read = parseCode(printed.code);
      if (!read.ok) continue;
      const { element } = read.value;
      const grade = meanGrade(printed.marks, panel);
      const level = element.kind === 'jump' || element.level === null ? null : levelNumber(element.level);
      const key = contentKey(element);
      const one = { levels: level === null ? [] : [level], grades: grade === null ? [] : [grade] };
      seen.set(key, [...(seen.get(key) ?? []), one]);
    }
  return {
    programs: history.length,
    of: (element) => {
      const times = seen.get(contentKey(element));
      return times === undefined ? null : summary(times);
    },
  };
}

function summary(times: readonly Seen[]): UsualElement {
  const levels = times.flatMap((one) => one.levels).sort((a, b) => a - b);
  return {
    level: levels[Math.floor((levels.length - 1) / 2)] ?? null,
    grade: median(times.flatMap((one) => one.grades)),
    times: times.length,
  };
}

/**
 * Earlier protocols of the same skater: an earlier date, else a smaller place in time, where both
 * sides carry one; equal is not earlier. Lines that say nothing of skater or time are taken as given.
 */
export function earlierProtocols(history: readonly Protocol[], protocol: Protocol): Protocol[] {
  return history.filter((one) => {
    if (one.id !== null && one.id === protocol.id) return false;
    if (one.skater !== null && protocol.skater !== null && one.skater !== protocol.skater) return false;
    if (one.date !== null && protocol.date !== null) return one.date < protocol.date;
    if (one.order !== null && protocol.order !== null) return one.order < protocol.order;
    return true;
  });
}
