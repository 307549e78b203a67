import { applyInfo, parseCode, parseInfo, type Element } from '../../notation/index.ts';
import type { ChosenRules } from '../../rulebook/index.ts';
import { trimmed, type Protocol, type ProtocolElement } from '../../scoring/index.ts';

/** One element of an earlier program, as called and marked. */
export interface Skated {
  readonly element: Element;
  /** Panel grade as a share of the scale, -1 to 1, so that seasons with other scales can be read together; null: no marks. */
  readonly grade: number | null;
  readonly fall: boolean;
}

/** An earlier program in the form that learning asks. */
export interface EarlierProgram {
  readonly protocol: Protocol;
  /** Place in time; equal is not earlier. */
  readonly when: number;
  readonly skated: readonly Skated[];
}

/** The element with the calls of the info column; where these leave a choice, without them. */
function settled(printed: ProtocolElement): { element: Element; fall: boolean } | null {
  const parsed = parseCode(printed.code);
  if (!parsed.ok) return null;
  const info = parseInfo(printed.info);
  const applied = info.ok ? applyInfo(parsed.value.element, info.value) : null;
  const element = applied !== null && 'settled' in applied ? applied.settled : parsed.value.element;
  return { element, fall: parsed.value.fall || (info.ok && info.value.fall) };
}

/** Panel mean of the grades, trimmed as the season does, as a share of the scale. */
function gradeOf(printed: ProtocolElement, rules: ChosenRules): number | null {
  const marks = printed.marks.filter((mark) => mark !== null);
  if (marks.length === 0) return null;
  const { goe, panel } = rules.values.values;
  const kept = trimmed(marks, panel);
  return kept.reduce((sum, mark) => sum + mark, 0) / kept.length / goe.max;
}

/** A grade this low on a jump is a fall wherever the sheet deducts for one but does not say which. */
const FALL_GRADE = -0.95;

/**
 * Falls that a sheet deducts without marking them: the lowest grades on jumps, as many as the deduction
 * can pay for in whole points. Sheets that print `F` are taken at their word.
 */
function inferFalls(skated: readonly Skated[], protocol: Protocol): readonly Skated[] {
  let open = Math.floor(-(protocol.deductions?.total ?? 0) / 100);
  if (open <= 0 || skated.some((s) => s.fall)) return skated;
  return skated.map((s) => {
    if (open <= 0 || s.element.kind !== 'jump' || s.grade === null || s.grade > FALL_GRADE) return s;
    open -= 1;
    return { ...s, fall: true };
  });
}

/** Reads a protocol for learning; elements that cannot be parsed are left out. */
export function earlierProgram(protocol: Protocol, when: number, rules: ChosenRules): EarlierProgram {
  const skated = protocol.elements.flatMap((printed) => {
    const read = settled(printed);
    return read === null ? [] : [{ ...read, grade: gradeOf(printed, rules) }];
  });
  return { protocol, when, skated: inferFalls(skated, protocol) };
}
