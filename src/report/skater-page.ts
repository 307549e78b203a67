import {
  HOW_WE_TRAIN,
  skaterAdvice,
  skaterDate,
  skaterEnd,
  skaterTitle,
  skaterWins,
  type Advice,
  type Reading,
} from '../reading/index.ts';
import { text, type ReportPage, type ReportRow } from './page.ts';
import { tracePicture } from './trace-picture.ts';

export interface SkaterPageInput {
  readonly reading: Reading;
  /** Keys (`adviceKey`) of the at most two things the coach chose; empty: the first two. */
  readonly chosen: readonly string[];
  /** The coach's own words from "in the report"; never her private notes. */
  readonly words: string;
  /** Open goals of habit, as sentences. */
  readonly habits: readonly string[];
}

/** Names one piece of advice: element and cause. */
export const adviceKey = (advice: Pick<Advice, 'no' | 'cause'>): string => `${advice.no ?? 'all'}-${advice.cause}`;

/** One page for skater and family: what went up, at most two things still to win, the score last. */
export function skaterPage({ reading, chosen, words, habits }: SkaterPageInput): ReportPage {
  const wins = skaterWins(reading);
  const wanted =
    chosen.length === 0 ? reading : { ...reading, advice: reading.advice.filter((a) => chosen.includes(adviceKey(a))) };
  const still = skaterAdvice(wanted);
  return {
    title: skaterTitle(reading),
    meta: skaterDate(reading),
    rows: [
      ...(words.trim() === '' ? [] : [{ about: 'From your coach', blocks: [text(words.trim())] }]),
      { about: 'Your program', blocks: [picture(reading, still)] },
      {
        about: 'What went up',
        blocks:
          wins.length === 0 ? [text('You skated your whole program in front of judges.')] : wins.map((w) => text(w)),
      },
      {
        about: 'Still to win',
        blocks:
          still.length === 0 ? [text('Your coach will tell you at your next lesson.')] : still.map((a) => text(a.text)),
      },
      ...habitRow(habits),
      { about: 'Your words', blocks: [{ kind: 'writing', lines: 2 }] },
      { about: 'The score', blocks: [text(skaterEnd(reading))] },
    ],
    large: true,
    foot: HOW_WE_TRAIN,
  };
}

const habitRow = (habits: readonly string[]): ReportRow[] =>
  habits.length === 0 ? [] : [{ about: 'Your plan', blocks: habits.map((h) => text(h)) }];

/** The strip: only notes above her usual, and, ringed, the things still to win. */
function picture(reading: Reading, still: readonly Advice[]) {
  const ringed = new Set(still.map((a) => a.no));
  const above = new Set(
    reading.program.filter((n) => n.grade !== null && n.grade > n.referenceGrade && n.grade > 0).map((n) => n.index),
  );
  const skated = reading.program.filter((n) => n.index !== null);
  const svg = tracePicture(
    skated.map((n) => ({
      code: n.code,
      seconds: n.start,
      label: above.has(n.index) ? n.code.replace(/[<>*!]|q$/g, '') : null,
      ringed: ringed.has(n.no),
    })),
  );
  return {
    kind: 'picture' as const,
    svg,
    caption:
      'Your program along the music: a hop is a jump, loops are a spin, waves are steps. A name stands where you got more; a ring is a thing still to win.',
  };
}
