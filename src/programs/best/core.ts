import { isUnit } from '../../scoring/index.ts';
import type { Measured } from './measured.ts';

/** Jump elements of which an inventory is large: its best few are searched first. */
export const LARGE = 150;

/** How many items of one code are tried first: alone, in twos, in threes. */
const KEPT = [3, 2, 1] as const;

/**
 * The best few of each code. Built combinations come in many variants of one code, with the better and the
 * weaker jump of a kind; a layout of the best variants is found quickly, and nearly always is a good one.
 */
export function coreOf(jumps: readonly Measured[]): readonly Measured[] {
  const byCode = new Map<string, Measured[]>();
  for (const m of jumps) {
    const alike = byCode.get(m.item.code) ?? [];
    alike.push(m);
    byCode.set(m.item.code, alike);
  }
  const worth = (m: Measured): number => m.early + Math.max(0, m.bonusGain);
  return [...byCode.values()].flatMap((alike) => alike.sort((a, b) => worth(b) - worth(a)).slice(0, keptOf(alike[0])));
}

function keptOf(m: Measured | undefined): number {
  const element = m?.item.element;
  if (element?.kind !== 'jump' || !isUnit(element)) return KEPT[0];
  return element.jumps.length === 2 ? KEPT[1] : KEPT[2];
}
