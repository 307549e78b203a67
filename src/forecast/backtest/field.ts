import type { Line } from './line.ts';

/** A figure of the field: mean and spread between performances. */
export interface Figure {
  readonly mean: number;
  readonly sd: number;
}

/** The field of one category and segment, from earlier lines. Points. */
export interface FieldFigures {
  readonly n: number;
  readonly tes: Figure;
  readonly pcs: Figure;
  readonly total: Figure;
  /** Totals with every performance counted alike: the plain field mean that a rival would use. */
  readonly plainTotal: Figure;
  readonly deductions: number;
}

const PARTS = ['tes', 'pcs', 'total'] as const;
type Part = (typeof PARTS)[number];

/** Usual spread of a field as a share of its mean, worth ten performances: for fields of a few. */
const USUAL_SPREAD: Readonly<Record<Part, number>> = { tes: 0.19, pcs: 0.135, total: 0.15 };
const SPREAD_STRENGTH = 10;

interface Sums {
  n: number;
  deductions: number;
  readonly sum: Record<Part, number>;
  readonly squares: Record<Part, number>;
}

const empty = (): Sums => ({
  n: 0,
  deductions: 0,
  sum: { tes: 0, pcs: 0, total: 0 },
  squares: { tes: 0, pcs: 0, total: 0 },
});

/**
 * One performance of a skater who has n of them weighs 1 / (1 + 2 (n - 1)): performances of one skater
 * resemble each other, and those who skate often would otherwise stand for the field.
 */
const weightOf = (n: number): number => (n === 0 ? 0 : 1 / (2 * n - 1));

/** Grows line by line; figures are asked in between. */
export class Field {
  private readonly bySkater = new Map<string, Sums>();
  private readonly all: Sums = empty();
  private weight = 0;
  private lines = 0;
  private readonly plain = { sum: 0, squares: 0 };
  private deductions = 0;

  add(line: Line): void {
    const own = this.bySkater.get(line.skater) ?? empty();
    this.bySkater.set(line.skater, own);
    this.shift(own, -1);
    own.n += 1;
    for (const part of PARTS) {
      own.sum[part] += line[part];
      own.squares[part] += line[part] ** 2;
    }
    this.shift(own, 1);
    this.lines += 1;
    this.plain.sum += line.total;
    this.plain.squares += line.total ** 2;
    this.deductions += line.deductions;
  }

  /** Adds or takes away everything of one skater at her present weight. */
  private shift(own: Sums, sign: 1 | -1): void {
    const w = sign * weightOf(own.n);
    this.weight += w * own.n;
    for (const part of PARTS) {
      this.all.sum[part] += w * own.sum[part];
      this.all.squares[part] += w * own.squares[part];
    }
  }

  /** null without an earlier line. */
  figures(): FieldFigures | null {
    if (this.lines === 0) return null;
    const n = this.lines;
    const figure = (part: Part, mean: number, square: number): Figure => {
      const variance = Math.max(0, square - mean ** 2);
      const usual = (USUAL_SPREAD[part] * mean) ** 2;
      return { mean, sd: Math.sqrt((n * variance + SPREAD_STRENGTH * usual) / (n + SPREAD_STRENGTH)) };
    };
    const weighted = (part: Part): Figure =>
      figure(part, this.all.sum[part] / this.weight, this.all.squares[part] / this.weight);
    return {
      n,
      tes: weighted('tes'),
      pcs: weighted('pcs'),
      total: weighted('total'),
      plainTotal: figure('total', this.plain.sum / n, this.plain.squares / n),
      deductions: this.deductions / n,
    };
  }
}
