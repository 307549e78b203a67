import type { RepeatRules } from '../../rulebook/index.ts';
import { kindOf } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import { copies, FREE, isUnitItem, type JumpLimits, type Prices } from './jump-items.ts';
import type { Measured } from './measured.ts';
import type { Pool } from './pool.ts';

/** Something of which a legal choice holds at most `once`, or `again` more where it is one of the few. */
interface Row {
  readonly name: string;
  readonly once: number;
  readonly again: number;
  /** Rows of one group share the number of those that may come again; null: all may. */
  readonly group: string | null;
}

type Uses = readonly (readonly [row: number, times: number])[];

const turnsOf = (kind: string): number => Number(kind[0]);
const rotationOf = (kind: string): number => turnsOf(kind) + (kind.endsWith('A') ? 0.5 : 0);

function classOf(kind: string, rules: RepeatRules): 'high' | 'single' | 'low' {
  if (rotationOf(kind) >= rules.highTurnsFrom) return 'high';
  return turnsOf(kind) === 1 && rules.singleKindsTwice !== null ? 'single' : 'low';
}

const limitOf = (group: string, rules: RepeatRules): number | null =>
  ({ high: rules.highKindsTwice, single: rules.singleKindsTwice })[group] ??
  (group === 'low' ? rules.lowKindsTwice : null);

/** Kinds that a planned element tries. */
function kindsOf({ item }: Measured, rules: RepeatRules): readonly string[] {
  if (item.element.kind !== 'jump') return [];
  return item.element.jumps.flatMap((jump) =>
    jump.name === 'Eu' || jump.turns < 1 || jump.turns < rules.freeBelowTurns ? [] : [kindOf(jump)],
  );
}

function kindRow(kind: string, rules: RepeatRules, most: number): Row | null {
  const group = classOf(kind, rules);
  const limit = limitOf(group, rules);
  const same = rules.maxSame ?? most;
  if (limit === null) return rules.maxSame === null ? null : { name: kind, once: same, again: 0, group: null };
  return { name: kind, once: Math.min(1, same), again: Math.max(0, same - 1), group };
}

const atMost = (name: string, once: number | null): Row | null =>
  once === null ? null : { name, once, again: 0, group: null };

type Named = readonly [name: string, make: () => Row | null];

/** Everything that a planned jump element takes up of what the rules limit; names may come more than once. */
function limitedBy(m: Measured, { content, chosen }: SegmentRules, limits: JumpLimits): readonly Named[] {
  const { element } = m.item;
  if (element.kind !== 'jump') return [];
  const { repeats } = content;
  const named: Named[] = [];
  const limit = (name: string, most: number | null): unknown => named.push([name, () => atMost(name, most)]);
  if (isUnitItem(m)) {
    const sequence = element.markers.some((one) => one.marker === 'SEQ');
    const counted =
      chosen.values.values.euler.counts === true ? 0 : element.jumps.filter((j) => j.name === 'Eu').length;
    const long = element.jumps.length - counted;
    if (content.jumpsPerUnit !== null && long > 2) {
      limit('long units', content.jumpsPerUnit.filter((jumps) => jumps >= long).length);
    }
    if (sequence) limit('sequences', content.maxSequences);
    else limit('combinations', content.maxCombinations);
    const eulers = element.jumps.filter((jump) => jump.name === 'Eu').length;
    for (let i = 0; i < eulers; i++) limit('eulers', chosen.values.values.euler.maxPerProgram);
  }
  if (repeats === null) return named;
  for (const kind of kindsOf(m, repeats)) {
    named.push([kind, () => kindRow(kind, repeats, limits.elements * 3)]);
    const reduced = repeats.repFromTurns !== null && turnsOf(kind) >= repeats.repFromTurns;
    if (reduced && !isUnitItem(m)) limit(`${kind} alone`, 1);
  }
  return named;
}

class Market {
  private readonly rows: Row[] = [];
  private readonly uses = new Map<Measured, Uses>();
  private readonly again: ReadonlyMap<string, number>;

  constructor(items: readonly Measured[], pool: Pool, rules: SegmentRules, limits: JumpLimits) {
    const { repeats, slots } = rules.content;
    const index = new Map<string, number>();
    const rowOf = (name: string, make: () => Row | null): number => {
      const known = index.get(name);
      if (known !== undefined) return known;
      const row = make();
      const at = row === null ? -1 : this.rows.push(row) - 1;
      index.set(name, at);
      return at;
    };
    const shared = sharedEntries(items);
    for (const m of items) {
      const times = new Map<number, number>();
      const count = (row: number): void => {
        if (row >= 0) times.set(row, (times.get(row) ?? 0) + 1);
      };
      if (slots === null) for (const [name, make] of limitedBy(m, rules, limits)) count(rowOf(name, make));
      for (const entry of m.item.uses) {
        if (shared.has(entry)) count(rowOf(`entry ${entry}`, () => atMost(`entry ${entry}`, pool.caps[entry] ?? 0)));
      }
      this.uses.set(m, [...times]);
    }
    this.again = new Map(
      repeats === null ? [] : ['high', 'single', 'low'].map((group) => [group, limitOf(group, repeats) ?? Infinity]),
    );
  }

