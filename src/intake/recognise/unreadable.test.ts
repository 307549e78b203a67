import { describe, expect, it } from 'vitest';
import { shippedLibrary } from '../../rulebook/index.ts';
import { readSheetText, type SheetReading } from '../index.ts';

const library = shippedLibrary();
const sheetOf = (text: string): SheetReading => {
  const [sheet] = [...readSheetText(text, { library })].flatMap((item) => ('sheet' in item ? [item.sheet] : []));
  if (sheet === undefined) throw new Error('no sheet');
  return sheet;
};

/** Words whose font names no letters: what a viewer copies are control or replacement characters. */
const printed = (sign: string): string =>
  `Harbour Lights Trophy
${sign.repeat(4)} ${sign.repeat(2)} ${sign.repeat(3)} 2023/24
${sign.repeat(2)} 2 ${sign.repeat(2)}: Ilva Torvan ${sign.repeat(3)} 2
${sign.repeat(4)} 14.17
${sign.repeat(4)} 24.61
${sign.repeat(2)} 0.00
${sign.repeat(2)} 38.78
1 3Lz< < 4.72 -0.47 -1 -1 -1 -1 -1 4.25
2 2A 3.30 0.33 1 1 1 1 1 3.63
3 StSq2 YYN 2.60 0.00 0 0 0 0 0 2.60
4 LSp4 2.70 0.99 4 4 3 3 4 3.69
${sign.repeat(2)} 1.33 6.25 6.00 6.25 6.25 6.50 6.25
${sign.repeat(3)} 1.33 6.00 6.00 6.00 6.25 6.25 6.08
${sign.repeat(2)} 1.33 6.25 6.00 6.25 6.00 6.25 6.17
`;

describe('a sheet whose words cannot be read', () => {
  it.each(['\u0000', '\ufffd', '\ue012'])('keeps its figures (signs like %j)', (sign) => {
    const { protocol } = sheetOf(printed(sign));
    expect(protocol).toMatchObject({ skater: 'Ilva Torvan', tes: 14.17, pcs: 24.61, total: 38.78, deductions: 0 });
    expect(protocol.elements.map((one) => one.score)).toEqual([4.25, 3.63, 2.6, 3.69]);
    expect(protocol.components?.map((one) => one.score)).toEqual([6.25, 6.08, 6.17]);
    expect(protocol.components?.map((one) => one.name)).toEqual(['', '', '']);
  });

  it('asks for what no equation holds', () => {
    const asked = sheetOf(printed('\u0000')).doubts.map((doubt) => doubt.at);
    expect(asked).toEqual(expect.arrayContaining(['rank', 'startNumber', 'components[0].name', 'category']));
  });
});
