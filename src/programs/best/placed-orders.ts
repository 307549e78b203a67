import { AnyOrder } from './any-order.ts';
import { added, Apartness, type Group } from './apart.ts';
import type { Contest } from './contest.ts';
import { cellsIn, firstMoment, gridOfTail, NOTHING, sumOver, tailOf, type Cell, type Grid } from './grid.ts';
import { programOf } from './layout-of.ts';
import { mildestFall, type Measured } from './measured.ts';
import { inParts } from './order.ts';
import type { Placed } from './places.ts';
import { Remaining } from './remaining.ts';
import type { Rest } from './rests.ts';
import type { Setting } from './search.ts';
import type { ByNode, Front, TailParts } from './tail-parts.ts';
import { PLACE_INDEX } from './values.ts';

/** Orders of choices whose elements have their places; on hundredths, so that nothing is lost by rounding. */
export class PlacedOrders {
  private readonly setting: Setting;
  private readonly parts: TailParts;
  private readonly contest: Contest;
  private readonly apartness: Apartness;

  constructor(setting: Setting, parts: TailParts, contest: Contest) {
    this.setting = setting;
    this.parts = parts;
    this.contest = contest;
    this.apartness = new Apartness(setting, parts);
  }

  /** Evaluates every order that could win. False: stopped before the end. */
  search(placed: readonly Placed<Measured>[], rest: Rest): boolean {
    const { free, freeGrids, groups } = this.apartness.apart(placed);
    const around = added(this.parts.restGrid(rest), freeGrids.map(cellsIn));
    return this.group(groups, around, rest.early + this.aloneMean(placed), [free], rest);
  }

  /** One group after the other; `expected` is an upper bound of the expected score. */
  private group(
    groups: readonly Group[],
    around: ByNode<Grid>,
    expected: number,
    done: readonly (readonly Placed<Measured>[])[],
    rest: Rest,
  ): boolean {
    const [group, ...later] = groups;
    if (group === undefined) {
      this.finish(inParts(done), rest);
      return true;
    }
    const { graph, members } = group;
    const outside = later.reduce((sum, { any }) => added(sum, any.map(gridOfTail)), around);
    const remaining = new Remaining(graph, members);
    const ahead = new AnyOrder(this.parts, remaining, outside.map(tailOf));
    const visit = (mask: number, front: Front, order: readonly Placed<Measured>[]): boolean => {
      if (mask === 0) {
        const grids = this.parts.byNode((z) => sumOfFront(front, z));
        const left = expected - this.aloneMean(members) + this.meanOf(front);
        return this.group(later, added(around, grids.map(cellsIn)), left, [...done, order], rest);
      }
      if (this.contest.shouldStop()) return false;
      const { next, place } = remaining.at(mask);
      const children = next.flatMap((i) => {
        const m = members[i];
        if (m === undefined) return [];
        const left = mask & ~(1 << i);
        const after = this.parts.further(front, graph, m.what, place, remaining.at(left).future);
        const so = [...order, m];
        const joints = [...after].map(([node, grids]) => [grids, ahead.at(left, node)] as const);
        const bound = this.contest.bound(this.parts.size, joints);
        return [{ left, after, so, bound, expected: expected - this.aloneMean(so) + this.meanOf(after) }];
      });
      for (const child of children.sort((a, b) => b.bound - a.bound)) {
        if (this.contest.cannotWin(child.bound, child.expected)) continue;
        if (!visit(child.left, child.after, child.so)) return false;
      }
      return true;
    };
    const start: Front = new Map([[graph.start, this.parts.byNode(() => NOTHING)]]);
    return visit(remaining.all, start, []);
  }

  private finish(jumps: readonly Placed<Measured>[], rest: Rest): void {
    const { orders, restOrders, latePenalty } = this.setting;
    if (!orders.isLegal(jumps)) return;
    for (const { order } of restOrders.all(rest.chosen)) this.contest.evaluate(programOf(jumps, order, latePenalty));
  }

  /** Expected points alone in their places, falls at the mildest amount. */
  private aloneMean(members: readonly Placed<Measured>[]): number {
    const fall = mildestFall(this.setting.rules);
    return members.reduce((sum, { what, place }) => {
      const index = PLACE_INDEX[place];
      return sum + what.mean[index] + fall * this.setting.day.mix(what.falls[index]);
    }, 0);
  }

  /** Expected points of what was skated so far, falls at the mildest amount. */
  private meanOf(front: Front): number {
    const { day } = this.setting;
    let sum = 0;
    for (const grids of front.values()) sum += day.mix(grids.map(firstMoment));
    return sum;
  }
}

/** The distribution over all states. */
function sumOfFront(front: Front, z: number): Grid {
  return sumOver([...front.values()].flatMap((grids) => (grids[z] === undefined ? [] : [[grids[z], ZERO] as const])));
}

const ZERO: readonly Cell[] = [{ at: 0, p: 1 }];
