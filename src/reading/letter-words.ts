import { hanging } from './text.ts';
import { countedInWords, lettersInWords } from './step-words.ts';
import type { FeedbackEntry, ToldByPanel, ToldEvidence } from './types.ts';

/** What level and letters of one element prove, as sentences with their assumptions. */
export function letterLines(entry: FeedbackEntry, width: number): string[] {
  const head = `${entry.no === null ? '' : `${entry.no}  `}${entry.code}`;
  const letters = entry.letters === null ? 'no letters' : `letters ${entry.letters}`;
  const isSteps = entry.code.startsWith('StSq');
  const holds = entry.assumptions.length === 0 ? [] : [`It holds if ${entry.assumptions.join(' ')}`];
  const own = isSteps ? [...stepBody(entry), ...holds, ...entry.notes] : [...entry.notes, ...spinBody(entry)];
  const body = [...own, ...toldLines(entry)];
  return [`  ${head}, ${letters}`, ...body.flatMap((text) => hanging('    ', text, width))];
}

function stepBody(entry: FeedbackEntry): string[] {
  if (!entry.consistent) return ['No account fits both level and letters; nothing is read from them.'];
  const accounts = entry.explanations.length;
  const told = entry.told.some((one) => one.used) ? ' and what was told' : '';
  const said = entry.letters === null ? `The level${told === '' ? ' alone' : told} leave` : `The letters${told} leave`;
  return [
    lettersInWords(entry.letters),
    [countedInWords(entry.turns), ...entry.conclusions].filter((text) => text !== '').join(' '),
    accounts > 1
      ? `${said}${entry.letters === null && told === '' ? 's' : ''} ${accounts} accounts open (--json lists them).`
      : '',
  ].filter((text) => text !== '');
}

function spinBody(entry: FeedbackEntry): string[] {
  if (!entry.consistent) return ['These letters cannot stand beside this spin; nothing is read from them.'];
  if (entry.missingPosition === null) return [];
  if (entry.letters === null) return [`The ${entry.missingPosition} position was missing, as the panel told.`];
  const article = entry.missingPosition === 'upright' ? 'an' : 'a';
  return [
    `It does not say that ${article} ${entry.missingPosition} was left out: too short, or not clear, stays open.`,
  ];
}

/** What the panel said, and whether it was used as evidence. */
const toldLines = (entry: FeedbackEntry): string[] =>
  entry.told.map((one) => [toldInWords(one), toldUse(one)].filter((part) => part !== '').join(' '));

/** `Told by the panel: 8 turns counted. “The second loop did not count.”` */
export function toldInWords({ text, turns, missingPosition }: ToldByPanel): string {
  const range =
    turns == null
      ? ''
      : typeof turns === 'number'
        ? `${turns} ${turns === 1 ? 'turn' : 'turns'} counted.`
        : turns.min === turns.max
          ? `${turns.min} ${turns.min === 1 ? 'turn' : 'turns'} counted.`
          : `${turns.min} to ${turns.max} turns counted.`;
  const position = missingPosition == null ? '' : `the ${missingPosition} position was missing.`;
  const words = text.trim() === '' ? '' : `“${text.trim().replace(/[.!?]*$/, '.')}”`;
  return ['Told by the panel:', range, position, words].filter((part) => part !== '').join(' ');
}

/** How it was used, as a sentence. */
export const toldUse = ({ used, turns, missingPosition }: ToldEvidence): string => {
  if (used) return 'Used as evidence here.';
  return turns == null && missingPosition == null ? '' : 'It does not fit level and letters, so it is left out.';
};
