import { describe, expect, it } from 'vitest';

import { shippedLibrary } from '../../rulebook/index.ts';
import { readSheetText } from '../index.ts';

const library = shippedLibrary();

function sheetIn(text: string) {
  const [sheet] = [...readSheetText(text, { library })].flatMap((item) => ('sheet' in item ? [item.sheet] : []));
  if (sheet === undefined) throw new Error('no sheet was read');
  return sheet;
}

const HEAD = 'Harbour Lights Trophy\nJunior Women Short Program 2023/24\nRank 2   Nuthatch   Start 9\n';
const ELEMENTS = `1 3Lz< 4.72 -0.47 -1 -1 -1 4.25
2 2A 3.30 0.33 1 1 1 3.63
3 StSq2 2.60 0.26 1 2 0 2.86
4 LSp4 2.70 0.90 4 3 3 3.60
`;

describe('a part of a sheet', () => {
  it('is read without doubts, with one line on what is not printed', () => {
    const sheet = sheetIn(HEAD + ELEMENTS);
    expect(sheet.doubts).toEqual([]);
    expect(sheet.problems).toEqual([]);
    expect(sheet.evidence.filter((one) => one.startsWith('not printed'))).toHaveLength(1);
    expect(sheet.protocol.elements.map((one) => one.score)).toEqual([4.25, 3.63, 2.86, 3.6]);
    expect(sheet.protocol).not.toHaveProperty('tes');
    expect(sheet.protocol).not.toHaveProperty('deductions');
  });

  it('from a table doubts only what the rules need to know', () => {
    const rows = ELEMENTS.trim()
      .split('\n')
      .map((row) => row.split(' ').slice(1).join(','));
    const sheet = sheetIn(['Element,Base Value,GOE,J1,J2,J3,Score', ...rows].join('\n'));
    expect(sheet.doubts.map((one) => one.at).sort()).toEqual(['category', 'season', 'segment']);
  });

  it('is a problem where the printed totals show that it was cut', () => {
    const sheet = sheetIn(`${HEAD}Total Segment Score 38.78\n${ELEMENTS}`);
    expect(sheet.problems.map((one) => one.code)).toEqual(['intake.partial']);
  });
});

describe('three judges whose mean is one of the marks', () => {
  const rows = ['4.50 4.75 4.25', '4.50 4.75 4.25', '4.50 4.25 4.75'];
  const names = ['Composition', 'Presentation', 'Skating Skills'];
  const marks = [
    [4.5, 4.75, 4.25],
    [4.5, 4.75, 4.25],
    [4.5, 4.25, 4.75],
  ];
  const read = (row: (marks: string, name: string) => string, elements = ELEMENTS) =>
    sheetIn(HEAD + elements + names.map((name, i) => row(rows[i] ?? '', name)).join('\n'));

  it.each([
    ['with a factor', (marks: string, name: string) => `${name} 1.33 ${marks} 4.50`],
    ['without a factor', (marks: string, name: string) => `${name} ${marks} 4.50`],
  ])('have their score where the elements have it, %s', (_, row) => {
    const sheet = read(row);
    expect(sheet.doubts).toEqual([]);
    expect(sheet.protocol.components?.map((one) => one.marks)).toEqual(marks);
  });

  it('have it on the left as well', () => {
    const left = ELEMENTS.replace(/^(\d \S+ \S+ \S+)((?: -?\d){3}) (\S+)$/gm, '$1 $3$2');
    const sheet = read((one, name) => `${name} 1.33 4.50 ${one}`, left);
    expect(sheet.protocol.components?.map((one) => one.marks)).toEqual(marks);
  });
});
