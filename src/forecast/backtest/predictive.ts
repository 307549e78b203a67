import { normalCdf } from '../math/special.ts';
import { moments, type Pmf } from '../pmf.ts';

/** A predictive distribution as chances on a grid of points. */
export interface Predictive {
  /** Points of the first cell's middle, and the width of a cell. */
  readonly from: number;
  readonly step: number;
  readonly p: Float64Array;
  readonly mean: number;
  readonly sd: number;
}

const CELLS_PER_SD = 25;
const REACH = 6;

/** Normal chances of cells around 0, `half` cells to each side. */
function kernel(sd: number, step: number, half: number): Float64Array {
  const p = new Float64Array(2 * half + 1);
  let before = 0;
  for (let i = 0; i <= 2 * half; i++) {
    const upper = i === 2 * half ? 1 : normalCdf(((i - half + 0.5) * step) / sd);
    p[i] = upper - before;
    before = upper;
  }
  return p;
}

/**
 * Share of the variance that has the form of the program; the rest (panel, components) is normal. More
 * than the program's own spread explains: changed layouts and bad days have the same long tail below.
 */
const FORM_SHARE = 0.85;

/** The form's cells: the program's distribution, centred and scaled, dealt to the grid between neighbours. */
function dealt(form: Pmf, scale: number, step: number, half: number): Float64Array {
  const { mean } = moments(form);
  const p = new Float64Array(2 * half + 1);
  form.p.forEach((q, i) => {
    if (q === 0) return;
    const x = Math.min(2 * half, Math.max(0, ((form.from + i - mean) * scale) / step + half));
    const cell = Math.min(2 * half - 1, Math.floor(x));
    const share = x - cell;
    p[cell] = (p[cell] ?? 0) + q * (1 - share);
    p[cell + 1] = (p[cell + 1] ?? 0) + q * share;
  });
  return p;
}

function convolved(a: Float64Array, b: Float64Array): Float64Array {
  const p = new Float64Array(a.length + b.length - 1);
  a.forEach((x, i) => {
    if (x !== 0) for (let j = 0; j < b.length; j++) p[i + j] = (p[i + j] ?? 0) + x * (b[j] ?? 0);
  });
  return p;
}

/**
 * A distribution with the given mean and spread (points). Its form is that of the program's exact
 * distribution (falls and opened jumps make a longer tail below), scaled to the spread that past
 * residuals ask for, and a normal rest. Without a form it is normal.
 */
export function predictive(mean: number, sd: number, form: Pmf | null, unit: number): Predictive {
  const step = sd / CELLS_PER_SD;
  const half = REACH * CELLS_PER_SD;
  const own = form === null ? 0 : moments(form).variance * unit * unit;
  if (form === null || own <= 0) return grid(mean, sd, step, kernel(sd, step, half), half);
  const shape = FORM_SHARE * sd * sd;
  const rest = Math.sqrt(sd * sd - shape);
  const cells = convolved(dealt(form, unit * Math.sqrt(shape / own), step, half), kernel(rest, step, half));
  return grid(mean, sd, step, cells, 2 * half);
}

const grid = (mean: number, sd: number, step: number, p: Float64Array, middle: number): Predictive => ({
  from: mean - middle * step,
  step,
  p,
  mean,
  sd,
});

/** Chance of at most `x` points; inside a cell the chance is spread evenly. */
export function cdfAt({ from, step, p }: Predictive, x: number): number {
  const at = (x - from) / step + 0.5;
  if (at <= 0) return 0;
  const cell = Math.floor(at);
  let sum = 0;
  for (let i = 0; i < Math.min(cell, p.length); i++) sum += p[i] ?? 0;
  return Math.min(1, sum + (p[cell] ?? 0) * (at - cell));
}

/** Points below which the given share lies; levels in rising order. */
export function quantilesOf({ from, step, p }: Predictive, levels: readonly number[]): readonly number[] {
  let sum = 0;
  let cell = 0;
  return levels.map((level) => {
    while (cell < p.length - 1 && sum + (p[cell] ?? 0) < level) sum += p[cell++] ?? 0;
    const here = p[cell] ?? 0;
    return from + (cell - 0.5 + (here > 0 ? (level - sum) / here : 0)) * step;
  });
}

/** Continuous ranked probability score against `y`, in points: the integral of the squared error of the CDF. */
export function crpsOf({ from, step, p }: Predictive, y: number): number {
  let sum = 0;
  let score = 0;
  const start = from - step / 2;
  const end = start + p.length * step;
  if (y < start) score += start - y;
  if (y > end) score += y - end;
  for (let i = 0; i < p.length; i++) {
    const next = sum + (p[i] ?? 0);
    score += cellScore(start + i * step, step, sum, next, y);
    sum = next;
  }
  return score;
}

/** Integral over one cell in which the CDF rises evenly from `a` to `b`. */
function cellScore(x: number, step: number, a: number, b: number, y: number): number {
  const square = (u: number, v: number, width: number): number => (width * (u * u + u * v + v * v)) / 3;
  if (y <= x) return square(1 - a, 1 - b, step);
  if (y >= x + step) return square(a, b, step);
  const share = (y - x) / step;
  const middle = a + (b - a) * share;
  return square(a, middle, share * step) + square(1 - middle, 1 - b, (1 - share) * step);
}
