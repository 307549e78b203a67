import { chanceOf, moments, quantile, type Pmf } from '../../forecast/index.ts';
import { isUnit } from '../../scoring/index.ts';
import { searchExpected, type SearchResult } from './expected.ts';
import { cellsIn, NOTHING, plus, reach, tailOf, type Grid, type Tail } from './grid.ts';
import { copies, searchSets } from './jump-sets.ts';
import { contentOf, pmfOfProgram, programOf, type Program } from './layout-of.ts';
import type { Measured } from './measured.ts';
import type { Objective } from './objective.ts';
import { inParts } from './order.ts';
import { latePlaces, type Placed } from './places.ts';
import type { Placing } from './placing.ts';
import type { Rest } from './rests.ts';
import type { Setting } from './search.ts';
import { baseGrid, extensions, PLACE_INDEX, TailParts } from './tail-parts.ts';
import { Top } from './top.ts';

type TailObjective = Exclude<Objective, { kind: 'expected' }>;

/** Hundredths per cell of the first, rough pass. */
const COARSE = 10;
/** Bounds are taken with this allowance for rounding. */
const ROUNDING = 1e-10;

/**
 * Value of the objective from the chance of reaching x cells, as a function of x. A quantile below
 * `floor` hundredths is not worked out: -Infinity.
 */
function valueFrom(
  objective: TailObjective,
  size: number,
  range: readonly [number, number],
  floor: number,
  chance: (cell: number) => number,
): number {
  if (objective.kind === 'chance') return chance(Math.ceil(objective.target / size));
  const enough = (cell: number): boolean => chance(cell) > 1 - objective.level - ROUNDING;
  let [low, high] = range;
  const least = Math.floor(floor / size);
  if (least > low) {
    if (least > high || !enough(least)) return -Infinity;
    low = least;
  }
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (enough(middle)) low = middle;
    else high = middle - 1;
  }
  return low * size;
}

const exactValue = (pmf: Pmf, objective: TailObjective): number =>
  objective.kind === 'chance' ? chanceOf(pmf, objective.target) : quantile(pmf, objective.level);

const isUnitItem = (m: Measured): boolean => m.item.element.kind === 'jump' && isUnit(m.item.element);

/** Bound of the objective for a distribution of jumps, a tail of everything else, and bonus cells on top. */
function boundOf(
  objective: TailObjective,
  parts: TailParts,
  grid: Grid,
  rest: Tail,
  shift: number,
  floor: number,
): number {
  const low = grid.from + rest.from + shift;
  const range = [low, low + grid.p.length + rest.p.length] as const;
  return valueFrom(objective, parts.size, range, floor, (cell) => reach(grid, rest, cell - shift));
}

const topGains = (gains: readonly number[], most: number): number =>
  [...gains]
    .sort((a, b) => b - a)
    .slice(0, most)
    .reduce((a, b) => a + b, 0);

interface Candidate {
  readonly chosen: readonly Measured[];
  readonly bound: number;
  /** Upper bound of the expected score, for ties. */
  readonly expected: number;
}

/** The search for the best chance or quantile. */
class TailSearch {
  private readonly best: Top<Program>;
  private evaluations = 0;
  private readonly setting: Setting;
  private readonly objective: TailObjective;
  private readonly coarse: TailParts;
  private readonly fine: TailParts;

  constructor(setting: Setting, objective: TailObjective, top: number, coarse: TailParts, fine: TailParts) {
    this.setting = setting;
    this.objective = objective;
    this.best = new Top<Program>(top);
    this.coarse = coarse;
    this.fine = fine;
  }

  run(shouldStop: () => boolean): SearchResult {
    const { setting } = this;
    for (const { what } of searchExpected(setting, START, shouldStop).found) this.evaluate(what);
    const candidates: Candidate[] = [];
    const count = this.candidates(candidates, shouldStop);
    candidates.sort((a, b) => b.bound - a.bound);
    let left = -Infinity;
    for (const candidate of candidates) {
      if (this.cannotWin(candidate.bound, candidate.expected)) continue;
      if (shouldStop()) {
        left = Math.max(left, candidate.bound);
        break;
      }
      this.examine(candidate.chosen);
    }
    const finished = left === -Infinity && count.unfinished === -Infinity;
    const open = count.unfinished > -Infinity ? this.widest() : left;
    return {
      found: this.best.found,
      bound: this.unit(Math.max(open, this.best.found[0]?.value ?? -Infinity)),
      finished: finished && setting.model.formSd === 0,
      searched: count.nodes + this.evaluations,
    };
  }

