import { isUnitItem, type JumpLimits, type Prices } from './jump-items.ts';
import type { Measured } from './measured.ts';

/**
 * Best worth of items from k on with so many elements, units and bonus places left, less their prices,
 * names of jumps left aside: an upper bound for what is still to come.
 */
export class BoundTable {
  private readonly table: Float64Array;
  private readonly units: number;
  private readonly bonus: number;
  private readonly elements: number;
  private readonly list: readonly Measured[];
  private readonly worth: readonly number[];
  private readonly isUnit: readonly number[];

  constructor(list: readonly Measured[], limits: JumpLimits, prices: Prices) {
    this.list = list;
    this.worth = list.map((m) => m.early - prices.of(m));
    this.isUnit = list.map((m) => (isUnitItem(m) ? 1 : 0));
    this.units = limits.units + 1;
    this.bonus = limits.bonus + 1;
    this.elements = limits.elements + 1;
    this.table = new Float64Array((list.length + 1) * this.elements * this.units * this.bonus);
    for (let k = list.length - 1; k >= 0; k--) this.fill(k);
  }

  at(k: number, elements: number, units: number, bonus: number): number {
    return this.table[((k * this.elements + elements) * this.units + units) * this.bonus + bonus] ?? 0;
  }

  /** Worth with item k taken, at an ordinary place or a bonus place. */
  private taken(k: number, j: number, u: number, b: number, bonus: 0 | 1): number {
    const gain = bonus === 1 ? (this.list[k]?.bonusGain ?? 0) : 0;
    return (this.worth[k] ?? 0) + gain + this.at(k + 1, j - 1, u - (this.isUnit[k] ?? 0), b - bonus);
  }

  private fill(k: number): void {
    for (let j = 0; j < this.elements; j++) {
      for (let u = 0; u < this.units; u++) {
        for (let b = 0; b < this.bonus; b++) {
          let best = this.at(k + 1, j, u, b);
          if (j > 0 && u >= (this.isUnit[k] ?? 0)) {
            best = Math.max(best, this.taken(k, j, u, b, 0));
            if (b > 0) best = Math.max(best, this.taken(k, j, u, b, 1));
          }
          this.table[((k * this.elements + j) * this.units + u) * this.bonus + b] = best;
        }
      }
    }
  }
}
