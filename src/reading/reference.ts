import { parseCode, withoutCalls, type Element, type Level } from '../notation/index.ts';
import type { ChosenRules } from '../rulebook/index.ts';
import type { Layout, LayoutElement } from '../scoring/index.ts';
import { asLevel } from '../levels/index.ts';
import { writtenGrade, ZERO } from './fraction.ts';
import { plannedHalves } from './planned-half.ts';
import type { Reference } from './sides.ts';
import type { Usual } from './usual.ts';

/**
 * The element as attempted, at the category's highest level, grade 0, `half` as printed. A jump called
 * with fewer turns stays as called; a sequence stays one. A cap that is not known does not lower it.
 */
export const cleanReference = (element: Element, rules: ChosenRules): Reference => ({
  element: atLevel(withoutCalls(element), highestLevel(element, rules)),
  grade: ZERO,
  half: null,
  planned: null,
});

/** As the clean reference, at her median level and grade of that element where she has a history of it. */
export function usualReference(element: Element, rules: ChosenRules, usual: Usual): Reference {
  const clean = cleanReference(element, rules);
  const hers = usual.of(element);
  const level = hers?.level ?? null;
  return {
    ...clean,
    element: level === null ? clean.element : atLevel(clean.element, asLevel(level)),
    grade: hers?.grade ?? clean.grade,
  };
}

/** One planned element, read. */
export interface Planned extends Reference {
  readonly code: string;
  readonly element: Element;
  readonly planned: number;
}

/**
 * The planned elements: codes as planned (without level: her usual, else the highest), with their
 * grades (absent: her usual, else 0) and halves. A code that cannot be read is left out, with a warning.
 */
export function plannedElements(
  layout: Layout,
  rules: ChosenRules,
  usual: Usual | null,
): { readonly planned: readonly Planned[]; readonly warnings: readonly string[] } {
  const warnings: string[] = [];
  const read = layout.elements.map((one, index) => {
    const code = parseCode(one.code);
    if (!code.ok) warnings.push(`layout.elements[${index}].code: ${one.code} cannot be read and is left out.`);
    return code.ok ? { entry: one, parsed: code.value, index } : null;
  });
  const elements = read.filter((one) => one !== null);
  const halves = plannedHalves(elements, rules);
  const planned = elements.map(({ entry, parsed, index }, i) => ({
    ...plannedReference(entry, parsed.element, rules, usual),
    half: halves[i] ?? null,
    planned: index,
    code: entry.code,
  }));
  return { planned, warnings };
}

function plannedReference(entry: LayoutElement, element: Element, rules: ChosenRules, usual: Usual | null): Reference {
  const hers = usual === null ? cleanReference(element, rules) : usualReference(element, rules, usual);
  return {
    element: hasLevel(element) ? element : withLevelOf(element, hers.element),
    grade: entry.grade === null ? hers.grade : writtenGrade(entry.grade),
    half: null,
    planned: null,
  };
}

const hasLevel = (element: Element): boolean => element.kind === 'jump' || element.level !== null;

function withLevelOf(element: Element, other: Element): Element {
  return element.kind === 'jump' || other.kind === 'jump' || other.level === null
    ? element
    : atLevel(element, other.level);
}

function atLevel(element: Element, level: Level): Element {
  return element.kind === 'jump' ? element : { ...element, level };
}

/** Highest level that counts in the category; 4 where the cap is not known; choreographic forms have 1. */
function highestLevel(element: Element, rules: ChosenRules): Level {
  switch (element.kind) {
    case 'jump':
    case 'choreo':
      return 1;
    case 'steps':
      return asLevel(rules.levels.steps(rules.category).cap ?? 4);
    case 'spin':
      return asLevel(rules.levels.spins(rules.category).cap ?? 4);
  }
}
