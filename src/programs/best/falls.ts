import type { Hundredths } from '../../rulebook/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import type { Day } from './day.ts';
import type { Measured } from './measured.ts';

/** The scale of falls of a segment; null where it is not known (then falls cost nothing here, and it is said). */
export const fallScale = ({ chosen }: SegmentRules): readonly Hundredths[] | null =>
  chosen.deductions.deductions(chosen.category, chosen.segment).falls;

/** Expected deduction (0 or negative) for independent chances of a fall, each fall at its own amount of the scale. */
function expectedAt(chances: readonly number[], scale: readonly Hundredths[]): number {
  const last = scale.at(-1) ?? 0;
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

/** Expected deduction for falls, over the nodes of the day; `falls` holds the chances by node for each element. */
export function expectedFalls(
  falls: readonly (readonly number[])[],
  scale: readonly Hundredths[] | null,
  day: Day,
): number {
  if (scale === null || scale.length === 0) return 0;
  return day.mix(
    day.weights.map((_, z) =>
      expectedAt(
        falls.map((byNode) => byNode[z] ?? 0),
        scale,
      ),
    ),
  );
}

/**
 * Most that the places of elements can change of the expected deduction: a day factor tilts an element
 * that earns the second-half factor a little otherwise. 0 without one, or where every fall costs the same.
 */
export function fallsByPlace(elements: readonly Measured[], scale: readonly Hundredths[] | null, day: Day): number {
  if (day.weights.length === 1 || scale === null || new Set(scale).size <= 1) return 0;
  const at = (pick: (...list: number[]) => number): number =>
    expectedFalls(
      elements.map(({ falls: [early, bonus, late] }) => early.map((p, z) => pick(p, bonus[z] ?? p, late[z] ?? p))),
      scale,
      day,
    );
  return at(Math.min) - at(Math.max);
}
