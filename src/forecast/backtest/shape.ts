import type { Element } from '../../notation/index.ts';
import { chainOf } from '../exact/chain.ts';
import { meetings, nodesFor, sumChain } from '../exact/distribution.ts';
import { programGraph, type Graph } from '../exact/graph.ts';
import type { ProgramElement, ProgramModel } from '../exact/program.ts';
import { tiltGraph } from '../exact/tilted.ts';
import { learnElement, ownRecord } from '../learn/learn.ts';
import type { Priors } from '../learn/priors.ts';
import { convolve, mix, type Pmf } from '../pmf.ts';
import { plansOf, type Line } from './line.ts';

/** The backtest sums on tenths of a point: a tenth of the work, and no quantile moves by a tenth. */
const GRAIN = 10;

const coarse = (points: number): number => Math.round(points / GRAIN);

/** The same graph with its points in tenths. */
const inTenths = ({ levels }: Graph): Graph => ({
  levels: levels.map((level) => ({
    ...level,
    values: level.values.map((value) => ({ ...value, points: value.points.map(coarse) })),
    arcs: level.arcs.map((row) => row.map((arc) => ({ ...arc, deduct: coarse(arc.deduct) }))),
  })),
});

/** Model of her last program of the segment, skated again. */
function repeated(last: Line, own: readonly Line[], priors: Priors): ProgramModel {
  const plans: readonly Element[] = plansOf(last);
  const programs = own.map((line) => line.program);
  const record = ownRecord(plans, programs, last.rules, priors);
  const elements: readonly ProgramElement[] = plans.map((plan, i) => ({
    no: i + 1,
    code: '',
    bonus: plan.kind === 'jump' && last.program.protocol.elements[i]?.half === true,
    outcomes: learnElement(plans, i, null, record, last.rules, priors),
  }));
  return { rules: last.rules, elements, components: [], formSd: 0, otherDeductions: [] };
}

/**
 * Distribution of elements and falls if her last program of the segment is skated again, outcomes
 * learnt from her earlier lines; in tenths of a point. null where a value is not known.
 */
export function repeatedProgram(last: Line, own: readonly Line[], priors: Priors): Pmf | null {
  const model = repeated(last, own, priors);
  if (model.elements.length === 0) return null;
  const graph = programGraph(model, true);
  if (!graph.ok) return null;
  const chain = chainOf(tiltGraph(inTenths(graph.value), 0, nodesFor(0)));
  const sums = sumChain(chain, chain.coupled.length, 0);
  const coupled = mix(meetings(sums).map(([a, b]) => ({ pmf: convolve(a, b), weight: 1 })));
  return convolve(coupled, sums.free);
}
