import type { AgeGroup } from '../../notation/index.ts';
import { PriorEstimator } from '../learn/estimate.ts';
import type { Priors } from '../learn/priors.ts';
import { Calibration } from './calibration.ts';
import { Field } from './field.ts';
import type { Line } from './line.ts';
import { Newcomers, type Appearance } from './newcomers.ts';
import { predictive, type Predictive } from './predictive.ts';
import { OverBase, PooledSpread, rivalForecasts, type NormalForecast, type Rival } from './rivals.ts';
import { repeatedProgram } from './shape.ts';
import { usualTotal, type Usual } from './usual.ts';

/** A forecast of one line, made from earlier lines alone. */
export interface Forecasted {
  readonly line: Line;
  /** Her own earlier protocols in the category and segment. */
  readonly n: number;
  readonly model: Predictive;
  readonly rivals: Readonly<Record<Rival, NormalForecast>>;
}

/** Tenths of a point: the unit of the program's form. */
const UNIT = 0.1;

const keyOf = (line: Pick<Line, 'category' | 'segment'>): string => `${line.category} ${line.segment}`;
const selfOf = (line: Pick<Line, 'category' | 'skater'>): string => `${line.category} ${line.skater}`;

/** What a line's forecast taught when its score came, kept until the event is over. */
interface Lesson {
  readonly line: Line;
  readonly usual: Usual | null;
  readonly known: boolean;
}

/**
 * Everything that earlier lines say. `learn` takes the lines of one moment after all of them have been
 * forecast; asking for a forecast at or before a moment that was learnt is a fault and throws, so that
 * nothing of the present or the future can reach a forecast.
 */
export class Past {
  private latest = -Infinity;
  private events = 0;
  private readonly seasons = new Map<string | null, number>();
  private readonly fields = new Map<string, Field>();
  private readonly pooled = new Map<string, PooledSpread>();
  private readonly overBase = new Map<string, OverBase>();
  private readonly own = new Map<string, Line[]>();
  private readonly calibration = new Calibration();
  private readonly newcomers = new Newcomers();
  private readonly estimator = new PriorEstimator();
  private priors: Priors | null = null;
  private readonly stored: Priors | null;

  /** `stored`: priors to use instead of those of earlier lines, where the caller asked for them. */
  constructor(stored: Priors | null) {
    this.stored = stored;
  }

  private assertEarlier(when: number): void {
    if (!(this.latest < when)) {
      throw new Error(`leak: a forecast for ${when} would see lines of ${this.latest}; equal is not earlier`);
    }
  }

  private fieldsOf(category: string) {
    const figures = (segment: Line['segment']) => this.fields.get(`${category} ${segment}`)?.figures() ?? null;
    return { short: figures('short'), free: figures('free') };
  }

  private ownLines(line: Line): readonly Line[] {
    return this.own.get(selfOf(line)) ?? [];
  }

  private usualOf(line: Line): Usual | null {
    return usualTotal(this.ownLines(line), line.segment, this.fieldsOf(line.category), ageGroupOf(line));
  }

  private appearance(line: Line): Appearance {
    const { when, category, season } = line;
    return { when, category, seasonPlace: this.seasons.get(season) ?? 0, event: this.events };
  }

  private centre(line: Line, usual: Usual, known: boolean): { readonly mean: number; readonly sd: number } {
    if (known) {
      const { scale, shift } = this.calibration.of(keyOf(line));
      return { mean: usual.mean + shift * usual.sd, sd: usual.sd * scale };
    }
    const debut = this.newcomers.expect(this.appearance(line));
    return { mean: usual.fieldMean + debut.mean * usual.fieldSd, sd: debut.sd * usual.fieldSd };
  }

  private currentPriors(): Priors {
    this.priors ??= this.stored ?? this.estimator.priors('earlier lines of the file');
    return this.priors;
  }

  /** Forecast of a line from everything learnt so far; null: no earlier protocol of its category and segment. */
  forecast(line: Line): Forecasted | null {
    this.assertEarlier(line.when);
    const key = keyOf(line);
    const usual = this.usualOf(line);
    const field = this.fields.get(key)?.figures() ?? null;
    const pooled = this.pooled.get(key);
    const overBase = this.overBase.get(key);
    if (usual === null || field === null || pooled === undefined || overBase === undefined) return null;
    const all = this.ownLines(line);
    const own = all.filter((l) => l.segment === line.segment);
    const last = own.at(-1);
    const { mean, sd } = this.centre(line, usual, all.length > 0);
    const form = last === undefined ? null : repeatedProgram(last, all, this.currentPriors());
    return {
      line,
      n: own.length,
      model: predictive(mean, sd, form, UNIT),
      rivals: rivalForecasts(own, field, pooled, overBase),
    };
  }

  /** Takes in all lines of one moment. */
  learn(lines: readonly Line[]): void {
    const lessons: Lesson[] = lines.map((line) => {
      this.assertEarlier(line.when);
      return { line, usual: this.usualOf(line), known: this.ownLines(line).length > 0 };
    });
    for (const { line, usual, known } of lessons) {
      if (usual === null) continue;
      if (known) this.calibration.add({ key: keyOf(line), z: (line.total - usual.mean) / usual.sd });
      else this.newcomers.add(this.appearance(line), (line.total - usual.fieldMean) / usual.fieldSd);
    }
    for (const line of lines) this.record(line);
    for (const season of new Set(lines.map((l) => l.season))) {
      this.seasons.set(season, (this.seasons.get(season) ?? 0) + 1);
    }
    this.events += 1;
    this.priors = null;
    this.latest = lines.reduce((latest, l) => Math.max(latest, l.when), this.latest);
  }

  private record(line: Line): void {
    const key = keyOf(line);
    kept(this.fields, key, () => new Field()).add(line);
    kept(this.pooled, key, () => new PooledSpread()).add(line);
    kept(this.overBase, key, () => new OverBase()).add(line);
    kept(this.own, selfOf(line), (): Line[] => []).push(line);
    this.estimator.add(line.program);
  }
}

const ageGroupOf = (line: Line): AgeGroup => line.rules.ageGroup;

function kept<V>(map: Map<string, V>, key: string, make: () => V): V {
  const found = map.get(key);
  if (found !== undefined) return found;
  const made = make();
  map.set(key, made);
  return made;
}

/** Lines of one moment after another, oldest first; within a moment by id, so that the file's order changes nothing. */
export function byMoment(lines: readonly Line[]): readonly (readonly Line[])[] {
  const moments = new Map<number, Line[]>();
  const sorted = [...lines].sort((a, b) => compare(a.id ?? '', b.id ?? ''));
  for (const line of sorted) kept2(moments, line.when).push(line);
  return [...moments].sort(([a], [b]) => a - b).map(([, list]) => list);
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function kept2(map: Map<number, Line[]>, key: number): Line[] {
  const list = map.get(key) ?? [];
  map.set(key, list);
  return list;
}

/**
 * Walks through time: every line from `from` on is forecast from the lines before its moment, then the
 * moment is learnt.
 */
export function* walk(
  lines: readonly Line[],
  options: { readonly from: number; readonly priors: Priors | null },
): Generator<{ readonly line: Line; readonly forecast: Forecasted | null }> {
  const past = new Past(options.priors);
  for (const moment of byMoment(lines)) {
    for (const line of moment) if (line.when >= options.from) yield { line, forecast: past.forecast(line) };
    past.learn(moment);
  }
}
