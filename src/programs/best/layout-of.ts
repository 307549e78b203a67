import { distributionOf, type Pmf, type ProgramModel } from '../../forecast/index.ts';
import type { Result } from '../../notation/index.ts';
import { elementAt } from './day.ts';
import type { Measured } from './measured.ts';
import { arrange, arrangeFreely, type Placed } from './places.ts';
import type { Setting } from './search.ts';
import { PLACE_INDEX } from './values.ts';

/** A whole layout: every element in skating order with its place. */
export type Program = readonly Placed<Measured>[];

/** Jumps in their order and places, the others spread between them. */
export function programOf(jumps: readonly Placed<Measured>[], rest: readonly Measured[], latePenalty: number): Program {
  const indifferent = latePenalty === 0 && jumps.every((j) => j.place !== 'bonus');
  return indifferent ? arrangeFreely(jumps, rest) : arrange(jumps, rest);
}

/** The forecast's model of a layout. */
export const modelOf = (program: Program, setting: Setting): ProgramModel => ({
  ...setting.model,
  elements: program.map(({ what, place }, i) =>
    elementAt(what.item, i + 1, PLACE_INDEX[place], setting.rules, setting.latePenalty),
  ),
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
