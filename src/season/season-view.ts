import { bestsOf, type Bests } from './bests.ts';
import {
  callRecords,
  elementHistory,
  levelAttainment,
  type CallRecord,
  type ElementHistory,
  type LevelRecord,
} from './elements.ts';
import { chanceWithin, outlookOf } from './goals.ts';
import { byKind, type SeasonProgram } from './programs.ts';
import { sinceLast, type SinceLast } from './since-last.ts';
import { trendOf, type Trend } from './trend.ts';
import { usualRange, type UsualRange } from './usual.ts';

/** One category and segment of her season. */
export interface KindView {
  readonly kind: string;
  readonly programs: number;
  readonly results: readonly {
    readonly competition: string;
    readonly date: string | null;
    readonly total: number | null;
  }[];
  readonly usual: UsualRange | null;
  readonly totalTrend: Trend | null;
  readonly tesTrend: Trend | null;
  readonly componentTrend: Trend | null;
  readonly sinceLast: SinceLast | null;
  /** Chance of each target at least once in the events to come; null with fewer than three programs. */
  readonly targets: readonly { readonly target: number; readonly events: number; readonly p: number }[] | null;
}

/** The whole season of one skater. Chances are for the coach alone. */
export interface SeasonView {
  readonly skater: string;
  readonly kinds: readonly KindView[];
  readonly bests: readonly Bests[];
  readonly elements: readonly ElementHistory[];
  readonly levels: readonly LevelRecord[];
  readonly calls: readonly CallRecord[];
  readonly warnings: readonly string[];
}

const values = (list: readonly (number | null)[]): readonly number[] => list.filter((v) => v !== null);

function kindView(kind: string, list: readonly SeasonProgram[], targets: readonly number[], events: number): KindView {
  const totals = values(list.map((p) => p.total));
  const outlook = outlookOf(totals);
  const oneScale = new Set(list.map((p) => p.gradeMax)).size === 1;
  return {
    kind,
    programs: list.length,
    results: list.map(({ competition, date, total }) => ({ competition, date, total })),
    usual: usualRange(totals),
    totalTrend: oneScale ? trendOf(totals) : null,
    tesTrend: oneScale ? trendOf(values(list.map((p) => p.tes))) : null,
    componentTrend: trendOf(values(list.map((p) => p.components))),
    sinceLast: sinceLast(list),
    targets: outlook?.daySd
      ? targets.map((target) => ({ target, events, p: chanceWithin(target, events, outlook) }))
      : null,
  };
}

function warningsOf(programs: readonly SeasonProgram[]): readonly string[] {
  const warnings: string[] = [];
  if (new Set(programs.map((p) => p.gradeMax)).size > 1) {
    warnings.push(
      'The record spans two scales of grades: scores and grades before and after are not joined into one trend.',
    );
  }
  if (new Set(programs.map((p) => p.video)).size > 1) {
    warnings.push(
      'Events with and without video review are counted apart: more calls where there is video are normal.',
    );
  }
  return warnings;
}

/**
 * A skater's season from her own programs alone: usual ranges, trends against the noise, what changed
 * since last time, history by element, levels, calls, bests. `targets` in points, for the next `events`.
 */
export function seasonView(
  skater: string,
  programs: readonly SeasonProgram[],
  options: { readonly targets: readonly number[]; readonly events: number } = { targets: [], events: 1 },
): SeasonView {
  return {
    skater,
    kinds: [...byKind(programs)].map(([kind, list]) => kindView(kind, list, options.targets, options.events)),
    bests: bestsOf(programs),
    elements: elementHistory(programs),
    levels: levelAttainment(programs),
    calls: callRecords(programs),
    warnings: warningsOf(programs),
  };
}
