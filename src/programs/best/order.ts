import { callNext, startProgram } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import { contested, isCoupled } from './contested.ts';
import type { Measured } from './measured.ts';
import { permutations } from './permutations.ts';
import type { LatePlaces, Placed } from './places.ts';
import { StateGraph, type StateNode } from './state-graph.ts';
import { BONUS, EARLY, LATE, type Place, type ValueBook } from './values.ts';

/** The best order of a choice of jump elements: expected points without deductions. */
export interface OrderedJumps {
  readonly order: readonly Placed<Measured>[];
  readonly value: number;
}

/** A way to give places to jump elements; `sum` is its worth if no rule couples them. */
export interface Placing {
  readonly members: readonly Placed<Measured>[];
  readonly early: readonly Measured[];
  readonly late: readonly Measured[];
  readonly bonus: readonly Measured[];
  readonly sum: number;
}

/** All choices of `count` members, as [chosen, left]. */
function choices<T>(list: readonly T[], count: number): readonly (readonly [readonly T[], readonly T[]])[] {
  if (count === 0) return [[[], list]];
  const [first, ...rest] = list;
  if (first === undefined || list.length < count) return [];
  return [
    ...choices(rest, count - 1).map(([chosen, left]) => [[first, ...chosen], left] as const),
    ...choices(rest, count).map(([chosen, left]) => [chosen, [first, ...left]] as const),
  ];
}

/** Numbers of jumps to place late that can be best: all that may, unless being late can cost. */
function lateCounts(set: readonly Measured[], { least, most, earning }: LatePlaces): readonly number[] {
  const harmless = set.every((m) => m.bonusGain >= 0) && set.every((m) => m.lateGain >= 0);
  const enough = Math.max(least, Math.min(most, earning));
  return harmless ? [enough] : Array.from({ length: most - least + 1 }, (_, i) => least + i);
}

const membersOf = (
  early: readonly Measured[],
  late: readonly Measured[],
  bonus: readonly Measured[],
): readonly Placed<Measured>[] => [
  ...early.map((what): Placed<Measured> => ({ what, place: 'early' })),
  ...late.map((what): Placed<Measured> => ({ what, place: 'late' })),
  ...bonus.map((what): Placed<Measured> => ({ what, place: 'bonus' })),
];

function placings(set: readonly Measured[], places: LatePlaces): readonly Placing[] {
  const all = lateCounts(set, places).flatMap((count) => {
    const earning = Math.min(places.earning, count);
    return choices(set, earning).flatMap(([bonus, rest]) =>
      choices(rest, count - earning).map(([late, early]): Placing => {
        const worth = (list: readonly Measured[], place: 0 | 1 | 2): number =>
          list.reduce((sum, m) => sum + m.mean[place], 0);
        return {
          members: membersOf(early, late, bonus),
          early,
          late,
          bonus,
          sum: worth(early, EARLY) + worth(late, LATE) + worth(bonus, BONUS),
        };
      }),
    );
  });
  return all.sort((a, b) => b.sum - a.sum);
}

const SLOTS: readonly Place[] = ['early', 'late', 'bonus'];
const INDEX = { early: EARLY, bonus: BONUS, late: LATE } as const;

type Front = ReadonlyMap<StateNode, number>;

/** One element further: expected points brought, and the chances of the states after it. */
function step(graph: StateGraph, front: Front, m: Measured, place: 0 | 1 | 2): { gain: number; front: Front } {
  let gain = 0;
  const after = new Map<StateNode, number>();
  for (const [node, chance] of front) {
    for (const outcome of m.item.outcomes) {
      const arc = graph.arc(node, outcome);
      const p = chance * outcome.p;
      gain += p * arc.called.mean[place];
      after.set(arc.next, (after.get(arc.next) ?? 0) + p);
    }
  }
  return { gain, front: after };
}

/** Searches orders of jump elements; remembers one graph of states for each set of contested names. */
export class OrderSearch {
  private readonly graphs = new Map<string, StateGraph>();
  private readonly rules: SegmentRules;
  private readonly book: ValueBook;

  constructor(rules: SegmentRules, book: ValueBook) {
    this.rules = rules;
    this.book = book;
  }

  /** The best order, or null where no order is worth more than `above` (or none is legal). */
  best(set: readonly Measured[], places: LatePlaces, above = -Infinity): OrderedJumps | null {
    const names = contested(
      set.map((m) => m.item),
      this.rules,
    );
    const coupled = new Set(set.filter((m) => isCoupled(m.item, names)));
    let best: OrderedJumps | null = null;
    let limit = above;
    for (const placing of placings(set, places)) {
      if (placing.sum <= limit + 1e-9) break;
      const found =
        coupled.size < 2
          ? straight(placing)
          : this.within(placing, coupled, this.graph(names === 'all' ? null : names), limit);
      if (found !== null && found.value > limit) {
        best = found;
        limit = found.value;
      }
    }
    return best;
  }

