import { distributionOf } from '../../forecast/index.ts';
import type { Result } from '../../notation/index.ts';
import {
  cellsOf,
  envelope,
  gridOf,
  gridOfTail,
  NOTHING,
  overlay,
  plus,
  tailOf,
  type Cell,
  type Grid,
  type Tail,
} from './grid.ts';
import { mildestFall, type Measured } from './measured.ts';
import { placedKey } from './order.ts';
import type { Placed } from './places.ts';
import type { Rest } from './rests.ts';
import type { StateGraph, StateNode } from './state-graph.ts';
import type { Setting } from './search.ts';
import type { SegmentRules } from '../segment-rules.ts';

/** Values of an element at a place (0 early, 1 bonus, 2 late), falls at the mildest amount. */
function valuesAt(m: Measured, place: 0 | 1 | 2, fall: number): { points: number; p: number }[] {
  return m.item.outcomes.flatMap((outcome, o) =>
    outcome.grades.map(({ p }, g) => ({
      points: (m.alone[o]?.points[place][g] ?? 0) + (outcome.fall ? fall : 0),
      p: p * outcome.p,
    })),
  );
}

/** Most that a bonus place can add to any outcome of an element, in hundredths. */
const mostGain = (m: Measured): number =>
  Math.max(
    0,
    ...m.alone.flatMap((called) => called.points[1].map((points, g) => points - (called.points[0][g] ?? points))),
  );

export const PLACE_INDEX = { early: 0, bonus: 1, late: 2 } as const;

/** Elements and their surroundings on a grid of one size. */
export class TailParts {
  readonly size: number;
  private readonly fall: number;
  private readonly cells = new Map<Measured, (readonly Cell[] | undefined)[]>();
  private readonly gains = new Map<Measured, number>();
  private readonly grids = new Map<Rest, Grid>();
  private readonly tails = new Map<Rest, Tail>();
  private readonly ordered = new Map<string, Grid>();
  private readonly base: Grid;

  constructor(setting: Setting, base: Grid, size: number) {
    this.size = size;
    this.base = base;
    this.fall = mildestFall(setting.rules);
  }

  /** Possible values of an element at a place. */
  at(m: Measured, place: 0 | 1 | 2): readonly Cell[] {
    const known = this.cells.get(m) ?? [];
    this.cells.set(m, known);
    const found = known[place] ?? cellsOf(valuesAt(m, place, this.fall), this.size);
    known[place] = found;
    return found;
  }

  /** Most that a bonus place can add, in cells. */
  gain(m: Measured): number {
    let known = this.gains.get(m);
    if (known === undefined) this.gains.set(m, (known = Math.ceil(mostGain(m) / this.size)));
    return known;
  }

  /** Spins, sequences, components and deductions of a rest. */
  restGrid(rest: Rest): Grid {
    const known = this.grids.get(rest);
    if (known !== undefined) return known;
    const grid = rest.chosen.reduce((sum, m) => plus(sum, this.at(m, 0)), this.base);
    this.grids.set(rest, grid);
    return grid;
  }

  /** Tail of the same. */
  restTail(rest: Rest): Tail {
    const known = this.tails.get(rest);
    if (known !== undefined) return known;
    const tail = tailOf(this.restGrid(rest));
    this.tails.set(rest, tail);
    return tail;
  }

  /** Sum of coupled elements in one order, called as the rules ask; falls at the mildest amount. */
  orderedGrid(order: readonly Placed<Measured>[], graph: StateGraph, key: string): Grid {
    const name = `${key} ${order.map(placedKey).join(' ')}`;
    const known = this.ordered.get(name);
    if (known !== undefined) return known;
    let front = new Map<StateNode, Grid>([[graph.start, NOTHING]]);
    for (const { what, place } of order) front = this.further(front, what, PLACE_INDEX[place], graph);
    const grid = [...front.values()].reduce(overlay);
    this.ordered.set(name, grid);
    return grid;
  }

  private further(front: ReadonlyMap<StateNode, Grid>, m: Measured, place: 0 | 1 | 2, graph: StateGraph) {
    const after = new Map<StateNode, Grid>();
    for (const [node, grid] of front) {
      const byNext = new Map<StateNode, { points: number; p: number }[]>();
      for (const outcome of m.item.outcomes) {
        const { called, next } = graph.arc(node, outcome);
        const list = byNext.get(next) ?? [];
        byNext.set(next, list);
        outcome.grades.forEach(({ p }, g) =>
          list.push({ points: (called.points[place][g] ?? 0) + (outcome.fall ? this.fall : 0), p: p * outcome.p }),
        );
      }
      for (const [next, values] of byNext) {
        const sum = plus(grid, cellsOf(values, this.size));
        const there = after.get(next);
        after.set(next, there === undefined ? sum : overlay(there, sum));
      }
    }
    return after;
  }

  /** Largest tail of any rest at every value. */
  richestTail(rests: readonly Rest[]): Tail {
    return rests.map((rest) => this.restTail(rest)).reduce(envelope);
  }
}

/** Components and deductions other than falls on a grid. */
export function baseGrid(setting: Setting, size: number): Result<Grid> {
  const pmf = distributionOf({ ...setting.model, elements: [] });
  return pmf.ok ? { ok: true, value: gridOf(pmf.value, size) } : pmf;
}

/**
 * `[from][units][others]`: tail of the richest rest with so many more elements from item `from` on, each
 * at its best in the sense of an envelope over all items that may still be taken. A bound, not a program.
 */
export type Extensions = readonly (readonly (readonly Tail[])[])[];

export function extensions(
  list: readonly Measured[],
  isUnit: (m: Measured) => boolean,
  parts: TailParts,
  rest: Tail,
  rules: Pick<Setting, 'limits'> & { readonly rules: SegmentRules },
): Extensions {
  const { elements, units } = rules.limits;
  const nothing: Tail = { from: 0, p: Float64Array.of(1) };
  let anyItem = nothing;
  let single = nothing;
  const result: Tail[][][] = [];
  for (let k = list.length; k >= 0; k--) {
    const m = list[k];
    if (m !== undefined) {
      const tail = tailOf(plus({ from: 0, p: Float64Array.of(1) }, parts.at(m, 0)));
      anyItem = envelope(anyItem, tail);
      if (!isUnit(m)) single = envelope(single, tail);
    }
    const [anyCells, singleCells] = [gridOfTail(anyItem), gridOfTail(single)];
    const restGrid: Grid = spread(gridOfTail(rest));
    const table: Tail[][] = [];
    let withUnits = restGrid;
    for (let u = 0; u <= units; u++) {
      const row: Tail[] = [];
      let sum = withUnits;
      for (let s = 0; u + s <= elements; s++) {
        row.push(tailOf(sum));
        sum = plus(sum, singleCells);
      }
      table.push(row);
      withUnits = plus(withUnits, anyCells);
    }
    result[k] = table;
  }
  return result;
}

const spread = (cells: readonly Cell[]): Grid => plus({ from: 0, p: Float64Array.of(1) }, cells);
