import { distributionOf } from '../../forecast/index.ts';
import type { Result } from '../../notation/index.ts';
import { cellsOf, envelope, gridOf, gridOfTail, plus, tailOf, type Cell, type Grid, type Tail } from './grid.ts';
import { mildestFall, type Measured } from './measured.ts';
import type { Rest } from './rests.ts';
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

/** Elements and their surroundings on a grid of one size. */
export class TailParts {
  readonly size: number;
  private readonly fall: number;
  private readonly cells = new Map<Measured, (readonly Cell[] | undefined)[]>();
  private readonly gains = new Map<Measured, number>();
  private readonly tails = new Map<Rest, Tail>();
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

  /** Tail of spins, sequences, components and deductions of a rest. */
  restTail(rest: Rest): Tail {
    let known = this.tails.get(rest);
    if (known === undefined) {
      const grid = rest.chosen.reduce((sum, m) => plus(sum, this.at(m, 0)), this.base);
      this.tails.set(rest, (known = tailOf(grid)));
    }
    return known;
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
