import type { Jump, JumpElement } from '../../notation/index.ts';
import { isEuler, isStrayEuler } from './jumps.ts';
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

/**
 * Where the rulebooks say what an Euler is to its unit. They do not say what a panel does with one that
 * stands between no two jumps; it earns no value here, so that no plan is built on it.
 */
export const EULER_BETWEEN = 'values.euler.counts';

const eulerProblem = (element: JumpElement, index: number, used: number, state: ProgramState): string | null => {
  const jump = element.jumps[index];
  const { euler } = state.rules.values;
  const { eulerAllowed } = state.rules.content;
  if (jump === undefined || !isEuler(jump)) return null;
  if (eulerAllowed === false) return 'eulerAllowed';
  if (eulerAllowed === null && !euler.segments.includes(state.rules.segment)) return 'values.euler.segments';
  if (isStrayEuler(element, index)) return EULER_BETWEEN;
  return euler.maxPerProgram !== null && used >= euler.maxPerProgram ? 'values.euler.maxPerProgram' : null;
};

/** Eulers in a segment that has none, between no two jumps, or beyond their number. */
export function judgeEulers(
  element: JumpElement,
  state: ProgramState,
): { voided: readonly Reason[]; state: ProgramState } {
  let used = state.eulers;
  const voided = element.jumps.flatMap((jump, index): Reason[] => {
    const path = eulerProblem(element, index, used, state);
    if (isEuler(jump)) used++;
    return path === null ? [] : [{ rule: 'euler', path, effect: 'no-value', jump: index }];
  });
  return { voided, state: used === state.eulers ? state : { ...state, eulers: used } };
}
