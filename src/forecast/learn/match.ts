import { contentKey, type Element, type Jump } from '../../notation/index.ts';
import type { Skated } from './skated.ts';

/** First jump of a jump element; undefined for spins and sequences. */
export const firstJump = (element: Element): Jump | undefined =>
  element.kind === 'jump' ? element.jumps[0] : undefined;

const sameFirst = (a: Element, b: Element): boolean => {
  const x = firstJump(a);
  const y = firstJump(b);
  return x !== undefined && x.name === y?.name && x.turns === y.turns;
};

/** The planned first jump, opened early: same name, fewer turns. */
const popped = (planned: Element, skated: Element): boolean => {
  const x = firstJump(planned);
  const y = firstJump(skated);
  return x !== undefined && x.name === y?.name && y.turns < x.turns;
};

const sameSpinOrSequence = (a: Element, b: Element): boolean => a.kind !== 'jump' && contentKey(a) === contentKey(b);

const PASSES: readonly ((planned: Element, skated: Element) => boolean)[] = [
  (planned, skated) => contentKey(planned) === contentKey(skated),
  sameSpinOrSequence,
  sameFirst,
  popped,
];

/**
 * Which element of an earlier program was a try of which planned element: the same content first, then
 * the same first jump (another or a missing second jump), then a first jump with fewer turns. Each
 * skated element serves once. null: this program held no try of it.
 */
export function matchPlan(planned: readonly Element[], skated: readonly Skated[]): readonly (Skated | null)[] {
  const found = new Array<Skated | null>(planned.length).fill(null);
  const used = new Set<Skated>();
  for (const fits of PASSES) {
    planned.forEach((plan, i) => {
      if (found[i] !== null) return;
      const hit = skated.find((s) => !used.has(s) && fits(plan, s.element));
      if (hit === undefined) return;
      found[i] = hit;
      used.add(hit);
    });
  }
  return found;
}
