/** A past forecast against what came: the residual in units of the uncalibrated spread. */
export interface Residual {
  readonly key: string;
  readonly z: number;
}

interface Sums {
  n: number;
  sum: number;
  squares: number;
}

/** Residuals that the belief in a right spread is worth, and in no drift. */
const SPREAD_STRENGTH = 20;
const DRIFT_STRENGTH = 40;

/**
 * Learns from past residuals how far forecasts were too narrow or too wide, by category and segment
 * shrunk to all together, and how scores drift over a season. With none, forecasts stand as they are.
 */
export class Calibration {
  private readonly all: Sums = { n: 0, sum: 0, squares: 0 };
  private readonly byKey = new Map<string, Sums>();

  add({ key, z }: Residual): void {
    const own = this.byKey.get(key) ?? { n: 0, sum: 0, squares: 0 };
    this.byKey.set(key, own);
    for (const sums of [this.all, own]) {
      sums.n += 1;
      sums.sum += z;
      sums.squares += z * z;
    }
  }

  /** Factor on the spread, and shift in units of the uncalibrated spread. */
  of(key: string): { readonly scale: number; readonly shift: number } {
    const own = this.byKey.get(key) ?? { n: 0, squares: 0 };
    const general = (this.all.squares + SPREAD_STRENGTH) / (this.all.n + SPREAD_STRENGTH);
    const variance = (own.squares + SPREAD_STRENGTH * general) / (own.n + SPREAD_STRENGTH);
    return { scale: Math.sqrt(variance), shift: this.all.sum / (this.all.n + DRIFT_STRENGTH) };
  }
}
