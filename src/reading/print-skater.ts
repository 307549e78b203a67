import { hanging, wrap, type Ink } from './text.ts';
import { HOW_WE_TRAIN, skaterAdvice, skaterDate, skaterEnd, skaterTitle, skaterWins } from './skater-words.ts';
import type { Reading } from './types.ts';

const HEADINGS = {
  layout: 'More than your plan',
  usual: 'More than your usual',
  clean: 'What the judges liked',
} as const;

/** Her own page: what went up first, then at most two things still to win; no ranks, no other children. */
export function printSkater(reading: Reading, width: number, ink: Ink): string[] {
  const wins = skaterWins(reading);
  const advice = skaterAdvice(reading);
  const elements = reading.program.filter((note) => note.index !== null).length;
  const started = `You skated your program to the end: ${elements} elements stand on the sheet.`;
  return [
    ink.strong(skaterTitle(reading)),
    skaterDate(reading),
    '',
    ink.strong(wins.length > 0 ? HEADINGS[reading.reference.kind] : 'Your skate'),
    ...(wins.length > 0 ? wins : [started]).flatMap((text) => hanging('  ', text, width)),
    ...(advice.length > 0
      ? ['', ink.strong('Still to win'), ...advice.flatMap((one, i) => hanging(`  ${i + 1}  `, one.text, width))]
      : []),
    '',
    ink.strong('How we train it'),
    ...hanging('  ', HOW_WE_TRAIN, width),
    '',
    ...wrap(skaterEnd(reading), width),
  ];
}
