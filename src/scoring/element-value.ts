import type { Element, Jump, JumpElement } from '../notation/index.ts';
import type { Hundredths, Rulebook, ValueRow } from '../rulebook/index.ts';
import { percentOf, sumOrNull } from './arithmetic.ts';

/** What one jump of an element brings to its base value. */
export interface JumpValue {
  readonly jump: Jump;
  /** Row of the scale of values; null: no row asked (`*`, no rotation left) or none in this season. */
  readonly row: ValueRow | null;
  /** The jump counts: no `*`, rotation left after the calls. */
  readonly counts: boolean;
  /** After calls and `+REP`, before sequence and second half. 0 if it does not count; null: not known. */
  readonly value: Hundredths | null;
}

export interface ElementValue {
  /** Base value as printed, second half included. 0 without value; null where a row is not known. */
  readonly base: Hundredths | null;
  /** Row of the grades of execution; null without value or where it cannot be told. */
  readonly row: ValueRow | null;
  /** False for `*`, no level, no rotation: base, grades and score are 0. */
  readonly hasValue: boolean;
  /** Empty for spins and sequences. */
  readonly jumps: readonly JumpValue[];
  /** Row codes that the season does not list or whose value is not known. */
  readonly unknown: readonly string[];
}

const WITHOUT_VALUE: ElementValue = { base: 0, row: null, hasValue: false, jumps: [], unknown: [] };

/**
 * Value of an element as called, from the season's scale of values. For a jump element: value of each
 * jump, `+REP`, sum, sequence factor, second half, each step rounded half away from zero. `half` is
 * the credited second half and concerns jump elements alone.
 */
export function elementValue(
  rulebook: Rulebook,
  element: Element,
  options: { readonly half: boolean } = { half: false },
): ElementValue {
  return element.kind === 'jump'
    ? jumpElementValue(rulebook, element, options.half)
    : singleRowValue(rulebook, element.noValue ? null : rowCode(element));
}

/** Code of the row of a spin or sequence; null: no level was confirmed. */
function rowCode(element: Exclude<Element, JumpElement>): string | null {
  if (element.level === null) return null;
  if (element.kind === 'steps') return `StSq${element.level}`;
  if (element.kind === 'choreo') return `${element.form}${element.level}`;
  const { flying, changeFoot, position, level, v } = element;
  return `${flying ? 'F' : ''}${changeFoot ? 'C' : ''}${position}Sp${level}${v === 0 ? '' : v === 1 ? 'V' : 'V2'}`;
}

function singleRowValue(rulebook: Rulebook, code: string | null): ElementValue {
  if (code === null) return WITHOUT_VALUE;
  const row = rulebook.row(code) ?? null;
  const base = row?.base ?? null;
  return { base, row, hasValue: true, jumps: [], unknown: base === null ? [code] : [] };
}

/**
 * Code of a jump's row: `q` and `!` leave the value, `<<` is the jump with one turn less, `<` and `e`
 * are rows of their own. Null: nothing of the rotation is left.
 */
export function jumpRowCode(jump: Jump): string | null {
  const turns = jump.rotation === '<<' ? jump.turns - 1 : jump.turns;
  if (turns < 1) return null;
  return `${turns}${jump.name}${jump.rotation === '<' ? '<' : ''}${jump.edge === 'e' ? 'e' : ''}`;
}

function jumpElementValue(rulebook: Rulebook, element: JumpElement, half: boolean): ElementValue {
  const called = element.jumps.map((jump) => calledValue(rulebook, jump));
  const counted = called.filter((jump) => jump.counts);
  if (counted.length === 0) return { ...WITHOUT_VALUE, jumps: called };
  const jumps = withRepeats(rulebook, element, called);
  const values = jumps.filter((jump) => jump.counts).map((jump) => jump.value);
  return {
    base: unitValue(rulebook, values, has(element, 'SEQ'), half),
    row: highestRow(counted),
    hasValue: true,
    jumps,
    unknown: counted.flatMap((jump) => (jump.value === null ? [jumpRowCode(jump.jump) ?? ''] : [])),
  };
}

const has = (element: JumpElement, marker: 'SEQ' | 'REP'): boolean =>
  element.markers.some((printed) => printed.marker === marker);

function calledValue(rulebook: Rulebook, jump: Jump): JumpValue {
  const code = jump.noValue ? null : jumpRowCode(jump);
  if (code === null) return { jump, row: null, counts: false, value: 0 };
  const row = rulebook.row(code) ?? null;
  return { jump, row, counts: true, value: row?.base ?? null };
}

/** `+REP` concerns the last counted jump printed before it (`2A+3T*+REP`: the 2A). */
function withRepeats(rulebook: Rulebook, element: JumpElement, jumps: readonly JumpValue[]): readonly JumpValue[] {
  if (!has(element, 'REP')) return jumps;
  const repeated = new Set(
    element.markers
      .filter((printed) => printed.marker === 'REP')
      .map((printed) => jumps.slice(0, printed.after).findLastIndex((jump) => jump.counts)),
  );
  return jumps.map((jump, i) =>
    repeated.has(i) && jump.value !== null
      ? { ...jump, value: percentOf(jump.value, rulebook.values.repeatPercent) }
      : jump,
  );
}

/** Sum of the unit, times the sequence factor, times the second half; each rounded. */
function unitValue(
  rulebook: Rulebook,
  values: readonly (Hundredths | null)[],
  sequence: boolean,
  half: boolean,
): Hundredths | null {
  const rules = rulebook.values;
  const counted = sequence && rules.sequence.count === 'two-highest' && values.length > 2 ? twoHighest(values) : values;
  const sum = sumOrNull(counted);
  if (sum === null) return null;
  const unit = sequence ? percentOf(sum, rules.sequence.percent) : sum;
  return half ? percentOf(unit, rules.secondHalfPercent) : unit;
}

const twoHighest = (values: readonly (Hundredths | null)[]): readonly (Hundredths | null)[] =>
  values.includes(null) ? values : [...values].sort((a, b) => (b ?? 0) - (a ?? 0)).slice(0, 2);

/** Row of the counted jump with the highest value as called, `+REP` left aside; null if one is not known. */
function highestRow(counted: readonly JumpValue[]): ValueRow | null {
  let best: JumpValue | null = null;
  for (const jump of counted) {
    if (jump.value === null) return counted.length === 1 ? jump.row : null;
    if (best?.value == null || jump.value > best.value) best = jump;
  }
  return best?.row ?? null;
}
