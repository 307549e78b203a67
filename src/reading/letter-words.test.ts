import { expect, it } from 'vitest';
import { letterLines } from './letter-words.ts';
import { five, readForm, sheetOf } from './testing/readings.ts';

const linesFor = (code: string): string =>
  readForm(sheetOf([{ code, marks: five(0) }]))
    .feedback.flatMap((entry) => letterLines(entry, 200))
    .join('\n');

it('what stays open is left open by the letters only where there are letters', () => {
  expect(linesFor('StSq2 YNN')).toContain('The letters leave 3 accounts open');
  // Level 2 alone: turn level 2 with any feature, or turn level 3 or 4 with exactly one: 7 + 3 + 3.
  expect(linesFor('StSq2')).toContain('The level alone leaves 13 accounts open');
});
