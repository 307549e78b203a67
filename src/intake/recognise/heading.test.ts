import { describe, expect, it } from 'vitest';

import { shippedLibrary } from '../../rulebook/index.ts';
import { readSheetText } from '../index.ts';

const library = shippedLibrary();

const sheet = (rank: number): string => `${rank} Nuthatch 9 38.28 14.17 24.61 -0.50
1 3Lz< 4.72 -0.47 -1 -1 -1 -1 -1 4.25
2 2A 3.30 0.33 1 1 1 1 1 3.63
3 StSq2 2.60 0.00 0 0 0 0 0 2.60
4 LSp4 2.70 0.99 4 4 3 3 4 3.69
Composition 1.33 6.25 6.00 6.25 6.25 6.50 6.25
Presentation 1.33 6.00 6.00 6.00 6.25 6.25 6.08
Skating Skills 1.33 6.25 6.00 6.25 6.00 6.25 6.17
Deductions: Time violation -0.50 -0.50`;

const SEGMENT = 'Junior Women Short Program 2023/24';

const competitions = (text: string) =>
  [...readSheetText(text, { library })].flatMap((item) =>
    'sheet' in item ? [[item.sheet.protocol.competition, item.sheet.protocol.date ?? null]] : [],
  );

describe('a second competition in one text', () => {
  it('is named by the title right under the foot before', () => {
    const first = ['Harbour Lights Trophy', SEGMENT, '14.10.2023', sheet(1), sheet(2)];
    const text = [...first, 'Lake Cup 2023', SEGMENT, sheet(1), sheet(2)].join('\n');
    expect(competitions(text)).toEqual([
      ['Harbour Lights Trophy', '2023-10-14'],
      ['Harbour Lights Trophy', '2023-10-14'],
      ['Lake Cup 2023', null],
      ['Lake Cup 2023', null],
    ]);
  });

  it('is not made of a note under the tables', () => {
    const note = 'x Credit for highlight distribution, base value multiplied by 1.1';
    const text = ['Harbour Lights Trophy', SEGMENT, sheet(1), note, SEGMENT, sheet(2)].join('\n');
    expect(competitions(text).map(([name]) => name)).toEqual(['Harbour Lights Trophy', 'Harbour Lights Trophy']);
  });
});

describe('a category whose word is not known', () => {
  const sheet = (heading: string, skater: string): string => `Fjordpokal
${heading} 2023/24
Rank 2 Name: ${skater} Start 4
1 3Lz< < 4.72 -0.47 -1 -1 -1 -1 -1 4.25
2 2A 3.30 0.33 1 1 1 1 1 3.63
3 StSq2 2.60 0.00 0 0 0 0 0 2.60
4 LSp4 2.70 0.99 4 4 3 3 4 3.69
Composition 1.33 6.25 6.00 6.25 6.25 6.50 6.25
Presentation 1.33 6.00 6.00 6.00 6.25 6.25 6.08
Skating Skills 1.33 6.25 6.00 6.25 6.00 6.25 6.17
Element score 14.17
Component score 24.61
Total 38.78
`;

  it('is not taken over silently from the sheets before, on its second sheet neither', () => {
    const text = [
      sheet('Junior Women Short Program', 'Ilva Torvan'),
      sheet('Junior Women Short Program', 'Pia Quellin'),
      sheet('Felsőbb Women Short Program', 'Kaja Torvan'),
      sheet('Felsőbb Women Short Program', 'Noor Quellin'),
      sheet('Junior Women Short Program', 'Zita Torvan'),
    ].join('\n');
    const sheets = [...readSheetText(text, { library })].flatMap((item) => ('sheet' in item ? [item.sheet] : []));
    const asked = sheets.map((one) => one.doubts.some((doubt) => doubt.at === 'category'));
    expect(asked).toEqual([false, false, true, true, false]);
  });
});
