import type { Jump } from '../notation/index.ts';
import type { Line } from './lines.ts';
import { listed, mainJump, spokenElement, spokenJump } from './spoken.ts';
import { stepLimit } from './step-words.ts';
import type { FeedbackEntry } from './types.ts';

/** More questions than this are not asked in one critique. */
const MOST = 5;

/**
 * Polite questions for the panel's critique, made from what level, letters and calls leave open.
 * Calls stand: these are questions, not protests.
 */
export function questionsOf(lines: readonly Line[], feedback: readonly FeedbackEntry[]): string[] {
  const asked = lines.flatMap((line) => {
    if (line.kind !== 'both' && line.kind !== 'added') return [];
    const { skated } = line;
    const entry = feedback.find((one) => one.index === skated.index);
    const { element } = skated;
    if (element.kind === 'steps') return entry === undefined ? [] : stepQuestions(entry);
    if (element.kind === 'spin') return entry === undefined ? [] : spinQuestions(entry, spokenElement(element));
    return element.kind === 'jump' ? edgeQuestions(mainJump(element)) : [];
  });
  return asked.slice(0, MOST);
}

function stepQuestions(entry: FeedbackEntry): string[] {
  if (!entry.consistent)
    return [
      `The sheet shows ${entry.letters ?? 'no letters'} beside ${entry.code}. Could you tell us how to read that?`,
    ];
  const { turns, letters } = entry;
  if (turns === null || turns.min === turns.max || entry.code.endsWith('4')) return [];
  const level = levelOf(entry.code);
  const limit = level === null ? null : stepLimit(entry.explanations, level);
  const met =
    letters === null ? [] : ['rotations', 'body movements', 'clusters'].filter((_, i) => /[YT]/.test(letters[i] ?? ''));
  const open = met.length > 0 ? `On the steps we had ${listed(met)}. ` : '';
  const questions = [`${open}Could you tell us about how many turns you counted, and which kind was unclear?`];
  if (limit?.missing.includes('clusters') === true)
    questions.push('On which foot was the cluster not clear, and at which turn?');
  return questions;
}

function levelOf(code: string) {
  const last = code.at(-1);
  return last === 'B' ? 'B' : last === '1' ? 1 : last === '2' ? 2 : last === '3' ? 3 : null;
}

function spinQuestions(entry: FeedbackEntry, name: string): string[] {
  if (!entry.consistent)
    return [
      `The sheet shows ${entry.letters ?? 'no letters'} beside ${entry.code}. Could you tell us how to read that?`,
    ];
  if (entry.missingPosition !== null)
    return [`In the ${name}, was the ${entry.missingPosition} too short, or was the position not clear?`];
  return [`In the ${name}, which requirement did the V stand for?`];
}

function edgeQuestions(jump: Jump | null): string[] {
  if (jump?.edge == null) return [];
  return [`On the ${spokenJump(jump)}, was the change of edge at the pick or already in the curve before it?`];
}
