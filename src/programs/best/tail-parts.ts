import { distributionOf } from '../../forecast/index.ts';
import type { Result } from '../../notation/index.ts';
import {
  cellsOf,
  envelope,
  gridOf,
  gridOfTail,
  NOTHING,
  plus,
  sumOver,
  tailOf,
  type Cell,
  type Grid,
  type Tail,
} from './grid.ts';
import type { Future } from './forget.ts';
import { mildestFall, type Measured } from './measured.ts';
import type { Rest } from './rests.ts';
import type { Setting } from './search.ts';
import type { StateGraph, StateNode } from './state-graph.ts';
import { BONUS, EARLY, LATE, PLACES, type PlaceIndex } from './values.ts';

/** Something at each node of the day. */
export type ByNode<T> = readonly T[];

/** What one element brings on the way from a state to another, in cells. */
export interface Step {
  readonly next: StateNode;
  readonly cells: ByNode<readonly Cell[]>;
}

/** Grids by the state that they led to. */
export type Front = ReadonlyMap<StateNode, ByNode<Grid>>;

interface Atom {
  readonly points: number;
  readonly p: number;
}

/** Most that a bonus place can add to any outcome of an element, in hundredths. */
const mostGain = (m: Measured): number =>
  Math.max(
    0,
    ...m.alone.flatMap((called) => called.points[1].map((points, g) => points - (called.points[0][g] ?? points))),
  );

/**
 * Elements and their surroundings on a grid of one size, at each node of the day. Falls cost the mildest
 * amount of the scale here, so every sum is at least what the program is worth.
 */
export class TailParts {
  readonly size: number;
  readonly weights: readonly number[];
  private readonly setting: Setting;
  private readonly fall: number;
  private readonly cells = new Map<number, (ByNode<readonly Cell[]> | undefined)[]>();
  private readonly wide = new Map<number, ByNode<readonly Cell[]>>();
  private readonly gains = new Map<Measured, number>();
  private readonly grids = new Map<Rest, ByNode<Grid>>();
  private readonly tails = new Map<Rest, ByNode<Tail>>();
  private readonly steps = new Map<StateNode, (readonly Step[])[][]>();
  private readonly base: Grid;

  constructor(setting: Setting, base: Grid, size: number) {
    this.size = size;
    this.setting = setting;
    this.weights = setting.day.weights;
    this.base = base;
    this.fall = mildestFall(setting.rules);
  }

  /** Something for each node. */
  byNode<T>(make: (node: number) => T): ByNode<T> {
    return this.weights.map((_, node) => make(node));
  }

  /** Possible values of an element alone at a place. */
  at(m: Measured, place: PlaceIndex): ByNode<readonly Cell[]> {
    const known = this.cells.get(m.item.id) ?? [];
    this.cells.set(m.item.id, known);
    const found = known[place] ?? this.valuesAt(m, place);
    known[place] = found;
    return found;
  }

  /**
   * Values that are as likely to be reached as at any place, but for what a bonus place adds. A penalty on
   * late jumps lets the day tilt them a little otherwise there; else this is the element placed early.
   */
  anywhere(m: Measured): ByNode<readonly Cell[]> {
    if (!this.tiltsByPlace) return this.at(m, EARLY);
    const known = this.wide.get(m.item.id);
    if (known !== undefined) return known;
    const gain = this.gain(m);
    const found = this.byNode((z) => {
      const tails = ([EARLY, BONUS, LATE] as const).map((place) => {
        const { from, p } = tailOf(plus(NOTHING, this.at(m, place)[z] ?? []));
        return { from: from - (place === BONUS ? gain : 0), p };
      });
      return gridOfTail(envelope(tails));
    });
    this.wide.set(m.item.id, found);
    return found;
  }

  /** The chances of an element may hang on its place. */
  get tiltsByPlace(): boolean {
    return this.weights.length > 1 && this.setting.latePenalty !== 0;
  }

  /** Most that a bonus place can add, in cells. */
  gain(m: Measured): number {
    let known = this.gains.get(m);
    if (known === undefined) this.gains.set(m, (known = Math.ceil(mostGain(m) / this.size)));
    return known;
  }

