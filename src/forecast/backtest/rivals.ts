import { normalCdf, normalPdf } from '../math/special.ts';
import type { FieldFigures } from './field.ts';
import { plannedBase, type Line } from './line.ts';

/** The simple forecasts that the model has to beat. */
export const RIVALS = ['lastScore', 'meanOfLastThree', 'skaterMean', 'plannedBase'] as const;
export type Rival = (typeof RIVALS)[number];

/** A normal forecast, in points. */
export interface NormalForecast {
  readonly mean: number;
  readonly sd: number;
}

/** CRPS of a normal forecast against `y`, closed form. */
export function normalCrps({ mean, sd }: NormalForecast, y: number): number {
  const z = (y - mean) / sd;
  return sd * (z * (2 * normalCdf(z) - 1) + 2 * normalPdf(z) - 1 / Math.sqrt(Math.PI));
}

/** Usual spread of one skater as a share of the field's mean, worth five degrees of freedom. */
const USUAL_SPREAD = 0.09;
const SPREAD_STRENGTH = 5;
/** Observations at the field's mean that the skater's mean is shrunk with. */
const SHRINK = 0.5;

/** Spread of one skater around her own mean, pooled over all skaters of a category and segment. */
export class PooledSpread {
  private readonly bySkater = new Map<string, { n: number; sum: number; squares: number }>();
  private squares = 0;
  private df = 0;

  add(line: Line): void {
    const own = this.bySkater.get(line.skater) ?? { n: 0, sum: 0, squares: 0 };
    this.bySkater.set(line.skater, own);
    const before = own.n > 0 ? own.squares - own.sum ** 2 / own.n : 0;
    own.n += 1;
    own.sum += line.total;
    own.squares += line.total ** 2;
    this.squares += own.squares - own.sum ** 2 / own.n - before;
    this.df += own.n > 1 ? 1 : 0;
  }

  sd(fieldMean: number): number {
    const usual = (USUAL_SPREAD * fieldMean) ** 2;
    return Math.sqrt((this.squares + SPREAD_STRENGTH * usual) / (this.df + SPREAD_STRENGTH));
  }
}

/** Points over the planned base value that totals of a field bring (grades, components, deductions). */
export class OverBase {
  private n = 0;
  private sum = 0;
  private squares = 0;

  add(line: Line): void {
    const over = line.total - plannedBase(line);
    this.n += 1;
    this.sum += over;
    this.squares += over * over;
  }

  figures(fallbackSd: number): NormalForecast {
    const mean = this.n > 0 ? this.sum / this.n : 0;
    const variance = this.n > 1 ? (this.squares - this.sum ** 2 / this.n) / (this.n - 1) : 0;
    return { mean, sd: Math.sqrt((variance * this.n + 5 * fallbackSd ** 2) / (this.n + 5)) };
  }
}

const meanOf = (lines: readonly Line[]): number => lines.reduce((sum, l) => sum + l.total, 0) / lines.length;

/**
 * Every rival's forecast from her own earlier lines of the category and segment, oldest first. Without
 * any, all of them are the field.
 */
export function rivalForecasts(
  own: readonly Line[],
  field: FieldFigures,
  pooled: PooledSpread,
  overBase: OverBase,
): Readonly<Record<Rival, NormalForecast>> {
  const last = own.at(-1);
  const whole: NormalForecast = { mean: field.plainTotal.mean, sd: field.plainTotal.sd };
  if (last === undefined) return { lastScore: whole, meanOfLastThree: whole, skaterMean: whole, plannedBase: whole };
  const sd = pooled.sd(field.plainTotal.mean);
  const three = own.slice(-3);
  const n = own.length;
  const over = overBase.figures(field.plainTotal.sd);
  return {
    lastScore: { mean: last.total, sd: sd * Math.SQRT2 },
    meanOfLastThree: { mean: meanOf(three), sd: sd * Math.sqrt(1 + 1 / three.length) },
    skaterMean: {
      mean: (n * meanOf(own) + SHRINK * field.plainTotal.mean) / (n + SHRINK),
      sd: sd * Math.sqrt(1 + 1 / (n + SHRINK)),
    },
    plannedBase: { mean: plannedBase(last) + over.mean, sd: over.sd },
  };
}
