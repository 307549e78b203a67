import { coreOf, LARGE } from './core.ts';
import { expectedFalls, fallsByPlace, fallScale } from './falls.ts';
import { searchSets } from './jump-sets.ts';
import { contentOf, programOf, type Program } from './layout-of.ts';
import type { Measured } from './measured.ts';
import type { OrderedJumps } from './order.ts';
import { latePlaces } from './places.ts';
import type { Rest } from './rests.ts';
import { findPrices } from './prices.ts';
import { PRICE_GRAIN, type Setting } from './search.ts';
import { Top } from './top.ts';
import { EARLY, PLACE_INDEX } from './values.ts';

/** What a search found. `bound`: no layout that was not looked at is worth more; in the unit of the objective. */
export interface SearchResult {
  readonly found: readonly { readonly value: number; readonly what: Program }[];
  readonly bound: number;
  readonly finished: boolean;
  /** Contents evaluated and nodes visited. */
  readonly searched: number;
}

/** Questions for each jump element that a search goes on for when its time is over before a whole program was found. */
const DIVE = 30;
const DIVE_LEAST = 300;

/** Questions of the search among the best few, in a large inventory. */
const CORE = 20_000;

/** Differences below this many hundredths are rounding of sums of doubles. */
const SLACK = 1e-7;

/**
 * The layouts with the highest expected element score and deductions (components are a constant and
 * left out). Depth-first over jump choices with an upper bound; every choice that could still win is
 * evaluated in its best order under the whole-program rules.
 */
export function searchExpected(setting: Setting, top: number, shouldStop: () => boolean): SearchResult {
  const core = setting.jumps.length > LARGE ? coreOf(setting.jumps) : setting.jumps;
  if (core.length > setting.jumps.length * WORTH_CORE) return searchFrom(setting, top, shouldStop, []);
  const prices = findPrices(core, setting.pool, setting.rules, setting.limits, PRICE_GRAIN, shouldStop);
  let asked = 0;
  const stop = (): boolean => ++asked > CORE || shouldStop();
  const first = searchFrom({ ...setting, jumps: core, prices }, top, stop, []);
  const result = searchFrom(setting, top, shouldStop, first.found);
  return { ...result, searched: first.searched + result.searched };
}

/** The best few are searched first where they are no more than this share of all. */
const WORTH_CORE = 0.7;

/** The search itself, with programs that are known already. */
function searchFrom(
  setting: Setting,
  top: number,
  shouldStop: () => boolean,
  known: SearchResult['found'],
): SearchResult {
  const { rests, orders, restOrders } = setting;
  const best = new Top<Program>(top);
  for (const { what, value } of known) best.add(contentOf(what), value, 0, what);
  const scale = fallScale(setting.rules);
  const richest = rests[0]?.early ?? -Infinity;
  let evaluated = 0;
  if (rests.length === 0) return { found: [], bound: -Infinity, finished: !shouldStop(), searched: 0 };

  const evaluate = (ordered: OrderedJumps, rest: Rest): void => {
    const others = restOrders.best(rest.chosen);
    const falls = [
      ...ordered.order.map(({ what, place }) => what.falls[PLACE_INDEX[place]]),
      ...rest.chosen.map((m) => m.falls[EARLY]),
    ];
    const value = ordered.value + others.value + expectedFalls(falls, scale, setting.day);
    const program = programOf(ordered.order, others.order, setting.latePenalty);
    evaluated++;
    best.add(contentOf(program), value, 0, program);
  };
  let full = known.length > 0;
  let asked = 0;
  // Whoever has no time left still gets a whole program: the search goes on to the first one.
  const stop = (): boolean => shouldStop() && (full || ++asked > Math.max(DIVE_LEAST, DIVE * setting.jumps.length));
  const visit = (chosen: readonly Measured[], bound: number): void => {
    const bySize = new Map<number, readonly OrderedJumps[]>();
    for (const rest of rests) {
      if (bound + rest.early <= best.threshold + SLACK) break;
      const size = rest.chosen.length;
      const places = latePlaces(chosen.length, size, setting.rules.content);
      const within = fallsByPlace([...chosen, ...rest.chosen], scale, setting.day);
      const ordered = bySize.get(size) ?? orders.best(chosen, places, best.threshold - richest, within);
      bySize.set(size, ordered);
      for (const one of ordered) evaluate(one, rest);
      full ||= ordered.length > 0 && chosen.length === setting.limits.elements;
    }
  };
  const count = searchSets({
    items: setting.jumps,
    pool: setting.pool,
    rules: setting.rules,
    limits: setting.limits,
    must: setting.mustJumps,
    prices: setting.prices,
    shouldStop: stop,
    threshold: () => best.threshold + SLACK - richest,
    visit,
  });
  return {
    found: best.found,
    bound: Math.max(count.unfinished + richest, best.found[0]?.value ?? -Infinity),
    finished: count.unfinished === -Infinity,
    searched: count.nodes + evaluated,
  };
}
