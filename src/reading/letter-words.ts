import { hanging } from './text.ts';
import { countedInWords, lettersInWords } from './step-words.ts';
import type { FeedbackEntry } from './types.ts';

/** What level and letters of one element prove, as sentences with their assumptions. */
export function letterLines(entry: FeedbackEntry, width: number): string[] {
  const head = `${entry.no === null ? '' : `${entry.no}  `}${entry.code}`;
  const letters = entry.letters === null ? 'no letters' : `letters ${entry.letters}`;
  const isSteps = entry.code.startsWith('StSq');
  const holds = entry.assumptions.length === 0 ? [] : [`It holds if ${entry.assumptions.join(' ')}`];
  const body = isSteps ? [...stepBody(entry), ...holds, ...entry.notes] : [...entry.notes, ...spinBody(entry)];
  return [`  ${head}, ${letters}`, ...body.flatMap((text) => hanging('    ', text, width))];
}

function stepBody(entry: FeedbackEntry): string[] {
  if (!entry.consistent) return ['No account fits both level and letters; nothing is read from them.'];
  const accounts = entry.explanations.length;
  const said = entry.letters === null ? 'The level alone leaves' : 'The letters leave';
  return [
    lettersInWords(entry.letters),
    [countedInWords(entry.turns), ...entry.conclusions].filter((text) => text !== '').join(' '),
    accounts > 1 ? `${said} ${accounts} accounts open (--json lists them).` : '',
  ].filter((text) => text !== '');
}

function spinBody(entry: FeedbackEntry): string[] {
  if (!entry.consistent) return ['These letters cannot stand beside this spin; nothing is read from them.'];
  if (entry.missingPosition === null) return [];
  const article = entry.missingPosition === 'upright' ? 'an' : 'a';
  return [
    `It does not say that ${article} ${entry.missingPosition} was left out: too short, or not clear, stays open.`,
  ];
}
