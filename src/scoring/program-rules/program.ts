import type { Element, Segment } from '../../notation/index.ts';
import type { ContentRules, ValueRules } from '../../rulebook/index.ts';
import { callFreeJump } from './free-jumps.ts';
import { callChoreo, callSpin, callSteps } from './other-elements.ts';
import { callShortJump } from './short-jumps.ts';
import type { CallContext, Called, ProgramState } from './types.ts';

/**
 * The state before the first element. Rules that are unknown (null) do not restrict: whoever shows a
 * result says so (`unknownRules`).
 */
export const startProgram = (content: ContentRules, values: ValueRules, segment: Segment): ProgramState => ({
  rules: { content, values, segment },
  jumpElements: 0,
  axelDone: false,
  unitLengths: [],
  combinations: 0,
  sequences: 0,
  eulers: 0,
  tries: {},
  repeatedKinds: [],
  repeatedFamilies: [],
  slots: { axel: null, alone: 0, combination: 0 },
  spins: [],
  steps: 0,
  choreo: {},
});

/**
 * Calls the next element as the technical panel does with the whole program in view, in skating order:
 * repeats, surplus, slots, Euler, kinds of spins. A popped jump counts as what was rotated, a downgraded
 * one as what was tried: give the element as it was skated.
 *
 * ```ts
 * const { element, state } = callNext(startProgram(content, values, 'free'), skated, { bonus: false });
 * ```
 */
export function callNext(state: ProgramState, element: Element, context: CallContext): Called {
  switch (element.kind) {
    case 'jump':
      return state.rules.content.slots === null
        ? callFreeJump(element, state, context.bonus)
        : callShortJump(element, state, context.bonus);
    case 'spin':
      return callSpin(element, state);
    case 'steps':
      return callSteps(element, state);
    case 'choreo':
      return callChoreo(element, state);
  }
}
