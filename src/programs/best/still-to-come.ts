import { envelope, tailOver, type Cell, type Tail } from './grid.ts';
import { isUnitItem } from './jump-items.ts';
import type { Measured } from './measured.ts';
import type { Setting } from './search.ts';
import type { ByNode, TailParts } from './tail-parts.ts';

/**
 * What a choice of jump elements may still gain: for the items from k on, with so many elements and units
 * left, the largest tail of them and of the richest rest, at every value, each item used once. Which item
 * is best is asked anew at every value and names are left aside but for their prices: a bound, not a program.
 */
export class StillToCome {
  /** Not worked out to the end: nothing may be asked. */
  readonly stopped: boolean = false;
  private readonly tables: readonly (readonly (readonly ByNode<Tail>[])[])[];

  constructor(
    list: readonly Measured[],
    parts: TailParts,
    rest: ByNode<Tail>,
    { limits, prices }: Pick<Setting, 'limits' | 'prices'>,
    shouldStop: () => boolean,
  ) {
    const tables: (readonly (readonly ByNode<Tail>[])[])[] = [];
    let later: readonly (readonly ByNode<Tail>[])[] = Array.from({ length: limits.units + 1 }, () =>
      Array.from({ length: limits.elements + 1 }, () => rest),
    );
    tables[list.length] = later;
    for (let k = list.length - 1; k >= 0; k--) {
      const m = list[k];
      this.stopped ||= shouldStop();
      if (m === undefined || this.stopped) break;
      later = withItem(later, lessPrice(parts.anywhere(m), prices.of(m) / parts.size), isUnitItem(m) ? 1 : 0, parts);
      tables[k] = later;
    }
    this.tables = tables;
  }

  /** At each node; undefined where nothing of the kind was asked for. */
  at(k: number, units: number, elements: number): ByNode<Tail> | undefined {
    return this.tables[k]?.[units]?.[elements];
  }
}

type Cells = ByNode<readonly Cell[]>;

/** Values less a price of whole cells. */
const lessPrice = (cells: Cells, price: number): Cells =>
  price === 0 ? cells : cells.map((list) => list.map(({ at, p }) => ({ at: at - price, p })));

/** One more item that may be taken or left. */
function withItem(
  later: readonly (readonly ByNode<Tail>[])[],
  cells: Cells,
  unit: number,
  parts: TailParts,
): readonly (readonly ByNode<Tail>[])[] {
  return later.map((row, units) =>
    row.map((left, elements) => {
      const after = units >= unit && elements > 0 ? later[units - unit]?.[elements - 1] : undefined;
      if (after === undefined) return left;
      return parts.byNode((z) => {
        const [without, tail] = [left[z], after[z]];
        if (without === undefined || tail === undefined) throw new Error('no tail at a node');
        return envelope([without, tailOver([[tail, cells[z] ?? []]])]);
      });
    }),
  );
}
