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

it.each([
  ['StSq3 YNY', 'The step sequence. Move your arms'],
  ['StSq3 YYN', 'The step sequence. Do three hard turns in a row'],
  ['StSq2 YYY', 'The step sequence. Do one or two more turns'],
  ['StSq3 YYY', 'The step sequence. Do every kind of hard turn both ways'],
  ['StSqB', 'The step sequence. Add hard turns'],
  ['StSq2', 'The step sequence. Do each turn'],
])('%s: what to do is what level and letters prove', (code, act) => {
  const [first] = skaterAdvice(readForm(sheetOf([{ code, marks: five(0) }])));
  expect(first?.text).toContain(act);
});

it('speaks of landing after a jump alone', () => {
  const fallen = (code: string) => skaterAdvice(readForm(sheetOf([{ code, info: 'F', marks: five(-5) }])))[0]?.text;
  expect(fallen('2A')).toContain('Land on');
  expect(fallen('ChSq1')).toContain('Keep your weight over your skating foot');
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

it.each([
  ['3F<', /^The triple flip\. Turn all the way round/],
  ['3F!', /^The triple flip\. Hold your edge/],
])('%s where the obliged grades of the season are not known: the call is what to train', (code, expected) => {
  const sheet = { ...sheetOf([{ code, marks: five(-3) }]), season: '2025/26' };
  const reading = readForm(sheet);
  expect(reading.ledger.some((one) => one.grades?.min === null)).toBe(true);
  const advice = reading.advice.find((one) => one.cause === 'execution');
  expect(advice?.text).toContain(`(called ${code.slice(2)})`);
  expect(advice?.text).not.toContain('without a call');
  expect(skaterAdvice(reading)[0]?.text).toMatch(expected);
});
