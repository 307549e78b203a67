import type { ProgramModel } from '../../forecast/index.ts';
import type { Inventory } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import { Day } from './day.ts';
import { freshCalls, measure, type Measured } from './measured.ts';
import { OrderSearch } from './order.ts';
import { latePlaces } from './places.ts';
import type { Pool } from './pool.ts';
import { findPrices } from './prices.ts';
import { RestOrders } from './rest-order.ts';
import { legalRests, type Rest } from './rests.ts';
import { meant } from './pool.ts';
import type { JumpLimits, Prices } from './jump-items.ts';
import { ValueBook } from './values.ts';

/** Everything a search needs, worked out once for an inventory. */
export interface Setting {
  readonly rules: SegmentRules;
  readonly model: ProgramModel;
  readonly pool: Pool;
  readonly day: Day;
  readonly jumps: readonly Measured[];
  readonly rests: readonly Rest[];
  /** Everything a layout may be made of was looked at; else no bound on layouts is known. */
  readonly complete: boolean;
  readonly limits: JumpLimits;
  readonly prices: Prices;
  /** Codes that every layout holds, as often as they are listed. */
  readonly must: readonly string[];
  /** Those that are jump elements. */
  readonly mustJumps: readonly string[];
  readonly orders: OrderSearch;
  readonly restOrders: RestOrders;
  readonly latePenalty: number;
}

/** Codes of `must` that mean jump elements of the pool, and the others. */
function splitMust(must: readonly string[], pool: Pool): { readonly jumps: string[]; readonly others: string[] } {
  const isJump = (code: string): boolean => pool.items.some((i) => i.element.kind === 'jump' && meant(code, i.element));
  return { jumps: must.filter(isJump), others: must.filter((code) => !isJump(code)) };
}

/** Largest numbers of jump elements, units and bonus places that a layout of the segment can have. */
function limitsOf(rules: SegmentRules, jumps: readonly Measured[], rests: readonly Rest[]): JumpLimits {
  const { content } = rules;
  const elements = content.jumpElements.max ?? Math.min(jumps.length, MOST_ELEMENTS);
  const others = Math.max(0, ...rests.map((r) => r.chosen.length));
  const { most, earning } = latePlaces(elements, others, content);
  const units = content.maxUnits ?? content.jumpsPerUnit?.length ?? elements;
  return { elements, units, bonus: Math.min(elements, most, earning) };
}

/** Where no rule limits the jump elements: longer programs than this do not exist. */
const MOST_ELEMENTS = 10;

/** Hundredths per cell where all choices of jumps are looked at; prices are whole cells. */
export const PRICE_GRAIN = 10;

/** Prepares a search. */
export function prepare(
  inventory: Inventory,
  model: ProgramModel,
  pool: Pool,
  rules: SegmentRules,
  shouldStop: () => boolean,
): Setting {
  const { latePenalty, must } = inventory.constraints;
  const book = new ValueBook(rules.chosen.values, latePenalty);
  const day = new Day(model, rules, latePenalty);
  const measured: Measured[] = [];
  const callAlone = freshCalls(rules);
  for (const item of pool.items) {
    // What could not be measured in time stays out; entries and the best pairs never do.
    if (item.source === null && measured.length % 16 === 0 && measured.length >= pool.core && shouldStop()) break;
    measured.push(measure(item, rules, book, day, callAlone));
  }
  const jumps = measured.filter((m) => m.item.element.kind === 'jump');
  const split = splitMust(must, pool);
  const others = measured.filter((m) => m.item.element.kind !== 'jump');
  const { rests, complete } = legalRests(others, pool, rules, split.others, shouldStop);
  const limits = limitsOf(rules, jumps, rests);
  return {
    rules,
    model,
    pool,
    day,
    jumps,
    rests,
    complete: complete && pool.complete && measured.length === pool.items.length,
    limits,
    prices: findPrices(jumps, pool, rules, limits, PRICE_GRAIN, shouldStop),
    must,
    mustJumps: split.jumps,
    orders: new OrderSearch(rules, book, day, latePenalty),
    restOrders: new RestOrders(rules, book, day),
    latePenalty,
  };
}
