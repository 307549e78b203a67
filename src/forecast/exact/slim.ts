import type { RepeatRules } from '../../rulebook/index.ts';
import type { Future, ProgramState, Tries } from '../../scoring/index.ts';

/** Kinds that only the limit on executions of one kind concerns: doubles in most seasons. */
function onlyCounted(kind: string, rules: RepeatRules): boolean {
  const turns = Number(kind[0]);
  if (!Number.isInteger(turns)) return false;
  // An Axel counts its extra half turn.
  const rotation = turns + (kind.endsWith('A') ? 0.5 : 0);
  const families = rules.familiesTwice !== null || rules.maxPerFamily !== null;
  const kinds = turns === 1 && rules.singleKindsTwice !== null ? rules.singleKindsTwice : rules.lowKindsTwice;
  const reduced = rules.repFromTurns !== null && rotation >= rules.repFromTurns;
  return !families && kinds === null && !reduced && rotation < rules.highTurnsFrom;
}

/**
 * Drops from a state what can no longer matter though it may come again: a kind that is limited only in
 * number and cannot reach that number in what is left. Popped jumps would otherwise multiply the states
 * for nothing. What is called later is the same with and without.
 */
export function slim(state: ProgramState, future: Future): ProgramState {
  const rules = state.rules.content.repeats;
  if (rules === null || state.rules.content.slots !== null) return state;
  const matters = (kind: string, times: number): boolean => {
    if (!onlyCounted(kind, rules)) return true;
    const later = future.names.get(kind) ?? 0;
    return rules.maxSame !== null && times + later > rules.maxSame;
  };
  const kept: Record<string, Tries> = {};
  for (const [kind, tries] of Object.entries(state.tries)) if (matters(kind, tries.times)) kept[kind] = tries;
  const repeatedKinds = state.repeatedKinds.filter((kind) => !onlyCounted(kind, rules));
  return { ...state, tries: kept, repeatedKinds };
}
