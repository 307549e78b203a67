import { callNext, finish, startProgram, type ProgramState } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import { meant, type Pool } from './pool.ts';
import type { Measured } from './measured.ts';

/** A legal choice of spins and sequences. */
export interface Rest {
  readonly chosen: readonly Measured[];
  /** Expected points, falls at the mildest amount: an upper bound if outcomes can disturb each other. */
  readonly early: number;
}

const COMPLETE = new Set(['spins', 'spin-kinds', 'steps', 'choreo']);

/** Codes of `must` that are spins or sequences must all be there, as often as they are listed. */
export function holdsMust(chosen: readonly Measured[], must: readonly string[]): boolean {
  return must.every((code) => {
    const wanted = must.filter((other) => other === code).length;
    return chosen.filter(({ item }) => meant(code, item.element)).length >= wanted;
  });
}

/**
 * Every legal choice of spins, step sequence and choreographic elements, the most points first. They
 * stand apart from the jumps: no rule couples them but the scale of falls.
 */
export function legalRests(
  others: readonly Measured[],
  pool: Pool,
  rules: SegmentRules,
  must: readonly string[],
  shouldStop: () => boolean,
): { readonly rests: readonly Rest[]; readonly complete: boolean } {
  const found: Rest[] = [];
  const richest = [...others].sort((a, b) => b.early - a.early);
  // Whoever has no time left still gets the first choice that nothing more can be added to.
  let dived = false;
  let complete = true;
  const used = pool.caps.map(() => 0);
  const fits = ({ item }: Measured): boolean =>
    item.uses.every((entry) => (used[entry] ?? 0) < (pool.caps[entry] ?? 0));
  const visit = (from: number, state: ProgramState, chosen: readonly Measured[]): void => {
    if (dived && shouldStop()) {
      complete = false;
      return;
    }
    if (!finish(state).some((m) => COMPLETE.has(m.rule)) && holdsMust(chosen, must)) {
      found.push({ chosen, early: chosen.reduce((sum, m) => sum + m.early, 0) });
    }
    for (let k = from; k < richest.length; k++) {
      const next = richest[k];
      if (next === undefined || !fits(next)) continue;
      const called = callNext(state, next.item.element, { bonus: false });
      if (called.reasons.length > 0) continue;
      for (const entry of next.item.uses) used[entry] = (used[entry] ?? 0) + 1;
      visit(k, called.state, [...chosen, next]);
      for (const entry of next.item.uses) used[entry] = (used[entry] ?? 0) - 1;
    }
    dived ||= found.length > 0;
  };
  visit(0, startProgram(rules.content, rules.chosen.values.values, rules.chosen.segment), []);
  return { rests: found.sort((a, b) => b.early - a.early), complete };
}
