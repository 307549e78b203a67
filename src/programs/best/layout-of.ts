import { distributionOf, type Pmf, type ProgramElement, type ProgramModel } from '../../forecast/index.ts';
import type { Result } from '../../notation/index.ts';
import type { Measured } from './measured.ts';
import { arrange, arrangeFreely, type Placed } from './places.ts';
import type { Setting } from './search.ts';

/** A whole layout: every element in skating order with its place. */
export type Program = readonly Placed<Measured>[];

/** Jumps in their order and places, the others spread between them. */
export function programOf(jumps: readonly Placed<Measured>[], rest: readonly Measured[], latePenalty: number): Program {
  const indifferent = latePenalty === 0 && jumps.every((j) => j.place !== 'bonus');
  return indifferent ? arrangeFreely(jumps, rest) : arrange(jumps, rest);
}

/** Grades of a late jump with the coach's penalty, kept on the scale. */
function outcomesAt(m: Measured, late: boolean, setting: Setting): ProgramElement['outcomes'] {
  const { goe } = setting.rules.chosen.values.values;
  if (!late || setting.latePenalty === 0 || m.item.element.kind !== 'jump') return m.item.outcomes;
  const lowered = (grade: number): number => Math.min(goe.max, Math.max(goe.min, grade - setting.latePenalty));
  return m.item.outcomes.map((o) => ({ ...o, grades: o.grades.map(({ grade, p }) => ({ grade: lowered(grade), p })) }));
}

/** The forecast's model of a layout. */
export const modelOf = (program: Program, setting: Setting): ProgramModel => ({
  ...setting.model,
  elements: program.map(({ what, place }, i) => ({
    no: i + 1,
    code: what.item.code,
    bonus: place === 'bonus',
    outcomes: outcomesAt(what, place !== 'early', setting),
  })),
});

/** Exact distribution of the total of a layout. */
export const pmfOfProgram = (program: Program, setting: Setting): Result<Pmf> =>
  distributionOf(modelOf(program, setting));

/** The codes as a list without order, for telling layouts apart. */
export const contentOf = (program: Program): string =>
  program
    .map(({ what }) => what.item.code)
    .sort()
    .join(' ');
