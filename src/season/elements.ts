import { contentKey, formatElement, type Element } from '../notation/index.ts';
import { trendOf, type Trend } from './trend.ts';
import { inTime, type SeasonProgram, type Video } from './programs.ts';

/** One execution of an element. */
export interface Execution {
  readonly competition: string;
  readonly date: string | null;
  readonly segment: SeasonProgram['segment'];
  readonly code: string;
  /** Panel grade on the season's scale; null without marks. */
  readonly grade: number | null;
  readonly score: number | null;
  readonly fall: boolean;
  /** Without call, fall or missing value. */
  readonly clean: boolean;
}

/** Her record of one element, oldest first. */
export interface ElementHistory {
  /** Content without calls and levels, e.g. `3Lz+3T`, `CCoSp`. */
  readonly element: string;
  readonly executions: readonly Execution[];
  readonly clean: number;
  /** Trend of the grade; null with fewer than four graded executions or across scales. */
  readonly gradeTrend: Trend | null;
}

/** No call that costs, no fall, value confirmed. */
export function isClean(element: Element, fall: boolean): boolean {
  if (fall) return false;
  if (element.kind === 'jump') {
    return element.jumps.every((j) => j.rotation === null && j.edge !== 'e' && !j.noValue);
  }
  return element.level !== null && !element.noValue && (element.kind !== 'spin' || element.v === 0);
}

interface Entry {
  readonly key: string;
  readonly scale: number;
  readonly execution: Execution;
}

const entriesOf = (program: SeasonProgram): readonly Entry[] =>
  program.skated.map(({ element, grade, fall }, i) => ({
    key: contentKey(element),
    scale: program.gradeMax,
    execution: {
      competition: program.competition,
      date: program.date,
      segment: program.segment,
      code: formatElement(element),
      grade: grade === null ? null : grade * program.gradeMax,
      score: program.scores[i] ?? null,
      fall,
      clean: isClean(element, fall),
    },
  }));

function historyOf(element: string, entries: readonly Entry[]): ElementHistory {
  const executions = entries.map((entry) => entry.execution);
  const oneScale = new Set(entries.map((entry) => entry.scale)).size === 1;
  return {
    element,
    executions,
    clean: executions.filter((e) => e.clean).length,
    gradeTrend: oneScale ? trendOf(executions.flatMap((e) => e.grade ?? [])) : null,
  };
}

/** History by element, the most often skated first. Grades of two scales are not joined into a trend. */
export function elementHistory(programs: readonly SeasonProgram[]): readonly ElementHistory[] {
  const byElement = new Map<string, Entry[]>();
  for (const entry of inTime(programs).flatMap(entriesOf)) {
    byElement.set(entry.key, [...(byElement.get(entry.key) ?? []), entry]);
  }
  return [...byElement]
    .map(([element, entries]) => historyOf(element, entries))
    .sort((a, b) => b.executions.length - a.executions.length);
}

/** How often each level was confirmed on a spin or sequence. */
export interface LevelRecord {
  readonly element: string;
  readonly n: number;
  /** Level (`none`, `B`, `1` … `4`) -> times. */
  readonly levels: Readonly<Record<string, number>>;
  /** Times with V. */
  readonly reduced: number;
}

/** Level attainment by spin and sequence. */
export function levelAttainment(programs: readonly SeasonProgram[]): readonly LevelRecord[] {
  const records = new Map<string, { n: number; levels: Record<string, number>; reduced: number }>();
  for (const { element } of programs.flatMap((p) => p.skated)) {
    if (element.kind === 'jump') continue;
    const key = contentKey(element);
    const record = records.get(key) ?? { n: 0, levels: {}, reduced: 0 };
    records.set(key, record);
    const level = element.level === null || element.noValue ? 'none' : String(element.level);
    record.n += 1;
    record.levels[level] = (record.levels[level] ?? 0) + 1;
    if (element.kind === 'spin' && element.v > 0) record.reduced += 1;
  }
  return [...records].map(([element, record]) => ({ element, ...record })).sort((a, b) => b.n - a.n);
}

/** Calls on one kind of jump at events of one kind. */
export interface CallRecord {
  readonly jump: string;
  readonly video: Video;
  readonly tries: number;
  /** Call -> times. */
  readonly calls: Readonly<Record<string, number>>;
}

/** Calls by jump, events with and without video review apart. */
export function callRecords(programs: readonly SeasonProgram[]): readonly CallRecord[] {
  const records = new Map<string, { jump: string; video: Video; tries: number; calls: Record<string, number> }>();
  for (const { skated, video } of programs) {
    for (const { element } of skated) {
      if (element.kind !== 'jump') continue;
      for (const jump of element.jumps) {
        const name = `${jump.turns}${jump.name}`;
        const key = `${name} ${video}`;
        const record = records.get(key) ?? { jump: name, video, tries: 0, calls: {} };
        records.set(key, record);
        record.tries += 1;
        for (const call of [jump.rotation, jump.edge]) {
          if (call !== null) record.calls[call] = (record.calls[call] ?? 0) + 1;
        }
      }
    }
  }
  return [...records.values()].sort((a, b) => b.tries - a.tries);
}
