import { formatElement, type Feedback } from '../notation/index.ts';
import type { ChosenRules } from '../rulebook/index.ts';
import { explainSpin, explainSteps, type FeedbackReading } from '../levels/index.ts';
import type { Skated } from './sides.ts';
import { trustMark } from './sources.ts';
import { featureWords, moreTurns } from './step-words.ts';
import type { FeedbackEntry, ToldByPanel } from './types.ts';

/** One entry per step sequence, and per spin with V or letters: what level and letters prove together. */
export function feedbackOf(
  skated: readonly (Skated | null)[],
  rules: ChosenRules,
  told: readonly ToldByPanel[] = [],
): FeedbackEntry[] {
  return skated.flatMap((one) => {
    const said = told.filter((each) => each.no === one?.no);
    const reading = one === null ? null : explained(one, rules, said);
    return one === null || reading === null
      ? []
      : [
          {
            no: one.no,
            index: one.index,
            at: `elements[${one.index}].${one.lettersIn ?? 'code'}`,
            code: formatElement(one.element),
            ...reading,
            ...concluded(one, reading, rules),
            told: said.map((each) => ({ ...each, used: isUsed(each, reading) })),
          },
        ];
  });
}

function explained({ element, feedback }: Skated, rules: ChosenRules, told: readonly ToldByPanel[]) {
  if (element.kind === 'steps')
    return explainSteps({
      level: element.level,
      letters: keyPoints(feedback),
      rules: rules.levels.steps(rules.category),
      toldTurns: toldTurns(told),
    });
  if (element.kind !== 'spin') return null;
  const positions = feedback?.kind === 'missing-position' ? feedback.positions : null;
  if (element.v === 0 && positions === null) return null;
  const toldPosition = told.findLast((one) => one.missingPosition != null)?.missingPosition ?? null;
  return explainSpin({ element, positions, rules: rules.levels.spins(rules.category), toldPosition });
}

/** The newest word counts where two numbers were told. */
function toldTurns(told: readonly ToldByPanel[]): { readonly min: number; readonly max: number } | null {
  const turns = told.findLast((one) => one.turns != null)?.turns ?? null;
  return typeof turns === 'number' ? { min: turns, max: turns } : turns;
}

/** Words alone narrow nothing; they stand beside the letters. */
const isUsed = (told: ToldByPanel, { toldFits }: FeedbackReading): boolean =>
  toldFits === true && (told.turns != null || told.missingPosition != null);

const keyPoints = (feedback: Feedback | null) => (feedback?.kind === 'key-points' ? feedback.letters : null);

/** What follows from the letters of a step sequence, and what that rests on; spins need no more words. */
function concluded({ element }: Skated, reading: FeedbackReading, rules: ChosenRules) {
  if (element.kind !== 'steps' || element.level === null || !reading.consistent)
    return { conclusions: [], assumptions: [] };
  const steps = rules.levels.steps(rules.category);
  const more = moreTurns(reading, element.level, steps);
  const features = featureWords(reading, element.level);
  return {
    conclusions: [more ?? '', features].filter((text) => text !== ''),
    assumptions: [countsAssumption(rules), capAssumption(rules)],
  };
}

function countsAssumption({ levels, category }: ChosenRules): string {
  const { turnCounts } = levels.steps(category);
  const mark = trustMark(levels.citation(`steps.${category}.turnCounts`));
  return `${turnCounts.join(', ')} are the season’s counts for levels 1 to 3${mark};`;
}

function capAssumption({ levels, category }: ChosenRules): string {
  const { cap } = levels.steps(category);
  const mark = trustMark(levels.citation(`steps.${category}.cap`));
  return cap === null
    ? 'the category’s highest level is not known.'
    : `steps of ${category} reach level ${cap}${mark}.`;
}
