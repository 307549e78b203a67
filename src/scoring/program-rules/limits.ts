import type { Jump, JumpElement } from '../../notation/index.ts';
import { isEuler } from './jumps.ts';
import type { ProgramState, Reason } from './types.ts';

/** Turns above the segment's highest, by jump; unknown limits do not restrict. */
export function beyondTurns(element: JumpElement, state: ProgramState): readonly Reason[] {
  const { maxTurns, maxAxelTurns } = state.rules.content;
  return element.jumps.flatMap((jump, index): Reason[] => {
    const axelTooHigh = jump.name === 'A' && maxAxelTurns !== null && jump.turns > maxAxelTurns;
    const tooHigh = maxTurns !== null && jump.turns > maxTurns;
    if (!axelTooHigh && !tooHigh) return [];
    return [{ rule: 'max-turns', path: axelTooHigh ? 'maxAxelTurns' : 'maxTurns', effect: 'no-value', jump: index }];
  });
}

const eulerProblem = (jump: Jump, used: number, state: ProgramState): string | null => {
  const { euler } = state.rules.values;
  if (!isEuler(jump)) return null;
  if (!euler.segments.includes(state.rules.segment)) return 'values.euler.segments';
  return euler.maxPerProgram !== null && used >= euler.maxPerProgram ? 'values.euler.maxPerProgram' : null;
};

/** Eulers in a segment that has none, or beyond their number. */
export function judgeEulers(
  element: JumpElement,
  state: ProgramState,
): { voided: readonly Reason[]; state: ProgramState } {
  let used = state.eulers;
  const voided = element.jumps.flatMap((jump, index): Reason[] => {
    const path = eulerProblem(jump, used, state);
    if (isEuler(jump)) used++;
    return path === null ? [] : [{ rule: 'euler', path, effect: 'no-value', jump: index }];
  });
  return { voided, state: used === state.eulers ? state : { ...state, eulers: used } };
}
