import { fail, ok, type Result } from '../../notation/index.ts';
import {
  addProduct,
  addMultiplied,
  emptySpectrum,
  inverse,
  powerOfTwo,
  spectrumOf,
  type Spectrum,
} from '../math/fourier.ts';
import { normalNodes, type Node } from '../math/hermite.ts';
import { convolve, mix, pmfOf, pointMass, trim, withoutTails, type Pmf } from '../pmf.ts';
import { chainOf, type Chain } from './chain.ts';
import { componentScore } from './components.ts';
import { advance, freeWindow, retreat, startIn, type States } from './forward.ts';
import { programGraph } from './graph.ts';
import type { ProgramModel, ScoreOf } from './program.ts';
import { chooseSplit } from './split.ts';
import { tiltGraph } from './tilted.ts';

/** Nodes of the day factor: a fixed part of the model. More of them move no quantile by 0.02 points. */
const NODES = 7;

/** The day factor's nodes for a model: one node when form plays no part. */
export const nodesFor = (formSd: number): readonly Node[] => normalNodes(formSd > 0 ? NODES : 1);

/** The chain summed at one node: from the front, from the back, and the free elements. */
export interface NodeSums {
  readonly front: States;
  /** What follows, by the same states. */
  readonly back: States;
  readonly free: Pmf;
}

/** Sums a chain at one node, meeting after `front` elements. */
export function sumChain(chain: Chain, front: number, node: number): NodeSums {
  const forward = chain.coupled
    .slice(0, front)
    .reduce<States>((states, level) => advance(states, level, node), startIn(chain.start));
  const last = chain.coupled.at(-1)?.level.statesAfter ?? chain.start + 1;
  const backward = chain.coupled.slice(front).reduceRight<States>(
    (states, level) => retreat(states, level, node),
    Array.from({ length: last }, () => pointMass(0)),
  );
  return { front: forward, back: backward, free: freeSum(chain, node) };
}

function freeSum(chain: Chain, node: number): Pmf {
  const windows = chain.free.map((level) => freeWindow(level, node)).sort((a, b) => a.p.length - b.p.length);
  return windows.reduce((sum, window) => withoutTails(convolve(sum, window)), pointMass(0));
}

/** Pairs of distributions that meet in one state. */
export const meetings = ({ front, back }: NodeSums): readonly (readonly [Pmf, Pmf])[] =>
  front.flatMap((a, state) => {
    const b = back[state];
    return a == null || b == null ? [] : [[a, b] as const];
  });

function directly(sums: readonly NodeSums[], nodes: readonly Node[]): Pmf {
  const byNode = sums.map((sum, n) => ({
    pmf: convolve(mix(meetings(sum).map(([a, b]) => ({ pmf: convolve(a, b), weight: 1 }))), sum.free),
    weight: nodes[n]?.weight ?? 0,
  }));
  return mix(byNode);
}

/** The window on the hundredths grid that holds every score that can be reached. */
export interface Reach {
  readonly from: number;
  readonly width: number;
}

function reachOf(sums: readonly NodeSums[]): Reach {
  let from = Infinity;
  let to = -Infinity;
  for (const sum of sums) {
    for (const [a, b] of meetings(sum)) {
      const low = a.from + b.from + sum.free.from;
      from = Math.min(from, low);
      to = Math.max(to, low + a.p.length + b.p.length + sum.free.p.length - 2);
    }
  }
  return { from, width: to - from };
}

/** `a` and `b` as sequences whose product begins at `from`. */
function shifted(a: Pmf, b: Pmf, from: number): readonly [Float64Array, Float64Array] {
  const lead = a.from + b.from - from;
  const moved = new Float64Array(lead + a.p.length);
  moved.set(a.p, lead);
  return [moved, b.p];
}

/** Transforms err by about 1e-17; what stands below this is their noise on impossible scores. */
const NOISE = 1e-16;

/** Reads the real part of an inverse transform as a distribution. */
export function fromSpectrum(spectrum: Spectrum, reach: Reach): Pmf {
  inverse(spectrum);
  return trim({ from: reach.from, p: spectrum.re.slice(0, reach.width).map((x) => (x < NOISE ? 0 : x)) });
}

function byTransform(sums: readonly NodeSums[], nodes: readonly Node[]): Pmf {
  const reach = reachOf(sums);
  const n = powerOfTwo(reach.width);
  const total = emptySpectrum(n);
  sums.forEach((sum, k) => {
    const here = emptySpectrum(n);
    for (const [a, b] of meetings(sum)) addProduct(here, ...shifted(a, b, reach.from - sum.free.from), 1);
    addMultiplied(total, here, spectrumOf(sum.free.p, n), nodes[k]?.weight ?? 0);
  });
  return fromSpectrum(total, reach);
}

/** Up to this many multiplications a product is multiplied out directly. */
const DIRECT = 1_000_000;

/** Sum of two independent scores, through a transform where both are wide. */
function product(a: Pmf, b: Pmf): Pmf {
  if (a.p.length * b.p.length <= DIRECT) return trim(convolve(a, b));
  const width = a.p.length + b.p.length - 1;
  const spectrum = emptySpectrum(powerOfTwo(width));
  addProduct(spectrum, a.p, b.p, 1);
  return fromSpectrum(spectrum, { from: a.from + b.from, width });
}

function directWork(sums: readonly NodeSums[]): number {
  let width = 0;
  let work = 0;
  for (const sum of sums) {
    for (const [a, b] of meetings(sum)) {
      work += a.p.length * b.p.length;
      width = Math.max(width, a.p.length + b.p.length);
    }
    work += width * sum.free.p.length;
  }
  return work;
}

/** Components of the model as a distribution; without components the sum is 0. */
export const componentsOf = (model: ProgramModel): Pmf =>
  componentScore(model.components, model.rules.values.values.componentMarks);

/** Deductions other than falls; nothing is deducted with probability 1 where the model names none. */
export function otherDeductionsOf(model: ProgramModel): Pmf {
  const named = model.otherDeductions.reduce((sum, d) => sum + d.p, 0);
  return pmfOf([{ points: 0, p: 1 - named }, ...model.otherDeductions]);
}

/** What is added to the elements: components and other deductions, or nothing. */
export const restOf = (model: ProgramModel, on: ScoreOf): Pmf =>
  on === 'total' ? convolve(componentsOf(model), otherDeductionsOf(model)) : pointMass(0);

/** Length of the transforms that a whole program is likely to need, for choosing where to meet. */
const LIKELY_LENGTH = 8192;

/**
 * The exact distribution of a score on the hundredths grid: all outcomes of all elements, called in
 * skating order under the rulebook, mixed over the day factor. Computed without rounding error from
 * estimates that are themselves uncertain. `tes` leaves deductions out.
 */
export function distributionOf(model: ProgramModel, on: ScoreOf = 'total'): Result<Pmf> {
  if (on === 'pcs') return ok(componentsOf(model));
  const graph = programGraph(model, on === 'total');
  if (!graph.ok) return fail(graph.error);
  const nodes = nodesFor(model.formSd);
  const chain = chainOf(tiltGraph(graph.value, model.formSd, nodes));
  const { front } = chooseSplit(chain.coupled, LIKELY_LENGTH);
  const sums = nodes.map((_, node) => sumChain(chain, front, node));
  const elements = directWork(sums) <= DIRECT ? directly(sums, nodes) : byTransform(sums, nodes);
  return ok(product(elements, restOf(model, on)));
}