  /** Every way to place a choice, the highest sum first. */
  placings(set: readonly Measured[], places: LatePlaces): readonly Placing[] {
    return placings(set, places);
  }

  /** Every legal order of a placing that can make a difference: free elements stay where they are. */
  *ordersOf(placing: Placing): Generator<readonly Placed<Measured>[]> {
    const set = placing.members.map((m) => m.what);
    const names = contested(
      set.map((m) => m.item),
      this.rules,
    );
    const coupled = set.filter((m) => isCoupled(m.item, names));
    if (coupled.length < 2) {
      yield placing.members;
      return;
    }
    const [early, late, bonus] = SLOTS.map((place) => placing[place]);
    const isFree = (m: Measured): boolean => !isCoupled(m.item, names);
    for (const a of permuted(early ?? [], isFree)) {
      for (const b of permuted(late ?? [], isFree)) {
        for (const c of permuted(bonus ?? [], isFree)) {
          const order = membersOf(a, b, c);
          if (this.isLegal(order)) yield order;
        }
      }
    }
  }

  private graph(kept: ReadonlySet<string> | null): StateGraph {
    const key = kept === null ? 'all' : [...kept].sort().join(' ');
    const known = this.graphs.get(key);
    if (known !== undefined) return known;
    const fresh = new StateGraph(this.rules, this.book, kept);
    this.graphs.set(key, fresh);
    return fresh;
  }

  /** Permutes the coupled elements inside their places, depth first, cut where the worth alone cannot reach the limit. */
  private within(
    placing: Placing,
    coupled: ReadonlySet<Measured>,
    graph: StateGraph,
    above: number,
  ): OrderedJumps | null {
    const coupledIn = (place: Place): readonly Measured[] => placing[place].filter((m) => coupled.has(m));
    const groups = { early: coupledIn('early'), late: coupledIn('late'), bonus: coupledIn('bonus') };
    const queue = SLOTS.flatMap((place) => groups[place].map(() => place));
    const free = SLOTS.flatMap((place) =>
      placing[place].filter((m) => !coupled.has(m)).map((what): Placed<Measured> => ({ what, place })),
    );
    const taken = { early: new Set<number>(), late: new Set<number>(), bonus: new Set<number>() };
    const order: Placed<Measured>[] = [];
    let best: OrderedJumps | null = null;
    let limit = above;
    const visit = (front: Front, sum: number): void => {
      const place = queue[order.length];
      if (place === undefined) {
        const whole = mergeOrder(order, free);
        if (sum > limit && this.isLegal(whole)) {
          best = { order: whole, value: sum };
          limit = sum;
        }
        return;
      }
      const tried = new Set<Measured>();
      for (const [i, m] of groups[place].entries()) {
        if (taken[place].has(i) || tried.has(m)) continue;
        tried.add(m);
        const { gain, front: after } = step(graph, front, m, INDEX[place]);
        const left = sum - m.mean[INDEX[place]] + gain;
        if (left <= limit) continue;
        taken[place].add(i);
        order.push({ what: m, place });
        visit(after, left);
        order.pop();
        taken[place].delete(i);
      }
    };
    visit(new Map([[graph.start, 1]]), placing.sum);
    return best;
  }

  /** Slots of a short program can make an order illegal that another order of the same elements is not. */
  private isLegal(order: readonly Placed<Measured>[]): boolean {
    const { content, chosen } = this.rules;
    if (content.slots === null) return true;
    let state = startProgram(content, chosen.values.values, chosen.segment);
    return order.every(({ what }) => {
      const called = callNext(state, what.item.element, { bonus: false });
      state = called.state;
      return called.reasons.length === 0;
    });
  }
}

/** Free elements first, then every order of the others. */
function* permuted(list: readonly Measured[], isFree: (m: Measured) => boolean): Generator<readonly Measured[]> {
  const free = list.filter(isFree);
  for (const order of permutations(list.filter((m) => !isFree(m)))) yield [...free, ...order];
}

const straight = (placing: Placing): OrderedJumps => ({
  order: SLOTS.flatMap((place) => placing[place].map((what) => ({ what, place }))),
  value: placing.sum,
});

/** Free elements stand first in their part of the program; where they stand there makes no difference. */
const mergeOrder = (
  coupled: readonly Placed<Measured>[],
  free: readonly Placed<Measured>[],
): readonly Placed<Measured>[] => SLOTS.flatMap((place) => [...free, ...coupled].filter((one) => one.place === place));
