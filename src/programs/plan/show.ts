import type { Objective } from '../best/objective.ts';
import type { ContentLine } from './content-list.ts';
import type { PlanChange, PlanResult } from './plan.ts';

/** Changes that one page lists. */
const LISTED = 8;

const gain = (change: PlanChange, objective: Objective): string =>
  objective.kind === 'chance'
    ? `about ${(change.gain * 20).toFixed(1)} of 20 days more`
    : `${change.gain.toFixed(2)} more`;

const changeLine = (change: PlanChange, objective: Objective): string =>
  `- ${change.what}: ${gain(change, objective)}, for ${change.effort} week${change.effort === 1 ? '' : 's'} of work${change.insideNoise ? '; inside the noise of one program' : ''}`;

const contentLine = ({ no, code, time, approximate }: ContentLine): string =>
  `${String(no).padStart(2)}  ${time === null ? '' : `${approximate ? 'about ' : ''}${time}  `}${code}`;

/** `plan` for people. */
export function planText(result: PlanResult, objective: Objective): string {
  const { current, changes } = result;
  return [
    result.chosenHere
      ? 'Layout: the best of the elements and reliabilities you entered, by this model'
      : 'Layout: as given',
    `Expected ${current.expected.toFixed(2)}, spread ${current.sd.toFixed(2)}.${result.legal === false ? ' It breaks a rule: see check.' : ''}`,
    '',
    'Planned program content',
    ...result.content.map(contentLine),
    '',
    changes.length > 0
      ? 'What would bring most for the work, as you state it:'
      : 'Nothing here brings more by this model.',
    ...changes.slice(0, LISTED).map((change) => changeLine(change, objective)),
    '',
    'Goals for the log',
    ...result.goals.map((goal) => `- ${goal}`),
    ...result.warnings.map((warning) => `Note: ${warning}`),
    'With every added jump attempt: decide with coach, parents and, in pain or growth, medical staff.',
  ].join('\n');
}
