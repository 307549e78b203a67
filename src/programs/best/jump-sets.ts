import { callNext, finish, startProgram, type ProgramState } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import { BoundTable } from './bound-table.ts';
import { copies, isUnitItem, type JumpLimits, type Prices } from './jump-items.ts';
import type { Measured } from './measured.ts';
import { meant, type Pool } from './pool.ts';
import { holdsMust } from './rests.ts';

export interface SetSearch {
  readonly items: readonly Measured[];
  readonly pool: Pool;
  readonly rules: SegmentRules;
  readonly limits: JumpLimits;
  readonly must: readonly string[];
  /** What the limits on names and entries make of the bound; `FREE` leaves them aside. */
  readonly prices: Prices;
  readonly shouldStop: () => boolean;
  /** A choice whose bound is not above this may be left out. */
  readonly threshold: () => number;
  /** Asked when a choice begins to be extended by items from `from` on, worth at most `worth`; false cuts it and what follows. */
  readonly enter?: (chosen: readonly Measured[], from: number, worth: number) => boolean;
  /** Called with every legal choice whose bound is above the threshold. */
  readonly visit: (chosen: readonly Measured[], bound: number) => void;
}

/** What a search did: nodes looked at, and the best bound it had to leave unfinished. */
export interface SearchCount {
  readonly nodes: number;
  readonly unfinished: number;
}

const positive = (x: number): number => Math.max(0, x);

/** Largest gains of the chosen so far, best first, at most `most` of them. */
function withGain(gains: readonly number[], gain: number, most: number): readonly number[] {
  if (most === 0) return gains;
  return [...gains, positive(gain)].sort((a, b) => b - a).slice(0, most);
}

/** State for legality as planned: slots and the place of the Axel are asked of whole orders only. */
const planningStart = ({ content, chosen }: SegmentRules): ProgramState =>
  startProgram({ ...content, slots: null, axelRequired: null }, chosen.values.values, chosen.segment);

/**
 * Visits the legal choices of jump elements, depth first by worth, cutting where even the best of the
 * remaining items (names left aside) cannot lift the choice above the threshold.
 */
export function searchSets(search: SetSearch): SearchCount {
  const { pool, rules, limits, must, shouldStop, threshold, prices } = search;
  const list = copies(search.items, pool, prices);
  const table = new BoundTable(list, limits, prices);
  const used = pool.caps.map(() => 0);
  const chosen: Measured[] = [];
  let nodes = 0;
  /** Prices of the chosen. */
  let paid = 0;
  let unfinished = -Infinity;

  const boundAt = (k: number, sum: number, gains: readonly number[], units: number): number => {
    let best = -Infinity;
    let gained = 0;
    for (let i = 0; i <= Math.min(limits.bonus, gains.length); i++) {
      if (i > 0) gained += gains[i - 1] ?? 0;
      best = Math.max(
        best,
        gained + table.at(k, limits.elements - chosen.length, limits.units - units, limits.bonus - i),
      );
    }
    return sum + prices.total - paid + best;
  };
  const reachable = (k: number): boolean =>
    must.every((code) => {
      const wanted = must.filter((other) => other === code).length;
      const have = chosen.filter(({ item }) => meant(code, item.element)).length;
      return have >= wanted || have + list.slice(k).filter(({ item }) => meant(code, item.element)).length >= wanted;
    });
  const uses = ({ item }: Measured, sign: 1 | -1): void => {
    for (const entry of item.uses) used[entry] = (used[entry] ?? 0) + sign;
  };
  const isFree = ({ item }: Measured): boolean =>
    item.uses.every(
      (entry) => (used[entry] ?? 0) + item.uses.filter((e) => e === entry).length <= (pool.caps[entry] ?? 0),
    );
  const offer = (state: ProgramState, sum: number, gains: readonly number[]): void => {
    const bound = sum + gains.reduce((a, b) => a + b, 0);
    if (bound > threshold() && holdsMust(chosen, must) && isComplete(chosen, state, rules)) {
      search.visit([...chosen], bound);
    }
  };

  const visit = (k: number, state: ProgramState, sum: number, gains: readonly number[], units: number): void => {
    nodes++;
    if (search.enter?.(chosen, k, boundAt(k, sum, gains, units)) === false) return;
    offer(state, sum, gains);
    if (chosen.length === limits.elements || (must.length > 0 && !reachable(k))) return;
    for (let i = k; i < list.length; i++) {
      const next = list[i];
      // A copy follows only where the one before it was taken.
      if (next === undefined || (i > k && list[i - 1] === next)) continue;
      const bound = boundAt(i, sum, gains, units);
      if (bound <= threshold()) return;
      if (shouldStop()) {
        unfinished = Math.max(unfinished, bound);
        return;
      }
      const unit = isUnitItem(next) ? 1 : 0;
      if (units + unit > limits.units || !isFree(next)) continue;
      const called = callNext(state, next.item.element, { bonus: false });
      if (called.reasons.length > 0) continue;
      chosen.push(next);
      paid += prices.of(next);
      uses(next, 1);
      visit(i + 1, called.state, sum + next.early, withGain(gains, next.bonusGain, limits.bonus), units + unit);
      uses(next, -1);
      paid -= prices.of(next);
      chosen.pop();
    }
  };
  visit(0, planningStart(rules), 0, [], 0);
  return { nodes, unfinished };
}

/** The whole has what the segment requires of its jumps. */
function isComplete(chosen: readonly Measured[], state: ProgramState, { content }: SegmentRules): boolean {
  const jumpRules = new Set(['jump-elements', 'axel']);
  const whole: ProgramState = { ...state, rules: { ...state.rules, content: { ...content, slots: null } } };
  if (finish(whole).some((m) => jumpRules.has(m.rule))) return false;
  return content.slots === null || chosen.length <= 3;
}
