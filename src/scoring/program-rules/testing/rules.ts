import { UNKNOWN_CONTENT, type ContentRules, type RepeatRules, type ValueRules } from '../../../rulebook/index.ts';
import { parseCode, formatElement, type Element, type Segment } from '../../../notation/index.ts';
import { callNext, startProgram, type Reason } from '../index.ts';

/** Content rules in which nothing is known: tests set what they are about. */
export const nothingKnown: ContentRules = UNKNOWN_CONTENT;

export const noRepeatLimits: RepeatRules = {
  highTurnsFrom: 3,
  highKindsTwice: null,
  quadKindsTwice: null,
  lowKindsTwice: null,
  maxSame: null,
  familiesTwice: null,
  maxPerFamily: null,
  repFromTurns: null,
  singleKindsTwice: null,
  freeBelowTurns: 1,
};

/** Value rules of 2022/23 to 2025/26 as far as program rules ask them. */
export const sequenceValues: ValueRules = {
  goe: { min: -5, max: 5 },
  sequence: { percent: 100, count: 'all', maxJumps: 3, axelAfterFirst: true },
  repeatPercent: 70,
  secondHalfPercent: 110,
  euler: { counts: true, segments: ['free'], maxPerProgram: null },
  panel: { trimFrom: 5, drop: 1 },
  averagingEstablished: false,
  componentMarks: { min: 25, max: 1000, step: 25 },
};

export function elementOf(code: string): Element {
  const parsed = parseCode(code);
  if (!parsed.ok) throw new Error(`test code ${code}: ${parsed.error.advice}`);
  return parsed.value.element;
}

/** Calls a list of codes in skating order and prints what the panel would. */
export function callAll(
  codes: readonly string[],
  content: ContentRules,
  segment: Segment = 'free',
  values: ValueRules = sequenceValues,
): {
  readonly codes: readonly string[];
  readonly reasons: readonly (readonly Reason[])[];
  readonly lowest: readonly boolean[];
} {
  let state = startProgram(content, values, segment);
  const called = codes.map((code) => {
    const next = callNext(state, elementOf(code), { bonus: false });
    state = next.state;
    return next;
  });
  return {
    codes: called.map((one) => formatElement(one.element)),
    reasons: called.map((one) => one.reasons),
    lowest: called.map((one) => one.lowestGrade),
  };
}