  get size(): number {
    return this.rows.length;
  }

  prices(of: readonly number[]): Prices {
    const known = new Map(
      [...this.uses].map(([m, uses]) => [m, uses.reduce((sum, [r, n]) => sum + n * (of[r] ?? 0), 0)]),
    );
    const total = this.room(of).reduce((sum, room, r) => sum + room * (of[r] ?? 0), 0);
    return { of: (m) => known.get(m) ?? 0, total };
  }

  /** How much of each row a choice may hold that spends its repeats on the dearest. */
  private room(of: readonly number[]): readonly number[] {
    const room = this.rows.map((row) => row.once);
    for (const [group, limit] of this.again) {
      const members = this.rows.flatMap((row, r) => (row.group === group ? [r] : []));
      const dearest = members.sort((a, b) => (of[b] ?? 0) - (of[a] ?? 0)).slice(0, limit);
      for (const r of dearest) room[r] = (room[r] ?? 0) + (this.rows[r]?.again ?? 0);
    }
    return room;
  }

  /** Prices after a step of so many hundredths; null: nothing asks for a change. */
  next(level: readonly number[], of: readonly number[], choice: readonly Measured[], step: number) {
    const held = this.held(choice);
    const slope = this.room(of).map((room, r) => room - (held[r] ?? 0));
    const moving = slope.map((x, r) => (x > 0 && (level[r] ?? 0) === 0 ? 0 : x));
    const length = Math.hypot(...moving);
    return length === 0 ? null : level.map((x, r) => Math.max(0, x - (step * (moving[r] ?? 0)) / length));
  }

  /** How much of each row a choice holds. */
  private held(choice: readonly Measured[]): readonly number[] {
    const held = this.rows.map(() => 0);
    for (const m of choice) for (const [r, n] of this.uses.get(m) ?? []) held[r] = (held[r] ?? 0) + n;
    return held;
  }
}

/** Entries that several items use. */
function sharedEntries(items: readonly Measured[]): ReadonlySet<number> {
  const seen = new Map<number, number>();
  for (const { item } of items) for (const entry of new Set(item.uses)) seen.set(entry, (seen.get(entry) ?? 0) + 1);
  return new Set([...seen].flatMap(([entry, times]) => (times > 1 ? [entry] : [])));
}

/** The best choice of so many elements and units where nothing else limits it. */
function bestChoice(list: readonly Measured[], { elements, units }: JumpLimits, prices: Prices): readonly Measured[] {
  const worth = (m: Measured): number => m.early - prices.of(m);
  const useful = list.filter((m) => worth(m) > 0).sort((a, b) => worth(b) - worth(a));
  const chosen: Measured[] = [];
  let left = units;
  for (const m of useful) {
    if (chosen.length === elements) break;
    if (isUnitItem(m) && left-- <= 0) continue;
    chosen.push(m);
  }
  return chosen;
}

const ROUNDS = 80;
/** Hundredths; halved after so many rounds without a better bound. */
const FIRST_STEP = 200;
const PATIENCE = 5;
/** Prices that lower the bound by a smaller share than this are not worth their shifts. */
const WORTHWHILE = 0.04;

/**
 * Prices that make the bound on the expected score small, as multiples of `grain` hundredths: a row that
 * the best choice at the present prices overfills becomes dearer, one with room to spare cheaper. Bonus
 * places are left out of the account here, so that a round is quick. Stopped, the best prices so far stand:
 * any prices bound from above.
 */
export function findPrices(
  items: readonly Measured[],
  pool: Pool,
  rules: SegmentRules,
  limits: JumpLimits,
  grain: number,
  shouldStop: () => boolean,
): Prices {
  const market = new Market(items, pool, rules, limits);
  if (market.size === 0) return FREE;
  const list = copies(items, pool, FREE);
  let level: readonly number[] = Array.from({ length: market.size }, () => 0);
  let best = { bound: Infinity, prices: FREE };
  let unpriced = Infinity;
  let step = FIRST_STEP;
  let since = 0;
  for (let round = 0; round < ROUNDS && !shouldStop(); round++) {
    const rounded = level.map((x) => Math.round(x / grain) * grain);
    const prices = market.prices(rounded);
    const choice = bestChoice(list, limits, prices);
    const bound = choice.reduce((sum, m) => sum + m.early - prices.of(m), prices.total);
    if (round === 0) unpriced = bound;
    if (bound < best.bound - 1e-9) [best, since] = [{ bound, prices }, 0];
    else if (++since >= PATIENCE) [step, since] = [step / 2, 0];
    const next = market.next(level, rounded, choice, step);
    if (next === null) break;
    level = next;
  }
  return best.bound < unpriced * (1 - WORTHWHILE) ? best.prices : FREE;
}
