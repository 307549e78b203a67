import { expectedOver, levelChances, plannedCredit } from './step-chances.ts';
import type { CalledLevel, StepPlan } from './step-assess.ts';

/** Worth of a level in any unit, e.g. hundredths of a point; null where it is not known. */
export type LevelWorth = (level: CalledLevel) => number | null;

/** How much hangs on the credit of one move. */
export interface MoveWeight {
  readonly index: number;
  /** Expected worth if it is surely credited, less the same if it surely is not. */
  readonly slope: number;
  /** What making it sure would add to the expected worth. */
  readonly gain: number;
}

/**
 * Every move by how much the expected worth hangs on it, heaviest first (ties: earlier first). The
 * expected worth is linear in each move's chance, so the slope is exact, not an approximation.
 * null where the worth of a level that can occur is not known.
 */
export function moveWeights(plan: StepPlan, worth: LevelWorth): MoveWeight[] | null {
  const credit = plannedCredit(plan);
  const weights: MoveWeight[] = [];
  for (const index of plan.moves.keys()) {
    const at = (p: number) =>
      expectedOver(
        levelChances(plan, (i) => (i === index ? p : credit(i))),
        worth,
      );
    const [sure, never] = [at(1), at(0)];
    if (sure === null || never === null) return null;
    weights.push({ index, slope: sure - never, gain: (sure - never) * (1 - credit(index)) });
  }
  return weights.sort((a, b) => withoutDust(b.slope - a.slope) || a.index - b.index);
}

/** Sums in another order differ by dust; such slopes are equal. */
const withoutDust = (difference: number): number => (Math.abs(difference) < 1e-9 ? 0 : difference);
