import { callNext, elementValue, fallPoints, goeOfGrade, startProgram } from '../../scoring/index.ts';
import type { ProgramModel } from '../exact/program.ts';

/** Score in hundredths -> probability. */
export type Table = Map<number, number>;

/**
 * All outcomes of all elements, one after the other, called in skating order: the plain definition of a
 * score distribution without the day factor, for small programs. Falls are deducted by their number at
 * the end, not one by one.
 */
export function enumerate(model: ProgramModel, deduct: boolean): Table {
  const { rules, elements } = model;
  const content = rules.content.content(rules.category, rules.segment);
  if (content === undefined) throw new Error('no content');
  const table: Table = new Map();
  const visit = (i: number, state: ReturnType<typeof startProgram>, points: number, falls: number, p: number): void => {
    const element = elements[i];
    if (element === undefined) {
      const scale = rules.deductions.deductions(rules.category, rules.segment);
      const total = points + (deduct ? (fallPoints(scale, falls) ?? NaN) : 0);
      table.set(total, (table.get(total) ?? 0) + p);
      return;
    }
    for (const outcome of element.outcomes) {
      const called = callNext(state, outcome.element, { bonus: element.bonus });
      const value = elementValue(rules.values, called.element, { half: called.half });
      for (const grade of outcome.grades) {
        const shown = called.lowestGrade ? rules.values.values.goe.min : grade.grade;
        const goe = value.hasValue && value.row ? (goeOfGrade(value.row, shown) ?? NaN) : 0;
        const score = value.hasValue ? (value.base ?? NaN) + goe : 0;
        visit(i + 1, called.state, points + score, falls + (outcome.fall ? 1 : 0), p * outcome.p * grade.p);
      }
    }
  };
  visit(0, startProgram(content, rules.values.values, rules.segment), 0, 0, 1);
  return table;
}
