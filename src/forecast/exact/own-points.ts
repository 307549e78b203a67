import { UNKNOWN_CONTENT, type ChosenRules } from '../../rulebook/index.ts';
import { callNext, startProgram } from '../../scoring/index.ts';
import { calledPoints, type CalledPoints } from './points.ts';
import type { ProgramElement } from './program.ts';

/**
 * Every outcome of an element as called if nothing else were in the program, without the second-half
 * factor. The form of the day goes by these, so that it does not hang on what is skated before or after,
 * nor on the element's place. What has no known value counts 0:
 * trouble is told where the program itself is called.
 */
export function ownPoints(element: ProgramElement, rules: ChosenRules): readonly CalledPoints[] {
  const content = rules.content.content(rules.category, rules.segment) ?? UNKNOWN_CONTENT;
  const alone = startProgram({ ...content, axelRequired: null }, rules.values.values, rules.segment);
  return element.outcomes.map((outcome) => {
    const called = callNext(alone, outcome.element, { bonus: false });
    const points = calledPoints(called, outcome, rules.values);
    return points.ok ? points.value : { called, points: outcome.grades.map(() => 0), perGrade: 0 };
  });
}
