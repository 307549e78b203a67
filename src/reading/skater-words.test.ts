import { expect, it } from 'vitest';
import { skaterAdvice, skaterWins } from './skater-words.ts';
import { five, layoutOf, readForm, sheetOf } from './testing/readings.ts';

const adviceAgainst = (plan: string[], sheet: object[]): string[] => {
  const layout = layoutOf({ elements: plan.map((code) => ({ code })) });
  return skaterAdvice(readForm(sheetOf(sheet), { layout })).map((one) => one.text);
};

it.each([
  [['2A'], [{ code: '1A', marks: five(0) }], /^The double Axel\. Stay closed/],
  [['2A+2T'], [{ code: '2A', marks: five(0) }], /^The double Axel and double toe loop\. Go straight from/],
  [['2A', 'LSp4'], [{ code: '2A', marks: five(0) }], /^The layback spin\. Know where it comes/],
  [['3Lz'], [{ code: '3T', marks: five(0) }], /^The triple Lutz\. Skate it the way you planned/],
])('%j planned, what to do is said for what happened', (plan, sheet, expected) => {
  expect(adviceAgainst(plan, sheet)[0]).toMatch(expected);
});

it('never asks twice for one jump, wherever it stands in the program', () => {
  const sheet = ['2A<', '2A<+2T', 'LSp1'].map((code) => ({ code, marks: five(-2) }));
  const texts = skaterAdvice(readForm(sheetOf(sheet))).map((one) => one.text);
  expect(texts).toHaveLength(2);
  expect(texts.filter((text) => text.includes('Axel'))).toHaveLength(1);
});

it('tells at most three things that went up, the largest first', () => {
  const sheet = ['2A', '3T', '3S', 'LSp4'].map((code, i) => ({ code, marks: five(i + 1) }));
  const wins = skaterWins(readForm(sheetOf(sheet)));
  expect(wins).toHaveLength(3);
  expect(wins[0]).toBe('Your triple Salchow: the judges gave it +3.0.');
});
