import { addMultiplied, emptySpectrum, multiply, powerOfTwo, spectrumOf, type Spectrum } from '../math/fourier.ts';
import type { Node } from '../math/hermite.ts';
import { pointMass, type Pmf } from '../pmf.ts';
import { chainOf, type Chain } from './chain.ts';
import { nodesFor, restOf, sumChain } from './distribution.ts';
import type { States } from './forward.ts';
import type { Graph, Level } from './graph.ts';
import type { ProgramModel, ScoreOf } from './program.ts';
import { tiltGraph } from './tilted.ts';

/** A step of the element in hand from a state to a state. */
export type Step = readonly [state: number, next: number];

/** Everything but one element, summed once. */
export interface Surroundings {
  readonly level: Level;
  readonly nodes: readonly Node[];
  /** Length of the transforms. */
  readonly n: number;
  /** Lowest score of everything but the element, in hundredths, and number of scores. */
  readonly from: number;
  readonly width: number;
  /** Spectrum of all the rest for an element that makes any one of these steps, at a node. */
  around(steps: readonly Step[], node: number): Spectrum;
}

interface Sides {
  readonly front: States;
  readonly back: States;
  readonly free: Pmf;
}

/** Splits a program around one element; a free element stands behind all the others. */
function splitAround(chain: Chain, level: Level): { level: Level; before: Chain; after: Chain | null } | null {
  const at = chain.coupled.findIndex((t) => t.level.element === level.element);
  const coupled = chain.coupled[at];
  if (coupled !== undefined) {
    return {
      level: coupled.level,
      before: { ...chain, coupled: chain.coupled.slice(0, at) },
      after: { start: 0, coupled: chain.coupled.slice(at + 1), free: [] },
    };
  }
  const alone = chain.free.find((t) => t.level.element === level.element);
  if (alone === undefined) return null;
  return { level: alone.level, before: { ...chain, free: chain.free.filter((t) => t !== alone) }, after: null };
}

const present = (list: readonly States[]): readonly Pmf[] => list.flat().filter((pmf) => pmf !== null);
const lowest = (list: readonly Pmf[]): number => Math.min(...list.map((pmf) => pmf.from));
const highest = (list: readonly Pmf[]): number => Math.max(...list.map((pmf) => pmf.from + pmf.p.length - 1));

function spectrumFrom(pmf: Pmf, from: number, n: number): Spectrum {
  const values = new Float64Array(pmf.from - from + pmf.p.length);
  values.set(pmf.p, pmf.from - from);
  return spectrumOf(values, n);
}

/**
 * Takes an element (by index) out of a program and sums the others at every node of the day factor.
 * `span` is the number of scores that the element itself may spread over. null: no such element.
 */
export function surroundingsOf(
  graph: Graph,
  index: number,
  span: number,
  model: ProgramModel,
  on: ScoreOf,
): Surroundings | null {
  const nodes = nodesFor(model.formSd);
  const original = graph.levels[index];
  const split = original === undefined ? null : splitAround(chainOf(tiltGraph(graph, model.formSd, nodes)), original);
  if (split === null) return null;
  const { level, before, after } = split;
  const sides: readonly Sides[] = nodes.map((_, node) => {
    const ahead = sumChain(before, before.coupled.length, node);
    const back: States = after === null ? [pointMass(0)] : sumChain(after, 0, node).back;
    return { front: ahead.front, back, free: ahead.free };
  });
  const rest = restOf(model, on);
  const parts = [
    present(sides.map((s) => s.front)),
    present(sides.map((s) => s.back)),
    sides.map((s) => s.free),
    [rest],
  ];
  const from = parts.reduce((sum, part) => sum + lowest(part), 0);
  const width = parts.reduce((sum, part) => sum + highest(part), 0) - from + 1;
  const n = powerOfTwo(width + span);
  const [frontFrom = 0, backFrom = 0, freeFrom = 0] = parts.map(lowest);
  const restSpectrum = spectrumOf(rest.p, n);
  const byNode = sides.map(({ front, back, free }) => {
    const common = spectrumFrom(free, freeFrom, n);
    multiply(common, restSpectrum);
    return {
      front: front.map((pmf) => (pmf === null ? null : spectrumFrom(pmf, frontFrom, n))),
      back: back.map((pmf) => (pmf === null ? null : spectrumFrom(pmf, backFrom, n))),
      common,
    };
  });
  const around = (steps: readonly Step[], node: number): Spectrum => {
    const sum = emptySpectrum(n);
    const here = byNode[node];
    for (const [state, next] of steps) {
      const a = here?.front[state];
      const b = here?.back[next];
      if (a && b) addMultiplied(sum, a, b, 1);
    }
    if (here) multiply(sum, here.common);
    return sum;
  };
  return { level, nodes, n, from, width, around };
}