  private unit(value: number): number {
    return this.objective.kind === 'quantile' ? value / 100 : Math.min(1, value);
  }

  /** Where the search was stopped before every choice had a bound: the widest one. */
  private widest(): number {
    return this.objective.kind === 'chance' ? 1 : Infinity;
  }

  /** What a bound must reach to be worth working out. */
  private get floor(): number {
    return this.best.threshold;
  }

  /** Below the last of the list, or equal to it with no higher expected score. */
  private cannotWin(bound: number, expected: number): boolean {
    const { threshold, tie } = this.best;
    return bound < threshold - ROUNDING || (bound <= threshold + ROUNDING && expected <= tie + 1e-6);
  }

  /** First pass: every legal choice whose rough bound could win. */
  private candidates(into: Candidate[], shouldStop: () => boolean) {
    const { setting, coarse } = this;
    const { limits, rests } = setting;
    if (rests.length === 0) return { nodes: 0, unfinished: -Infinity };
    const rest = coarse.richestTail(rests);
    const sorted = copies(setting.jumps, setting.pool);
    const ahead = extensions(sorted, isUnitItem, coarse, rest, setting);
    const richest = rests[0]?.early ?? 0;
    const futureGain = suffixMost(sorted.map((m) => coarse.gain(m)));
    const stack: Grid[] = [NOTHING];
    return searchSets({
      items: setting.jumps,
      pool: setting.pool,
      rules: setting.rules,
      limits,
      must: setting.mustJumps,
      shouldStop,
      threshold: () => -Infinity,
      enter: (chosen, from, worth) => {
        const last = chosen.at(-1);
        const before = stack[chosen.length - 1];
        const grid = last === undefined || before === undefined ? NOTHING : plus(before, coarse.at(last, 0));
        stack[chosen.length] = grid;
        const units = chosen.filter(isUnitItem).length;
        const left = limits.elements - chosen.length;
        const unitsLeft = Math.min(left, limits.units - units);
        const tail = ahead[from]?.[unitsLeft]?.[left - unitsLeft];
        if (tail === undefined) return true;
        const gains = [
          ...chosen.map((m) => coarse.gain(m)),
          ...Array.from({ length: left }, () => futureGain[from] ?? 0),
        ];
        return !this.cannotWin(
          boundOf(this.objective, coarse, grid, tail, topGains(gains, limits.bonus), this.floor),
          worth + richest,
        );
      },
      visit: (chosen, expected) => {
        const grid = stack[chosen.length] ?? NOTHING;
        const shift = topGains(
          chosen.map((m) => coarse.gain(m)),
          limits.bonus,
        );
        const bound = boundOf(this.objective, coarse, grid, rest, shift, this.floor);
        if (!this.cannotWin(bound, expected + richest)) into.push({ chosen, bound, expected: expected + richest });
      },
    });
  }

  /** Second pass: one choice of jumps on the fine grid, with every rest and every placing that could win. */
  private examine(chosen: readonly Measured[]): void {
    const { setting, fine } = this;
    const grid = chosen.reduce((sum, m) => plus(sum, fine.at(m, 0)), NOTHING);
    const shift = topGains(
      chosen.map((m) => fine.gain(m)),
      setting.limits.bonus,
    );
    const sum = chosen.reduce((s, m) => s + m.early + Math.max(0, m.bonusGain), 0);
    const bounded = setting.rests
      .map((rest) => ({ rest, bound: boundOf(this.objective, fine, grid, fine.restTail(rest), shift, this.floor) }))
      .filter(({ rest, bound }) => !this.cannotWin(bound, sum + rest.early))
      .sort((a, b) => b.bound - a.bound);
    const placed = new Map<string, Grid>();
    for (const { rest, bound } of bounded) {
      if (!this.cannotWin(bound, sum + rest.early)) this.examineRest(chosen, rest, placed);
    }
  }

