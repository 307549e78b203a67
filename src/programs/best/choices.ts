import type { Contest } from './contest.ts';
import { NOTHING, plus, type Grid } from './grid.ts';
import { copies, isUnitItem } from './jump-items.ts';
import { searchSets, type SearchCount } from './jump-sets.ts';
import type { Measured } from './measured.ts';
import type { Setting } from './search.ts';
import { StillToCome } from './still-to-come.ts';
import type { ByNode, TailParts } from './tail-parts.ts';

/** A legal choice of jump elements that might win. */
export interface Choice {
  readonly chosen: readonly Measured[];
  readonly bound: number;
  /** Upper bound of the expected score, for ties. */
  readonly expected: number;
}

/** The largest of some gains, so many of them. */
export const topGains = (gains: readonly number[], most: number): number =>
  [...gains]
    .sort((a, b) => b - a)
    .slice(0, most)
    .reduce((a, b) => a + b, 0);

function suffixMost(list: readonly number[]): readonly number[] {
  const most: number[] = [];
  let best = 0;
  for (let i = list.length - 1; i >= 0; i--) most[i] = best = Math.max(best, list[i] ?? 0);
  return most;
}

/** What the first pass leaves: the choices to look into, and a bound on everything if it was stopped. */
export interface Choices {
  readonly list: readonly Choice[];
  readonly count: SearchCount;
  /** No layout is worth more than this. */
  readonly widest: number;
}

/** First pass: every legal choice of jump elements whose rough bound could win, the highest bound first. */
export function choices(setting: Setting, parts: TailParts, contest: Contest): Choices {
  const { limits, rests, prices } = setting;
  if (rests.length === 0) return { list: [], count: { nodes: 0, unfinished: -Infinity }, widest: -Infinity };
  const list: Choice[] = [];
  const rest = parts.richestTail(rests);
  const richest = rests[0]?.early ?? 0;
  const sorted = copies(setting.jumps, setting.pool, prices);
  const ahead = new StillToCome(sorted, parts, rest, setting, contest.shouldStop);
  if (ahead.stopped) return { list: [], count: { nodes: 0, unfinished: Infinity }, widest: Infinity };
  const futureGain = suffixMost(sorted.map((m) => parts.gain(m)));
  const stack: ByNode<Grid>[] = [parts.byNode(() => NOTHING)];
  let widest = -Infinity;
  const count = searchSets({
    items: setting.jumps,
    pool: setting.pool,
    rules: setting.rules,
    limits,
    must: setting.mustJumps,
    prices,
    shouldStop: contest.shouldStop,
    threshold: () => -Infinity,
    enter: (chosen, from, worth) => {
      const last = chosen.at(-1);
      const before = stack[chosen.length - 1];
      const grids =
        last === undefined || before === undefined
          ? parts.byNode(() => NOTHING)
          : before.map((grid, z) => plus(grid, parts.anywhere(last)[z] ?? []));
      stack[chosen.length] = grids;
      const left = limits.elements - chosen.length;
      const units = Math.max(0, limits.units - chosen.filter(isUnitItem).length);
      const tails = ahead.at(from, units, left);
      if (tails === undefined) return true;
      const gains = [...chosen.map((m) => parts.gain(m)), ...Array.from({ length: left }, () => futureGain[from] ?? 0)];
      const unpaid = prices.total - chosen.reduce((sum, m) => sum + prices.of(m), 0);
      const shift = topGains(gains, limits.bonus) + unpaid / parts.size;
      const bound = contest.bound(parts.size, [[grids, tails]], shift);
      if (chosen.length === 0) widest = bound;
      return !contest.cannotWin(bound, worth + richest);
    },
    visit: (chosen, expected) => {
      const grids = stack[chosen.length] ?? [];
      const shift = topGains(
        chosen.map((m) => parts.gain(m)),
        limits.bonus,
      );
      const bound = contest.bound(parts.size, [[grids, rest]], shift);
      if (!contest.cannotWin(bound, expected + richest)) list.push({ chosen, bound, expected: expected + richest });
    },
  });
  return { list: list.sort((a, b) => b.bound - a.bound), count, widest };
}
