import type { LoggedRunThrough } from '../forecast/index.ts';
import { parseCode } from '../notation/index.ts';

/** How often an element was as planned where it was tried in a run-through. */
export interface PracticeCount {
  readonly asPlanned: number;
  readonly tried: number;
}

/** Counts of one element of hers in run-throughs: the last ones, and those of the last seven days. */
export interface PracticeRecord {
  readonly last: PracticeCount;
  readonly week: PracticeCount;
}

/** Tries that the sentence looks back on. */
const LAST = 12;
const WEEK = 7 * 86_400_000;

const isLeftOut = (what: string): boolean => what === 'left out';

interface Try {
  readonly at: string;
  readonly asPlanned: boolean;
}

function triesOf(runs: readonly LoggedRunThrough[], code: string): readonly Try[] {
  return runs
    .toSorted((a, b) => b.at.localeCompare(a.at))
    .flatMap((run) => {
      const said = new Map(run.exceptions.map(({ no, what }) => [no, what]));
      return run.elements.flatMap((planned, i) => {
        const what = said.get(i + 1);
        if (planned !== code || (what !== undefined && isLeftOut(what))) return [];
        return [{ at: run.at, asPlanned: what === undefined }];
      });
    });
}

const countOf = (tries: readonly Try[]): PracticeCount => ({
  asPlanned: tries.filter((t) => t.asPlanned).length,
  tried: tries.length,
});

/**
 * How often an element was as planned in run-throughs: of the last twelve tries, and of those in the
 * seven days that end with `today` (ISO date). What was left out is no try. Counts, never a rate.
 */
export function practiceRecord(runs: readonly LoggedRunThrough[], code: string, today: string): PracticeRecord {
  const tries = triesOf(runs, code);
  const since = new Date(Date.parse(`${today}T23:59:59Z`) - WEEK).toISOString();
  return {
    last: countOf(tries.slice(0, LAST)),
    week: countOf(tries.filter((t) => t.at >= since && t.at.slice(0, 10) <= today)),
  };
}

/**
 * The record in words that a skater may read: “landed 7 of the last 12 in run-throughs; last week 4 of
 * 5”. null where it was not tried.
 */
export function practiceSentence(code: string, { last, week }: PracticeRecord): string | null {
  if (last.tried === 0) return null;
  const parsed = parseCode(code);
  const verb = parsed.ok && parsed.value.element.kind === 'jump' ? 'landed' : 'as planned';
  const recent = week.tried > 0 && week.tried < last.tried ? `; last week ${week.asPlanned} of ${week.tried}` : '';
  return `${verb} ${last.asPlanned} of the last ${last.tried} in run-throughs${recent}`;
}
