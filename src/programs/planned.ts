import { formatElement, ok, parseCode, type Element, type Level, type Result } from '../notation/index.ts';
import type { Layout, LayoutElement, Outcome, Stage } from '../scoring/index.ts';
import type { SegmentRules } from './segment-rules.ts';

/** One planned element, read. */
export interface Planned {
  /** Position from 1. */
  readonly no: number;
  /** As written in the layout. */
  readonly code: string;
  readonly element: Element;
  readonly start: number | null;
  readonly half: boolean | null;
  /** Expected panel grade; 0 where none is given. */
  readonly grade: number;
  readonly outcomes: readonly Outcome[] | null;
  readonly stage: Stage | null;
  readonly notBefore: string | null;
  readonly max: number | null;
  /** The code had no level: the highest of the category was taken. */
  readonly levelAssumed: boolean;
}

const TOP: Level = 4;

const asLevel = (cap: number | null): Level => (cap === 1 || cap === 2 || cap === 3 ? cap : TOP);

/** A code without level stands for the highest level that counts in the category. */
function withLevel(element: Element, { chosen }: SegmentRules): Element {
  if (element.kind === 'jump' || element.level !== null) return element;
  if (element.kind === 'choreo') return { ...element, level: 1 };
  const rules = element.kind === 'spin' ? chosen.levels.spins(chosen.category) : chosen.levels.steps(chosen.category);
  return { ...element, level: asLevel(rules.cap) };
}

/** Reads one element of a layout or inventory; `no` is its position from 1. */
export function readPlanned(given: LayoutElement, no: number, rules: SegmentRules): Result<Planned> {
  const parsed = parseCode(given.code);
  if (!parsed.ok) return parsed;
  const element = withLevel(parsed.value.element, rules);
  return ok({
    no,
    code: given.code,
    element,
    start: given.start,
    half: given.half ?? (parsed.value.half ? true : null),
    grade: given.grade ?? 0,
    outcomes: given.outcomes,
    stage: given.stage,
    notBefore: given.notBefore,
    max: given.max,
    levelAssumed: formatElement(element) !== formatElement(parsed.value.element),
  });
}

/** Reads every element of a layout; the first that cannot be read is the answer's problem. */
export function readPlannedElements(layout: Layout, rules: SegmentRules): Result<readonly Planned[]> {
  const planned: Planned[] = [];
  for (const [i, given] of layout.elements.entries()) {
    const one = readPlanned(given, i + 1, rules);
    if (!one.ok) return { ok: false, error: { ...one.error, at: `elements[${i}].code (${one.error.at})` } };
    planned.push(one.value);
  }
  return ok(planned);
}
