import type { SpinRules } from '../rulebook/index.ts';
import { limitsOf } from './spin-count.ts';
import { spinChances } from './spin-chances.ts';
import { itemsOf, type SpinItems } from './spin-items.ts';
import { answerFor, firstFootOf, type SpinLevel } from './spin-level.ts';
import { soundnessOf } from './spin-soundness.ts';
import type { Spin } from './spin.ts';
import type { StepChances } from './step-chances.ts';

/** What has been used up, with its chance: attempts are certain, what is spent by success is not. */
export interface SpentState {
  readonly spent: ReadonlySet<string>;
  readonly p: number;
}

/**
 * All spins of a program in skating order. Levels take everything as credited; the chances mix over
 * what earlier spins may have spent by success. Each spin's own `used` is added before it.
 */
export function programSpins(spins: readonly Spin[], rules: SpinRules): SpinLevel[] {
  let planned: ReadonlySet<string> = new Set();
  let states: readonly SpentState[] = [{ spent: planned, p: 1 }];
  return spins.map((spin, place) => {
    const before = joined(planned, spin.used);
    const found = itemsOf(spin, rules, before);
    const answer = answerFor(spin, rules, found, mixedChances(spin, rules, states));
    states = statesAfter(spin, rules, states);
    planned = joined(before, [...found.attempted, ...creditedNames(spin, rules, found)]);
    return withRepeatedCode(answer, spins, place);
  });
}

const joined = (a: ReadonlySet<string>, b: readonly string[]): ReadonlySet<string> => new Set([...a, ...b]);

/** Names that this spin spends by success when everything is credited; a spin without value spends none. */
const creditedNames = (spin: Spin, rules: SpinRules, found: SpinItems): string[] =>
  soundnessOf(spin, rules).value === 'none'
    ? []
    : found.items.filter((item) => item.onceCredited).map((item) => item.name);

/** Chances of a spin over everything that may have been spent before it. */
export function mixedChances(spin: Spin, rules: SpinRules, states: readonly SpentState[]): StepChances {
  const sum = { B: 0, 1: 0, 2: 0, 3: 0, 4: 0 };
  for (const { spent, p } of states) {
    const { items } = itemsOf(spin, rules, joined(spent, spin.used));
    const chances = spinChances(items, firstFootOf(spin), limitsOf(spin, rules));
    for (const level of ['B', 1, 2, 3, 4] as const) sum[level] += p * chances[level];
  }
  return sum;
}

/** Distribution of what is spent after a spin; states that spent the same are one. */
export function statesAfter(spin: Spin, rules: SpinRules, states: readonly SpentState[]): SpentState[] {
  const next = new Map<string, SpentState>();
  for (const state of states)
    for (const after of statesFrom(spin, rules, state)) {
      const key = [...after.spent].sort().join(' ');
      next.set(key, { spent: after.spent, p: after.p + (next.get(key)?.p ?? 0) });
    }
  return [...next.values()];
}

function statesFrom(spin: Spin, rules: SpinRules, { spent, p }: SpentState): readonly SpentState[] {
  const before = joined(spent, spin.used);
  const found = itemsOf(spin, rules, before);
  const attempted = joined(before, found.attempted);
  let states: SpentState[] = [{ spent: attempted, p }];
  for (const name of new Set(creditedNames(spin, rules, found))) {
    const tries = found.items.filter((item) => item.name === name);
    const never = tries.reduce((product, item) => product * (1 - item.credit), 1);
    states = states.flatMap((state) => [
      { spent: state.spent, p: state.p * never },
      { spent: joined(state.spent, [name]), p: state.p * (1 - never) },
    ]);
  }
  return states.filter((state) => state.p > 0);
}

/** A code that stood before: a matter of program content, not of level, so a warning. */
function withRepeatedCode(answer: SpinLevel, spins: readonly Spin[], place: number): SpinLevel {
  const code = spins[place]?.code;
  const earlier = spins.findIndex((spin) => spin.code === code);
  if (earlier === place) return answer;
  const warning = `The same code as spin ${earlier + 1}: in most programs a repeated spin code has no value.`;
  return { ...answer, warnings: [...answer.warnings, warning] };
}
