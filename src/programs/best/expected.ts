import { expectedFalls, fallsByPlace, fallScale } from './falls.ts';
import { searchSets } from './jump-sets.ts';
import { contentOf, programOf, type Program } from './layout-of.ts';
import type { Measured } from './measured.ts';
import type { OrderedJumps } from './order.ts';
import { latePlaces } from './places.ts';
import type { Rest } from './rests.ts';
import type { Setting } from './search.ts';
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

/** Most nodes that a search goes on for when its time is over before a whole program was found. */
const DIVE = 300;

/** Differences below this many hundredths are rounding of sums of doubles. */
const SLACK = 1e-7;

/**
 * The layouts with the highest expected element score and deductions (components are a constant and
 * left out). Depth-first over jump choices with an upper bound; every choice that could still win is
 * evaluated in its best order under the whole-program rules.
 */
export function searchExpected(setting: Setting, top: number, shouldStop: () => boolean): SearchResult {
  const { rests, orders, restOrders } = setting;
  const best = new Top<Program>(top);
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
  let full = false;
  let asked = 0;
  // Whoever has no time left still gets a whole program: the search goes on to the first one.
  const stop = (): boolean => shouldStop() && (full || ++asked > DIVE);
  const visit = (chosen: readonly Measured[], bound: number): void => {
    const known = new Map<number, readonly OrderedJumps[]>();
    for (const rest of rests) {
      if (bound + rest.early <= best.threshold + SLACK) break;
      const size = rest.chosen.length;
      const places = latePlaces(chosen.length, size, setting.rules.content);
      const within = fallsByPlace([...chosen, ...rest.chosen], scale, setting.day);
      const ordered = known.get(size) ?? orders.best(chosen, places, best.threshold - richest, within);
      known.set(size, ordered);
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
