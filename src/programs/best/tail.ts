import { Apartness, type Apart } from './apart.ts';
import { climb } from './climb.ts';
import { choices, topGains, type Choice } from './choices.ts';
import { Contest } from './contest.ts';
import { LARGE } from './core.ts';
import { searchExpected, type SearchResult } from './expected.ts';
import type { Grid } from './grid.ts';
import type { Measured } from './measured.ts';
import type { TailObjective } from './objective-value.ts';
import { PlacedOrders } from './placed-orders.ts';
import { latePlaces } from './places.ts';
import { placings, type Placing } from './placing.ts';
import type { Rest } from './rests.ts';
import { PRICE_GRAIN, type Setting } from './search.ts';
import { baseGrid, TailParts, type ByNode } from './tail-parts.ts';

/** Hundredths per cell: over all choices, over the orders of one choice, and exactly. */
const SIZES = { choices: PRICE_GRAIN, choice: 5, order: 1 } as const;

/** Layouts of the expected search that are tried first, so that there is something to beat. */
const START = 6;

/** Questions after which that search is left, so that time remains for the objective itself; more of a large inventory. */
const START_NODES = { some: 400, many: 1500 } as const;

/** Where there are no more jump elements than this the proof comes about as quickly as a climb. */
const CLIMBED = 60;

/** A placing of one choice; taken apart when it is first asked for. */
interface Option {
  readonly placing: Placing;
  apart: Apart | null;
}

/** One choice of jumps with all of its rests, placings and orders. */
class ChoiceSearch {
  private readonly options = new Map<number, readonly Option[]>();
  private readonly setting: Setting;
  private readonly contest: Contest;
  private readonly rough: Apartness;
  private readonly orders: PlacedOrders;
  private readonly chosen: readonly Measured[];

  constructor(setting: Setting, contest: Contest, rough: Apartness, orders: PlacedOrders, chosen: readonly Measured[]) {
    this.setting = setting;
    this.contest = contest;
    this.rough = rough;
    this.orders = orders;
    this.chosen = chosen;
  }

  /** Evaluates everything that could win. False: stopped before the end. */
  run(): boolean {
    const { contest, chosen } = this;
    const sum = chosen.reduce((s, m) => s + m.early + Math.max(0, m.bonusGain), 0);
    const grids = this.rough.apart(chosen.map((what) => ({ what, place: 'early' }))).most;
    const open = this.setting.rests
      .map((rest) => ({ rest, bound: this.earlyBound(grids, rest) }))
      .filter(({ rest, bound }) => !contest.cannotWin(bound, sum + rest.early))
      .sort((a, b) => b.bound - a.bound);
    for (const { rest, bound } of open) {
      if (contest.shouldStop()) return false;
      if (!contest.cannotWin(bound, sum + rest.early) && !this.placed(rest, grids)) return false;
    }
    return true;
  }

  /** Bound over all orders with every element early, and the most that bonus places can bring on top. */
  private earlyBound(grids: ByNode<Grid>, rest: Rest): number {
    const gains = this.chosen.map((m) => this.rough.parts.gain(m));
    return this.shiftedBound(grids, rest, topGains(gains, this.setting.limits.bonus));
  }

  /** The same for one placing. */
  private placingBound(grids: ByNode<Grid>, rest: Rest, { members }: Placing): number {
    const gains = members.map(({ what, place }) => (place === 'bonus' ? this.rough.parts.gain(what) : 0));
    return this.shiftedBound(
      grids,
      rest,
      gains.reduce((a, b) => a + b, 0),
    );
  }

  private shiftedBound(grids: ByNode<Grid>, rest: Rest, shift: number): number {
    const { parts } = this.rough;
    if (parts.tiltsByPlace) return Infinity;
    return this.contest.bound(parts.size, [[grids, parts.restTail(rest)]], shift);
  }

  private optionsFor(rest: Rest): readonly Option[] {
    const size = rest.chosen.length;
    const known = this.options.get(size);
    if (known !== undefined) return known;
    const places = latePlaces(this.chosen.length, size, this.setting.rules.content);
    const found = placings(this.chosen, places).map((placing): Option => ({ placing, apart: null }));
    this.options.set(size, found);
    return found;
  }

  /** Every placing with one rest. */
  private placed(rest: Rest, early: ByNode<Grid>): boolean {
    const { contest, orders, rough } = this;
    const bounded = this.optionsFor(rest).flatMap((option) => {
      const { placing } = option;
      const expected = placing.sum + rest.early;
      if (contest.cannotWin(this.placingBound(early, rest, placing), expected)) return [];
      option.apart ??= rough.apart(placing.members);
      const bound = contest.bound(rough.parts.size, [[option.apart.most, rough.parts.restTail(rest)]]);
      return contest.cannotWin(bound, expected) ? [] : [{ placing, bound }];
    });
    for (const { placing, bound } of bounded.sort((a, b) => b.bound - a.bound)) {
      if (contest.cannotWin(bound, placing.sum + rest.early)) continue;
      if (!orders.search(placing.members, rest)) return false;
    }
    return true;
  }
}

/** Looks into the choices one after the other; the bound of the first that was not finished, if any. */
function examine(list: readonly Choice[], contest: Contest, search: (chosen: readonly Measured[]) => boolean): number {
  for (const { chosen, bound, expected } of list) {
    if (contest.cannotWin(bound, expected)) continue;
    if (contest.shouldStop() || !search(chosen)) return bound;
  }
  return -Infinity;
}

/**
 * Layouts with the highest chance of a target, or the highest quantile. Rough bounds on a coarse grid
 * over all legal choices; for what is left, bounds over all orders under the rules; then single orders on
 * hundredths, and the exact forecast for what could win. At each node of the day elements are independent.
 */
export function searchTail(
  setting: Setting,
  objective: TailObjective,
  top: number,
  shouldStop: () => boolean,
): SearchResult {
  const grids = [SIZES.choices, SIZES.choice, SIZES.order].map((size) => baseGrid(setting, size));
  const [coarse, rough, fine] = grids.map((grid, i) =>
    grid.ok ? new TailParts(setting, grid.value, [SIZES.choices, SIZES.choice, SIZES.order][i] ?? 1) : undefined,
  );
  if (coarse === undefined || rough === undefined || fine === undefined)
    return { found: [], bound: Infinity, finished: false, searched: 0 };
  const contest = new Contest(setting, objective, top, shouldStop);
  const most = setting.jumps.length > LARGE ? START_NODES.many : START_NODES.some;
  let asked = 0;
  const enough = (): boolean => ++asked > most || shouldStop();
  for (const { what } of searchExpected(setting, Math.max(START, top), enough).found) contest.evaluate(what);
  if (setting.jumps.length > CLIMBED) climb(setting, contest, shouldStop);
  const { list, count, widest } = choices(setting, coarse, contest);
  const stopped = count.unfinished > -Infinity;
  const orders = new PlacedOrders(setting, fine, contest);
  const apartness = new Apartness(setting, rough);
  const left = stopped
    ? widest
    : examine(list, contest, (chosen) => new ChoiceSearch(setting, contest, apartness, orders, chosen).run());
  const unit = (value: number): number => (objective.kind === 'quantile' ? value / 100 : Math.min(1, value));
  return {
    found: contest.best.found,
    bound: unit(Math.max(left, contest.best.found[0]?.value ?? -Infinity)),
    finished: !stopped && left === -Infinity,
    searched: count.nodes + contest.evaluations,
  };
}