  /** Spins, sequences, components and deductions of a rest. */
  restGrid(rest: Rest): ByNode<Grid> {
    const known = this.grids.get(rest);
    if (known !== undefined) return known;
    const grids = this.byNode((z) => rest.chosen.reduce((sum, m) => plus(sum, this.at(m, EARLY)[z] ?? []), this.base));
    this.grids.set(rest, grids);
    return grids;
  }

  /** Tail of the same. */
  restTail(rest: Rest): ByNode<Tail> {
    const known = this.tails.get(rest);
    if (known !== undefined) return known;
    const tails = this.restGrid(rest).map(tailOf);
    this.tails.set(rest, tails);
    return tails;
  }

  /** Largest tail of any rest at every value. */
  richestTail(rests: readonly Rest[]): ByNode<Tail> {
    return this.byNode((z) => envelope(rests.flatMap((rest) => this.restTail(rest)[z] ?? [])));
  }

  /** Where an element leads from a state, and what it brings as called there; `future` is still to come. */
  stepsFrom(graph: StateGraph, from: StateNode, m: Measured, place: PlaceIndex, future: Future): readonly Step[] {
    let known = this.steps.get(from);
    if (known === undefined) this.steps.set(from, (known = []));
    const byFuture = (known[m.item.id * PLACES.length + place] ??= []);
    return (byFuture[future.id] ??= this.makeSteps(graph, from, m, place, future));
  }

  /** One element further, `future` still to come. */
  further(front: Front, graph: StateGraph, m: Measured, place: PlaceIndex, future: Future): Front {
    const parts = new Map<StateNode, (readonly [ByNode<Grid>, ByNode<readonly Cell[]>])[]>();
    for (const [node, grids] of front) {
      for (const { next, cells } of this.stepsFrom(graph, node, m, place, future)) {
        const list = parts.get(next);
        if (list === undefined) parts.set(next, [[grids, cells]]);
        else list.push([grids, cells]);
      }
    }
    const after = new Map<StateNode, ByNode<Grid>>();
    for (const [next, list] of parts) {
      after.set(
        next,
        this.byNode((z) => sumOver(list.flatMap(([grids, cells]) => pairOf(grids[z], cells[z])))),
      );
    }
    return after;
  }

  private makeSteps(
    graph: StateGraph,
    from: StateNode,
    m: Measured,
    place: PlaceIndex,
    future: Future,
  ): readonly Step[] {
    const chances = this.setting.day.chances(m.item, place);
    const byNext = new Map<StateNode, Atom[][]>();
    m.item.outcomes.forEach((outcome, o) => {
      const { called, next: whole } = graph.arc(from, m.item, o, outcome);
      const next = graph.forget(whole, future);
      const atoms = byNext.get(next) ?? this.weights.map((): Atom[] => []);
      byNext.set(next, atoms);
      this.addAtoms(atoms, called.points[place], o, outcome.fall, chances);
    });
    return [...byNext].map(([next, atoms]) => ({ next, cells: atoms.map((list) => cellsOf(list, this.size)) }));
  }

  private valuesAt(m: Measured, place: PlaceIndex): ByNode<readonly Cell[]> {
    const chances = this.setting.day.chances(m.item, place);
    const atoms = this.weights.map((): Atom[] => []);
    m.item.outcomes.forEach((outcome, o) => {
      this.addAtoms(atoms, m.alone[o]?.points[place] ?? [], o, outcome.fall, chances);
    });
    return atoms.map((list) => cellsOf(list, this.size));
  }

  private addAtoms(
    into: readonly Atom[][],
    points: readonly number[],
    o: number,
    fall: boolean,
    chances: ByNode<readonly (readonly number[])[]>,
  ): void {
    into.forEach((list, z) => {
      points.forEach((value, g) => {
        list.push({ points: value + (fall ? this.fall : 0), p: chances[z]?.[o]?.[g] ?? 0 });
      });
    });
  }
}

const pairOf = (grid: Grid | undefined, cells: readonly Cell[] | undefined) =>
  grid === undefined || cells === undefined ? [] : [[grid, cells] as const];

/** Components and deductions other than falls on a grid. */
export function baseGrid(setting: Setting, size: number): Result<Grid> {
  const pmf = distributionOf({ ...setting.model, elements: [] });
  return pmf.ok ? { ok: true, value: gridOf(pmf.value, size) } : pmf;
}
