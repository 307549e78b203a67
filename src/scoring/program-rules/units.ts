import type { JumpElement } from '../../notation/index.ts';
import type { ProgramState, Reason } from './types.ts';
import { hasMarker, isAxelType, isEuler, isUnit } from './jumps.ts';

/** Result of asking the rules on combinations and sequences: which jumps lose their value, and why. */
export interface UnitVerdict {
  readonly voided: readonly Reason[];
  readonly state: ProgramState;
}

const afterFirst = (element: JumpElement, rule: Reason['rule'], path: string): readonly Reason[] =>
  element.jumps.slice(1).map((_, i) => ({ rule, path, effect: 'no-value', jump: i + 1 }));

const full = (count: number, limit: number | null): boolean => limit !== null && count >= limit;

/** The Euler is a jump of its unit unless the season says otherwise or nobody knows. */
const countsInUnit = (element: JumpElement, index: number, state: ProgramState): boolean => {
  const jump = element.jumps[index];
  return jump !== undefined && (!isEuler(jump) || state.rules.values.euler.counts === true);
};

/** Can units of these lengths stand together? Both lists longest first. */
const fits = (lengths: readonly number[], places: readonly number[]): boolean =>
  lengths.length <= places.length && lengths.every((length, i) => length <= (places[i] ?? 0));

const withLength = (lengths: readonly number[], length: number): readonly number[] =>
  [...lengths, length].sort((a, b) => b - a);

/** Longest unit up to `wanted` jumps that still has a place; 1 where only a single jump is left. */
function longestThatFits(wanted: number, state: ProgramState): number {
  const places = state.rules.content.jumpsPerUnit;
  if (places === null) return wanted;
  const sorted = [...places].sort((a, b) => b - a);
  for (let length = wanted; length > 1; length--) {
    if (fits(withLength(state.unitLengths, length), sorted)) return length;
  }
  return 1;
}

/** The sequence has an Axel-type jump where the season wants one (the code need not show where the step is). */
function sequenceHasAxel(element: JumpElement, state: ProgramState): boolean {
  if (!state.rules.values.sequence.axelAfterFirst || element.jumps.length < 2) return true;
  const step = element.markers.find((m) => m.marker === 'SEQ' && m.after < element.jumps.length);
  if (step !== undefined) {
    const next = element.jumps[step.after];
    return next !== undefined && isAxelType(next);
  }
  return element.jumps.slice(1).some(isAxelType);
}

/** A combination with an Euler and a sequence exclude each other where the segment says so. */
const eulerClash = (element: JumpElement, sequence: boolean, state: ProgramState): boolean =>
  state.rules.content.eulerExcludesSequence === true &&
  (sequence ? state.eulers > 0 : state.sequences > 0 && element.jumps.some(isEuler));

function surplus(element: JumpElement, sequence: boolean, state: ProgramState): Pick<Reason, 'rule' | 'path'> | null {
  const { content } = state.rules;
  if (eulerClash(element, sequence, state)) return { rule: 'units', path: 'eulerExcludesSequence' };
  if (full(state.combinations + state.sequences, content.maxUnits)) return { rule: 'units', path: 'maxUnits' };
  if (sequence && full(state.sequences, content.maxSequences)) return { rule: 'sequences', path: 'maxSequences' };
  if (!sequence && full(state.combinations, content.maxCombinations)) {
    return { rule: 'combinations', path: 'maxCombinations' };
  }
  return null;
}

/** A forbidden sequence: the first jump alone counts, as a jump repeated alone (national rule where no sequence may be skated). */
const forbiddenSequence = (state: ProgramState): Reason[] =>
  state.rules.content.maxSequences === 0 && state.rules.content.repeats?.repFromTurns != null
    ? [{ rule: 'sequences', path: 'maxSequences', effect: 'reduced', jump: 0 }]
    : [];

function beyondLength(element: JumpElement, length: number, state: ProgramState): readonly Reason[] {
  let counted = 0;
  return element.jumps.flatMap((_, index): Reason[] => {
    if (countsInUnit(element, index, state)) counted++;
    return counted > length ? [{ rule: 'jumps-per-unit', path: 'jumpsPerUnit', effect: 'no-value', jump: index }] : [];
  });
}

/** Jumps that one sequence may hold; where the two highest count, more may stand in it. */
const longestSequence = ({ rules }: ProgramState): number =>
  rules.values.sequence.count === 'all' ? (rules.values.sequence.maxJumps ?? Infinity) : Infinity;

/** Calls a unit of a free skate against number, kind and length of units. Solo jumps pass untouched. */
export function judgeUnit(element: JumpElement, state: ProgramState): UnitVerdict {
  if (!isUnit(element)) return { voided: [], state };
  const sequence = hasMarker(element, 'SEQ');
  const over = surplus(element, sequence, state);
  if (over !== null) {
    const reduced = sequence && over.rule === 'sequences' ? forbiddenSequence(state) : [];
    return { voided: [...afterFirst(element, over.rule, over.path), ...reduced], state };
  }
  const wanted = Math.min(
    element.jumps.filter((_, i) => countsInUnit(element, i, state)).length,
    sequence ? longestSequence(state) : Infinity,
  );
  const length = longestThatFits(wanted, state);
  if (length === 1 && wanted > 1) return { voided: afterFirst(element, 'jumps-per-unit', 'jumpsPerUnit'), state };
  const next: ProgramState = {
    ...state,
    unitLengths: withLength(state.unitLengths, length),
    combinations: state.combinations + (sequence ? 0 : 1),
    sequences: state.sequences + (sequence ? 1 : 0),
  };
  if (sequence && !sequenceHasAxel(element, state)) {
    return { voided: afterFirst(element, 'sequence-axel', 'values.sequence.axelAfterFirst'), state: next };
  }
  return { voided: beyondLength(element, length, state), state: next };
}
