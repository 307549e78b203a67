import type { ChoreoElement, SpinElement, StepElement } from '../../notation/index.ts';
import type { SpinKindRule } from '../../rulebook/index.ts';
import type { Called, ProgramState, Reason } from './types.ts';

/** Code of a spin without level and V, e.g. `FCCoSp`: the character that must not come twice. */
export const spinCharacter = (spin: SpinElement): string =>
  `${spin.flying ? 'F' : ''}${spin.changeFoot ? 'C' : ''}${spin.position}Sp`;

/** Can every spin be given a kind of its own? A small matching, depth first. */
function matchable(spins: readonly string[], kinds: readonly SpinKindRule[]): boolean {
  const [first, ...rest] = spins;
  if (first === undefined) return true;
  return kinds.some(
    (kind, i) => kind.codes.includes(first) && matchable(rest, [...kinds.slice(0, i), ...kinds.slice(i + 1)]),
  );
}

function spinProblem(character: string, state: ProgramState): Reason | null {
  const { spins } = state.rules.content;
  const broken = (rule: Reason['rule'], path: string): Reason => ({ rule, path, effect: 'no-value', jump: null });
  if (spins.max !== null && state.spins.length >= spins.max) return broken('spins', 'spins.max');
  if (spins.sameCodeForbidden === true && state.spins.includes(character)) {
    return broken('spin-codes', 'spins.sameCodeForbidden');
  }
  const fits = spins.kinds.length === 0 || matchable([...state.spins, character], spins.kinds);
  return fits ? null : broken('spin-kinds', 'spins.kinds');
}

const unchanged = (element: Called['element'], state: ProgramState): Called => ({
  element,
  half: false,
  lowestGrade: false,
  reasons: [],
  state,
});

const withoutValue = (element: Called['element'], reason: Reason, state: ProgramState): Called => ({
  ...unchanged(element.kind === 'jump' ? element : { ...element, noValue: true }, state),
  reasons: [reason],
});

/** Calls a spin: number, character, prescribed kinds. */
export function callSpin(element: SpinElement, state: ProgramState): Called {
  const character = spinCharacter(element);
  const problem = spinProblem(character, state);
  if (problem !== null) return withoutValue(element, problem, state);
  return unchanged(element, { ...state, spins: [...state.spins, character].sort() });
}

/** Calls a step sequence: number. */
export function callSteps(element: StepElement, state: ProgramState): Called {
  const { max } = state.rules.content.steps;
  if (max !== null && state.steps >= max) {
    return withoutValue(element, { rule: 'steps', path: 'steps.max', effect: 'no-value', jump: null }, state);
  }
  return unchanged(element, { ...state, steps: state.steps + 1 });
}

/**
 * Calls a choreographic element: its form must be one of the segment's, `max` counts all of them, and no
 * form takes the place of another (`ChSq` and `ChSp` with a maximum of two: one of each).
 */
export function callChoreo(element: ChoreoElement, state: ProgramState): Called {
  const { max, forms } = state.rules.content.choreo;
  const done = state.choreo[element.form] ?? 0;
  const all = Object.values(state.choreo).reduce((sum, n) => sum + n, 0);
  const perForm = max === null ? Infinity : Math.ceil(max / Math.max(1, forms.length));
  const surplus = max !== null && (all >= max || done >= perForm);
  const foreign = forms.length > 0 && !forms.includes(element.form);
  if (surplus || foreign) {
    const path = surplus ? 'choreo.max' : 'choreo.forms';
    return withoutValue(element, { rule: 'choreo', path, effect: 'no-value', jump: null }, state);
  }
  return unchanged(element, { ...state, choreo: { ...state.choreo, [element.form]: done + 1 } });
}
