import type { Hundredths } from '../../rulebook/index.ts';
import { componentPoints } from '../../scoring/index.ts';
import { normalCdf } from '../math/special.ts';
import { pmfOf, type Atom, type Pmf } from '../pmf.ts';
import type { ComponentPart } from './program.ts';

/** The range of component marks in hundredths. */
export interface MarkRange {
  readonly min: Hundredths;
  readonly max: Hundredths;
}

/** Draws beyond this many standard deviations hold 1e-12 together; they go to the outermost cells. */
const REACH = 7;

/** A mean mark that stands on a half up to binary noise rounds up, as its decimal form would. */
const NOISE = 1e-9;

const clamp = (x: number, { min, max }: MarkRange): number => Math.min(max, Math.max(min, x));

/** Panel mean in hundredths at `draw` standard deviations. */
const scoreAt = (part: ComponentPart, draw: number, range: MarkRange): Hundredths =>
  clamp(Math.floor((part.mean + part.sd * draw) * 100 + 0.5 + NOISE), range);

/** Component score of the segment at one draw: each component rounded, times its factor, rounded, summed. */
function totalAt(parts: readonly ComponentPart[], draw: number, range: MarkRange): Hundredths {
  return parts.reduce((sum, part) => sum + (componentPoints(scoreAt(part, draw, range), part.factor) ?? 0), 0);
}

/** Draws at which the rounded mark of one component changes. */
function steps(part: ComponentPart, range: MarkRange): number[] {
  if (part.sd <= 0) return [];
  const low = Math.max(range.min, Math.floor((part.mean - REACH * part.sd) * 100));
  const high = Math.min(range.max, Math.ceil((part.mean + REACH * part.sd) * 100));
  const bounds: number[] = [];
  for (let mark = low; mark < high; mark++) bounds.push(((mark + 0.5) / 100 - part.mean) / part.sd);
  return bounds;
}

/** P(a < Z < b), from the nearer tail so that small chances keep their digits. */
const between = (a: number, b: number): number => (a > 0 ? normalCdf(-a) - normalCdf(-b) : normalCdf(b) - normalCdf(a));

/**
 * Exact distribution of the component score. One normal draw moves all components by their own `sd`;
 * between two draws at which some rounded mark changes the score is constant, and the cell has the
 * probability of the normal. Without spread, or without components, it is one value.
 */
export function componentScore(parts: readonly ComponentPart[], range: MarkRange): Pmf {
  const bounds = [...new Set(parts.flatMap((part) => steps(part, range)))].sort((a, b) => a - b);
  const edges = [-Infinity, ...bounds, Infinity];
  const atoms: Atom[] = [];
  for (let i = 0; i + 1 < edges.length; i++) {
    const a = edges[i] ?? 0;
    const b = edges[i + 1] ?? 0;
    const p = between(a, b);
    if (p > 0) atoms.push({ points: totalAt(parts, inside(a, b), range), p });
  }
  return pmfOf(atoms);
}

/** A draw strictly between two edges. */
function inside(a: number, b: number): number {
  if (a === -Infinity) return b === Infinity ? 0 : b - 1e-6;
  return b === Infinity ? a + 1e-6 : (a + b) / 2;
}
