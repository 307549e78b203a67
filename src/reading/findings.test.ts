import { expect, it } from 'vitest';
import { five, readForm, sheetOf } from './testing/readings.ts';

const findingsFor = (code: string, category: string) =>
  readForm(sheetOf([{ code, marks: five(0) }], { category })).findings.filter((one) => one.at.startsWith('elements'));

it.each([
  ['StSq3 NNY', 'senior women', 'With 2 N, level 2 is the highest possible.'],
  ['StSq2 NNN', 'senior women', 'With 3 N, level 1 is the highest possible.'],
  ['StSq3 YYY', 'intermediate novice women', 'The level is above the highest that the rulebook knows'],
  ['CCoSp3 NS', 'senior women', 'the spin carries no V'],
])('%s for %s: the finding says why the letters cannot be', (code, category, why) => {
  const [finding] = findingsFor(code, category);
  expect(finding).toMatchObject({ kind: 'letters' });
  expect(finding?.message).toContain(why);
});

it('a level above the cap without letters is not called a matter of letters', () => {
  const [finding] = findingsFor('StSq3', 'intermediate novice women');
  expect(finding).toMatchObject({ kind: 'rule', published: null });
  expect(finding?.message).not.toContain('letters');
});
