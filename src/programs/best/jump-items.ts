import { isUnit } from '../../scoring/index.ts';
import type { Measured } from './measured.ts';
import type { Pool } from './pool.ts';

/** What bounds the choice of jump elements. */
export interface JumpLimits {
  readonly elements: number;
  readonly units: number;
  /** Most bonus places that any layout can have. */
  readonly bonus: number;
}

/** A combination or sequence. */
export const isUnitItem = (m: Measured): boolean => m.item.element.kind === 'jump' && isUnit(m.item.element);

/**
 * Prices on what the rules limit (kinds of jumps that may come twice, uses of an entry). Every legal
 * choice pays at most `total`, so worth less prices plus `total` bounds it from above, for any prices;
 * well-chosen ones make a bound that leaves names aside nearly as tight as one that minds them.
 */
export interface Prices {
  /** Hundredths, 0 or more. */
  of(m: Measured): number;
  readonly total: number;
}

/** No prices: the limits are left aside. */
export const FREE: Prices = { of: () => 0, total: 0 };

/**
 * The items in the order of the search, one copy for each time an item may be used; copies stand together.
 * Where names have prices single jumps come first: once they are chosen, few combinations still fit.
 */
export function copies(jumps: readonly Measured[], pool: Pool, prices: Prices): readonly Measured[] {
  const worth = (m: Measured): number => m.early + m.bonusGain - prices.of(m);
  const unit = (m: Measured): number => (prices === FREE || !isUnitItem(m) ? 0 : 1);
  const items = [...jumps].sort((a, b) => unit(a) - unit(b) || worth(b) - worth(a));
  const times = (m: Measured): number =>
    Math.min(
      ...m.item.uses.map((entry) =>
        Math.floor((pool.caps[entry] ?? 1) / m.item.uses.filter((e) => e === entry).length),
      ),
    );
  return items.flatMap((m) => Array.from({ length: Math.max(0, times(m)) }, () => m));
}
