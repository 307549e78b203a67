import { moments, type Pmf } from '../../forecast/index.ts';
import { callNext, finish, startProgram } from '../../scoring/index.ts';
import type { Contest } from './contest.ts';
import { pmfOfProgram, type Program } from './layout-of.ts';
import { mildestFall, type Measured } from './measured.ts';
import { exactValue, type TailObjective } from './objective-value.ts';
import { holdsMust } from './rests.ts';
import type { Setting } from './search.ts';
import { PLACE_INDEX, type Place } from './values.ts';

/** Neighbours of one layout that are worked out: those that promise most. */
const TRIED = 60;

/** What a little more variance costs the objective, in hundredths of mean: by the normal law. */
function spreadPrice(pmf: Pmf, objective: TailObjective): number {
  const { mean, sd } = moments(pmf);
  const at = objective.kind === 'chance' ? objective.target : exactValue(pmf, objective);
  return sd > 0 ? (mean - at) / (2 * sd * sd) : 0;
}

/** Variance of an element alone. */
function varianceOf(m: Measured, place: Place): number {
  const index = PLACE_INDEX[place];
  let [sum, squares] = [0, 0];
  m.item.outcomes.forEach(({ p, grades }, o) => {
    grades.forEach((grade, g) => {
      const points = m.alone[o]?.points[index][g] ?? 0;
      sum += p * grade.p * points;
      squares += p * grade.p * points * points;
    });
  });
  return squares - sum * sum;
}

/** May this layout be skated as planned, with these entries and what the coach wants in it? */
function isAllowed(program: Program, setting: Setting): boolean {
  const { content, chosen } = setting.rules;
  const used = new Map<number, number>();
  for (const { what } of program) for (const entry of what.item.uses) used.set(entry, (used.get(entry) ?? 0) + 1);
  for (const [entry, times] of used) if (times > (setting.pool.caps[entry] ?? 0)) return false;
  const whats = program.map(({ what }) => what);
  if (!holdsMust(whats, setting.must)) return false;
  let state = startProgram(content, chosen.values.values, chosen.segment);
  for (const { item } of whats) {
    const called = callNext(state, item.element, { bonus: false });
    if (called.reasons.length > 0) return false;
    state = called.state;
  }
  return finish(state).length === 0;
}

const isJump = (m: Measured): boolean => m.item.element.kind === 'jump';

/** One layout with what it promises over the one it comes from. */
interface Neighbour {
  readonly make: () => Program;
  readonly promise: number;
}

/** Another element in one place, or the elements of two places exchanged. */
function neighbours(program: Program, setting: Setting, price: number): readonly Neighbour[] {
  const fall = mildestFall(setting.rules);
  const worth = (m: Measured, place: Place): number => {
    const index = PLACE_INDEX[place];
    return m.mean[index] + fall * setting.day.mix(m.falls[index]) - price * varianceOf(m, place);
  };
  const replaced = (at: number, what: Measured): Program =>
    program.map((one, i) => (i === at ? { ...one, what } : one));
  const jumps = program.flatMap(({ what }, i) => (isJump(what) ? [i] : []));
  const found: Neighbour[] = [];
  for (const i of jumps) {
    const here = program[i];
    if (here === undefined) continue;
    const now = worth(here.what, here.place);
    for (const other of setting.jumps) {
      if (other !== here.what) found.push({ make: () => replaced(i, other), promise: worth(other, here.place) - now });
    }
    for (const j of jumps) {
      const there = program[j];
      if (j <= i || there === undefined || there.what === here.what) continue;
      const swapped = (): Program =>
        replaced(i, there.what).map((one, k) => (k === j ? { ...one, what: here.what } : one));
      const before = now + worth(there.what, there.place);
      found.push({
        make: swapped,
        promise: worth(there.what, here.place) + worth(here.what, there.place) - before,
      });
    }
  }
  return found.sort((a, b) => b.promise - a.promise);
}

/**
 * Betters the best layout known so far step by step: another element in one place, or two places exchanged,
 * as long as the objective gains. No proof, only a good layout to beat and to answer with when time is over.
 */
export function climb(setting: Setting, contest: Contest, shouldStop: () => boolean): void {
  for (;;) {
    const from = contest.best.found[0];
    if (from === undefined) return;
    const pmf = pmfOfProgram(from.what, setting);
    if (!pmf.ok) return;
    let tried = 0;
    for (const { make } of neighbours(from.what, setting, spreadPrice(pmf.value, contest.objective))) {
      if (tried >= TRIED || shouldStop()) return;
      const program = make();
      if (!isAllowed(program, setting)) continue;
      tried++;
      contest.evaluate(program);
      if (contest.best.found[0] !== from) break;
    }
    if (contest.best.found[0] === from) return;
  }
}
