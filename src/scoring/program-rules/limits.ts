import type { Jump, JumpElement } from '../../notation/index.ts';
import { isEuler } from './jumps.ts';
import type { ProgramState, Reason } from './types.ts';

/** Turns above the segment's highest, by jump; unknown limits do not restrict. */
export function beyondTurns(element: JumpElement, state: ProgramState): readonly Reason[] {
  return element.jumps.flatMap((jump, index): Reason[] => {
    const path = turnLimit(jump, element.jumps.length > 1, state);
    return path === null ? [] : [{ rule: 'max-turns', path, effect: 'no-value', jump: index }];
  });
}

const above = (turns: number, limit: number | null): boolean => limit !== null && turns > limit;

/** The limit that a jump exceeds; null: none. */
function turnLimit(jump: Jump, inUnit: boolean, state: ProgramState): string | null {
  const { maxTurns, maxTurnsInUnit, maxAxelTurns } = state.rules.content;
  if (jump.name === 'A' && above(jump.turns, maxAxelTurns)) return 'maxAxelTurns';
  if (above(jump.turns, maxTurns)) return 'maxTurns';
  return inUnit && above(jump.turns, maxTurnsInUnit) ? 'maxTurnsInUnit' : null;
}

const eulerProblem = (jump: Jump, used: number, state: ProgramState): string | null => {
  const { euler } = state.rules.values;
  const { eulerAllowed } = state.rules.content;
  if (!isEuler(jump)) return null;
  if (eulerAllowed === false) return 'eulerAllowed';
  if (eulerAllowed === null && !euler.segments.includes(state.rules.segment)) return 'values.euler.segments';
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
