import { AnyOrder } from './any-order.ts';
import { couplingOf } from './contested.ts';
import { gridOfTail, NOTHING, NOTHING_MORE, plus, type Cell, type Grid, type Tail } from './grid.ts';
import type { Measured } from './measured.ts';
import { placedKey } from './order.ts';
import type { Placed } from './places.ts';
import { Remaining } from './remaining.ts';
import type { Setting } from './search.ts';
import type { StateGraph } from './state-graph.ts';
import type { ByNode, TailParts } from './tail-parts.ts';
import { PLACE_INDEX } from './values.ts';

/** Elements that the rules couple, in their places. */
export interface Group {
  readonly graph: StateGraph;
  readonly members: readonly Placed<Measured>[];
  /** Largest tail of any order of it. */
  readonly any: ByNode<Tail>;
}

/** Jump elements in their places, taken apart: what adds up whatever the order, and what hangs together. */
export interface Apart {
  readonly free: readonly Placed<Measured>[];
  readonly freeGrids: ByNode<Grid>;
  readonly groups: readonly Group[];
  /** Sum of all, every group at its largest tail. */
  readonly most: ByNode<Grid>;
}

/** Sum with an independent part at each node. */
export const added = (grids: ByNode<Grid>, cells: ByNode<readonly Cell[]>): ByNode<Grid> =>
  grids.map((grid, z) => plus(grid, cells[z] ?? []));

/** Takes jump elements in their places apart, on a grid of one size; remembers the groups. */
export class Apartness {
  readonly parts: TailParts;
  private readonly setting: Setting;
  private readonly known = new Map<string, ByNode<Tail>>();

  constructor(setting: Setting, parts: TailParts) {
    this.setting = setting;
    this.parts = parts;
  }

  apart(placed: readonly Placed<Measured>[]): Apart {
    const { orders, rules } = this.setting;
    const { components } = couplingOf(
      placed.map((m) => m.what),
      rules,
    );
    const groups = components.map(({ names, members: inside }) => {
      const members = placed.filter((m) => inside.includes(m.what));
      const graph = orders.graph(names);
      return { graph, members, any: this.anyOrder(graph, members) };
    });
    const inside = new Set(groups.flatMap((group) => group.members));
    const free = placed.filter((m) => !inside.has(m));
    const freeGrids = free.reduce<ByNode<Grid>>(
      (sum, m) => added(sum, this.parts.at(m.what, PLACE_INDEX[m.place])),
      this.parts.byNode(() => NOTHING),
    );
    return {
      free,
      freeGrids,
      groups,
      most: groups.reduce((sum, { any }) => added(sum, any.map(gridOfTail)), freeGrids),
    };
  }

  private anyOrder(graph: StateGraph, members: readonly Placed<Measured>[]): ByNode<Tail> {
    const key = `${graph.memory} ${members.map(placedKey).sort().join(' ')}`;
    const known = this.known.get(key);
    if (known !== undefined) return known;
    const found = new AnyOrder(
      this.parts,
      new Remaining(graph, members),
      this.parts.byNode(() => NOTHING_MORE),
    ).whole();
    this.known.set(key, found);
    return found;
  }
}
