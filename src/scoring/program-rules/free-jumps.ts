import type { JumpElement } from '../../notation/index.ts';
import { isAxelType, isUnit, mark, voidJumps } from './jumps.ts';
import { beyondTurns, judgeEulers } from './limits.ts';
import { judgeRepeat } from './repeats.ts';
import type { Called, ProgramState, Reason } from './types.ts';
import { judgeUnit } from './units.ts';

/** Why this jump element finds no place any more; null: it has one. */
function noPlace(element: JumpElement, state: ProgramState): Reason | null {
  const { jumpElements, axelRequired } = state.rules.content;
  if (jumpElements.max === null) return null;
  if (state.jumpElements >= jumpElements.max) {
    return { rule: 'jump-elements', path: 'jumpElements.max', effect: 'no-value', jump: null };
  }
  // The last place is kept for the Axel-type jump as long as none was done.
  const lastPlace = state.jumpElements === jumpElements.max - 1;
  if (lastPlace && axelRequired === true && !state.axelDone && !element.jumps.some(isAxelType)) {
    return { rule: 'axel', path: 'axelRequired', effect: 'no-value', jump: null };
  }
  return null;
}

const everyJump = (element: JumpElement): ReadonlySet<number> => new Set(element.jumps.keys());

const indexes = (reasons: readonly Reason[]): ReadonlySet<number> =>
  new Set(reasons.flatMap((r) => (r.effect === 'no-value' && r.jump !== null ? [r.jump] : [])));

/** The repeat rules, jump by jump in the order skated. */
function judgeRepeats(element: JumpElement, start: ProgramState): { reasons: readonly Reason[]; state: ProgramState } {
  const alone = !isUnit(element);
  const reasons: Reason[] = [];
  let state = start;
  element.jumps.forEach((jump, index) => {
    const verdict = judgeRepeat(jump, alone, state);
    state = verdict.state;
    if (verdict.broken !== null) {
      reasons.push({ rule: 'repeats', path: `repeats.${verdict.broken}`, effect: 'no-value', jump: index });
    } else if (verdict.reduced) {
      reasons.push({ rule: 'repeat-alone', path: 'repeats.repFromTurns', effect: 'reduced', jump: index });
    }
  });
  return { reasons, state };
}

/** Calls one jump element of a free skate. */
export function callFreeJump(element: JumpElement, state: ProgramState, bonus: boolean): Called {
  const surplus = noPlace(element, state);
  if (surplus !== null) {
    const called = voidJumps(element, everyJump(element));
    return { element: called, half: bonus, lowestGrade: false, reasons: [surplus], state };
  }
  const unit = judgeUnit(element, state);
  const eulers = judgeEulers(element, unit.state);
  const repeats = judgeRepeats(element, eulers.state);
  const reasons = [...unit.voided, ...eulers.voided, ...beyondTurns(element, state), ...repeats.reasons];
  const voided = voidJumps(element, indexes(reasons));
  const called = reasons.some((r) => r.effect === 'reduced') ? mark(voided, 'REP') : voided;
  const next: ProgramState = {
    ...repeats.state,
    jumpElements: state.jumpElements + 1,
    axelDone: state.axelDone || element.jumps.some(isAxelType),
  };
  return { element: called, half: bonus, lowestGrade: false, reasons, state: next };
}