  private examineRest(chosen: readonly Measured[], rest: Rest, placed: Map<string, Grid>): void {
    const { setting, fine } = this;
    const places = latePlaces(chosen.length, rest.chosen.length, setting.rules.content);
    const tail = fine.restTail(rest);
    const others = setting.restOrders.best(rest.chosen).order;
    const options = setting.orders.placings(chosen, places).map((placing, index) => {
      const key = `${rest.chosen.length} ${index}`;
      let grid = placed.get(key);
      if (grid === undefined) {
        grid = placing.members.reduce((sum, { what, place }) => plus(sum, fine.at(what, PLACE_INDEX[place])), NOTHING);
        placed.set(key, grid);
      }
      return {
        placing,
        bound: boundOf(this.objective, fine, grid, tail, 0, this.floor),
        expected: placing.sum + rest.early,
      };
    });
    for (const { placing, bound, expected } of options.sort((a, b) => b.bound - a.bound)) {
      if (!this.cannotWin(bound, expected)) this.examineOrders(placing, rest, others);
    }
  }

  /** Every order of the coupled elements whose own distribution could win. */
  private examineOrders(placing: Placing, rest: Rest, others: readonly Measured[]): void {
    const { fine, setting } = this;
    const { free, groups } = setting.orders.partsOf(placing);
    const around = free.reduce((sum, m) => plus(sum, fine.at(m.what, PLACE_INDEX[m.place])), fine.restGrid(rest));
    const [most, ...more] = [...groups].sort((a, b) => b.orders.length - a.orders.length);
    if (most === undefined) {
      this.evaluate(programOf(placing.members, others, setting.latePenalty));
      return;
    }
    const visit = (left: typeof groups, grid: Grid, chosen: readonly (readonly Placed<Measured>[])[]): void => {
      const [group, ...later] = left;
      if (group !== undefined) {
        for (const order of group.orders) {
          visit(later, plus(grid, cellsIn(fine.orderedGrid(order, group.graph, group.key))), [...chosen, order]);
        }
        return;
      }
      const tail = tailOf(grid);
      const expected = placing.sum + rest.early;
      const ranked = most.orders
        .map((order) => ({
          order,
          bound: boundOf(this.objective, fine, fine.orderedGrid(order, most.graph, most.key), tail, 0, this.floor),
        }))
        .sort((a, b) => b.bound - a.bound);
      for (const { order, bound } of ranked) {
        if (this.cannotWin(bound, expected)) break;
        this.evaluate(programOf(inParts([free, ...chosen, order]), others, setting.latePenalty));
      }
    };
    visit(more, around, []);
  }

  private evaluate(program: Program): void {
    const pmf = pmfOfProgram(program, this.setting);
    if (!pmf.ok) return;
    this.evaluations++;
    const value = exactValue(pmf.value, this.objective);
    this.best.add(contentOf(program), value, moments(pmf.value).mean - this.offset(), program);
  }

  /** Expected scores are compared without components, as the bounds are. */
  private offset(): number {
    this.base ??= this.baseMean();
    return this.base;
  }
  private base: number | null = null;
  private baseMean(): number {
    const pmf = pmfOfProgram([], this.setting);
    return pmf.ok ? moments(pmf.value).mean : 0;
  }
}

/** Layouts of the expected search that are tried first, so that there is something to beat. */
const START = 6;

function suffixMost(list: readonly number[]): readonly number[] {
  const most: number[] = [];
  let best = 0;
  for (let i = list.length - 1; i >= 0; i--) most[i] = best = Math.max(best, list[i] ?? 0);
  return most;
}

/**
 * Layouts with the highest chance of a target, or the highest quantile. Rough bounds on a coarse grid
 * over all legal choices, fine bounds for what is left, exact distributions for what could win.
 */
export function searchTail(
  setting: Setting,
  objective: TailObjective,
  top: number,
  shouldStop: () => boolean,
): SearchResult {
  const coarse = baseGrid(setting, COARSE);
  const fine = baseGrid(setting, 1);
  if (!coarse.ok || !fine.ok) return { found: [], bound: Infinity, finished: false, searched: 0 };
  const parts = [new TailParts(setting, coarse.value, COARSE), new TailParts(setting, fine.value, 1)] as const;
  return new TailSearch(setting, objective, top, ...parts).run(shouldStop);
}
