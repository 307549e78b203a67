import type { Hundredths } from '../../rulebook/index.ts';
import type { SegmentRules } from '../segment-rules.ts';

/** The scale of falls of a segment; null where it is not known (then falls cost nothing here, and it is said). */
export const fallScale = ({ chosen }: SegmentRules): readonly Hundredths[] | null =>
  chosen.deductions.deductions(chosen.category, chosen.segment).falls;

/** Expected deduction (0 or negative) for independent chances of a fall, each fall at its own amount of the scale. */
export function expectedFalls(chances: readonly number[], scale: readonly Hundredths[] | null): number {
  const last = scale?.at(-1);
  if (scale === null || last === undefined) return 0;
  let count: readonly number[] = [1];
  for (const chance of chances) {
    if (chance <= 0) continue;
    count = [...count, 0].map((p, k) => p * (1 - chance) + (count[k - 1] ?? 0) * chance);
  }
  let cost = 0;
  let sum = 0;
  count.forEach((p, k) => {
    if (k > 0) sum += scale[k - 1] ?? last;
    cost += p * sum;
  });
  return cost;
}
