import { describe, expect, it } from 'vitest';

import { shippedLibrary } from '../rulebook/index.ts';
import { readSheet, readSheetText, sheetForm, type IntakeItem } from './index.ts';

const library = shippedLibrary();
const items = (text: string): IntakeItem[] => [...readSheetText(text, { library })];
const sheetsIn = (text: string) => items(text).flatMap((item) => ('sheet' in item ? [item.sheet] : []));
const problemsIn = (text: string) => items(text).flatMap((item) => ('problem' in item ? [item.problem] : []));

async function problemCodes(bytes: Uint8Array): Promise<string[]> {
  const codes: string[] = [];
  for await (const item of readSheet({ bytes }, { library })) if ('problem' in item) codes.push(item.problem.code);
  return codes;
}

const SHEET = `Harbour Lights Trophy
Junior Women Short Program 2023/24
Rank Name Start Segment Score Element Score Component Score Deductions
4 Ilva Torvan 5 38.78 14.17 24.61 0.00
# Executed Info Base GOE J1 J2 J3 J4 J5 Score
1 3Lz< < 4.72 -0.47 -1 -1 -1 -1 -1 4.25
2 2A 3.30 0.33 1 1 1 1 1 3.63
3 StSq2 YYN 2.60 0.00 0 0 0 0 0 2.60
4 LSp4 2.70 0.99 4 4 3 3 4 3.69
Composition 1.33 6.25 6.00 6.25 6.25 6.50 6.25
Presentation 1.33 6.00 6.00 6.00 6.25 6.25 6.08
Skating Skills 1.33 6.25 6.00 6.25 6.00 6.25 6.17
`;

describe('a small sheet', () => {
  it('is read without a doubt, letters and calls in their fields', () => {
    const [sheet] = sheetsIn(SHEET);
    expect(sheet?.doubts).toEqual([]);
    expect(sheet?.confidence).toBe(1);
    expect(sheet?.protocol).toMatchObject({
      competition: 'Harbour Lights Trophy',
      season: '2023/24',
      category: 'junior women',
      segment: 'short',
      skater: 'Ilva Torvan',
      rank: 4,
      startNumber: 5,
      tes: 14.17,
      pcs: 24.61,
      total: 38.78,
      deductions: 0,
    });
    expect(sheet?.protocol.elements[0]).toMatchObject({
      code: '3Lz<',
      info: '<',
      base: 4.72,
      goe: -0.47,
      marks: [-1, -1, -1, -1, -1],
    });
    expect(sheet?.protocol.elements[2]).toMatchObject({ code: 'StSq2', feedback: 'YYN' });
  });
});

describe('bad input', () => {
  it('puts an unknown code under doubt and keeps what is printed', () => {
    const [sheet] = sheetsIn(SHEET.replace('2 2A ', '2 2AA '));
    const doubt = sheet?.doubts.find((one) => one.at === 'elements[1].code');
    expect(doubt?.read).toBe('2AA');
    expect(doubt?.why).toContain('Did you mean “2A”');
    expect(sheet?.protocol.elements[1]?.base).toBe(3.3);
  });

  it.each([
    ['a grade of 7', '3.63', 'elements[1].marks[0]', SHEET.replace('0.33 1 1', '0.33 7 1')],
    ['a mark of 8.10', '6.25', 'components[0].marks[0]', SHEET.replace('1.33 6.25 6.00', '1.33 8.10 6.00')],
  ])('puts %s under doubt', (_, __, at, text) => {
    expect(sheetsIn(text)[0]?.doubts.map((one) => one.at)).toContain(at);
  });

  it('sees that the rows of two skaters are mixed', () => {
    const mixed = SHEET.replace('3 StSq2', '1 3T 4.20 0.00 0 0 0 0 0 4.20\n2 2A 3.30 0.00 0 0 0 0 0 3.30\n3 StSq2');
    const [sheet] = sheetsIn(mixed);
    expect(sheet?.doubts.map((one) => one.at)).toEqual(expect.arrayContaining(['elements[2].no', 'tes']));
  });

  it('reads an unknown season as printed', () => {
    const [sheet] = sheetsIn(SHEET.replace('2023/24', '2041/42'));
    expect(sheet?.protocol.season).toBe('2041/42');
    expect(sheet?.protocol.elements).toHaveLength(4);
  });

  it('says what a sheet without judges lacks', () => {
    const bare = SHEET.replace(/( -?\d){5} (\d\.\d\d)$/gm, ' $2').replace(/(1\.33).*( \d\.\d\d)$/gm, '$1$2');
    const [sheet] = sheetsIn(bare);
    expect(sheet?.problems.map((one) => one.code)).toContain('intake.partial');
  });

  it('closes a paste of ten thousand rows piece by piece', () => {
    const text = Array.from({ length: 10_000 }, (_, i) => `${i + 1} 3Lz 5.90 0.59 1 1 1 6.49`).join('\n');
    const sheets = sheetsIn(text);
    expect(sheets.length).toBeGreaterThan(100);
    expect(sheets.every((one) => one.doubts.length > 0)).toBe(true);
  });

  it.each([
    ['nothing', ''],
    ['a letter', 'Dear coach, see you on Monday.'],
    ['figures alone', '1 2 3 4 5.00\n'.repeat(5000)],
    ['one endless line', '3Lz 5.90 '.repeat(300_000)],
    ['quotes', '"'.repeat(500_000)],
    ['tabs', '\t'.repeat(500_000)],
    ['broken JSON', '{"id":'.repeat(50_000)],
  ])('answers %s with a problem', (_, text) => {
    expect(problemsIn(text).map((one) => one.code)).toContain('intake.nothing');
  });

  it('leaves a page of endless depth where it is', () => {
    expect(problemsIn('<table><tr><td>'.repeat(100_000)).map((one) => one.code)).toContain('intake.html-depth');
  });

  it('knows bytes that are no sheet, and text of other encodings', async () => {
    expect(await problemCodes(new Uint8Array(4096).map((_, i) => (i * 7919) % 256))).toEqual(['intake.binary']);
    expect(await problemCodes(new Uint8Array(21_000_000).fill(120))).toEqual(['intake.too-long']);
    const wide = new Uint8Array([0xff, 0xfe, ...Array.from(SHEET).flatMap((sign) => [sign.charCodeAt(0), 0])]);
    const found: string[] = [];
    for await (const item of readSheet({ bytes: wide }, { library }))
      if ('sheet' in item) found.push(item.sheet.protocol.skater ?? '');
    expect(found).toEqual(['Ilva Torvan']);
    expect(sheetForm({ bytes: new TextEncoder().encode('%PDF-1.7') })).toBe('pdf');
  });
});

describe('tables of records and JSON', () => {
  const HEAD =
    'Athlete,Cat,Program,Season,Elem.,Called,BV,HD,GOE,Judge 1,Judge 2,Judge 3,Judge 4,Judge 5,Pts,Coefficient,Tot';
  const rows = (name: string): string[] => [
    `${name},junior women,short,2023/24,1,3Lz<,4.72,,-0.47,-1,-1,-1,-1,-1,4.25,,38.78`,
    `${name},junior women,short,2023/24,2,2A,3.3,,0.33,1,1,1,1,1,3.63,,38.78`,
    `${name},junior women,short,2023/24,3,StSq2,2.6,,0,0,0,0,0,0,2.6,,38.78`,
    `${name},junior women,short,2023/24,4,LSp4,2.7,,0.99,4,4,3,3,4,3.69,,38.78`,
    `${name},junior women,short,2023/24,,Composition,,,,6.25,6,6.25,6.25,6.5,6.25,1.33,38.78`,
    `${name},junior women,short,2023/24,,Presentation,,,,6,6,6,6.25,6.25,6.08,1.33,38.78`,
    `${name},junior women,short,2023/24,,Skating Skills,,,,6.25,6,6.25,6,6.25,6.17,1.33,38.78`,
  ];
  const map = {
    Athlete: 'skater',
    Cat: 'category',
    'Elem.': 'no',
    Called: 'code',
    BV: 'base',
    HD: 'half',
    Pts: 'score',
    Coefficient: 'factor',
    Tot: 'total',
  } as const;

  it('reads records with a column map, skaters mixed row by row', () => {
    const [a, b] = [rows('Ilva Torvan'), rows('Ronja Quellin')];
    const text = [HEAD, ...a.flatMap((row, i) => [row, b[i] ?? ''])].join('\n');
    const sheets = [...readSheetText(text, { library, map })].flatMap((item) => ('sheet' in item ? [item.sheet] : []));
    expect(sheets.map((one) => one.protocol.skater)).toEqual(['Ilva Torvan', 'Ronja Quellin']);
    expect(sheets[1]?.protocol).toMatchObject({
      category: 'junior women',
      segment: 'short',
      season: '2023/24',
      total: 38.78,
    });
    expect(sheets[1]?.protocol.elements.map((one) => one.score)).toEqual([4.25, 3.63, 2.6, 3.69]);
    expect(sheets[1]?.protocol.components?.map((one) => one.score)).toEqual([6.25, 6.08, 6.17]);
  });

  it('gives protocols in their own form back, and tells bad lines', () => {
    const protocol = sheetsIn(SHEET)[0]?.protocol;
    const text = `${JSON.stringify(protocol)}\n{"elements": 3}\n`;
    expect(sheetsIn(text)[0]?.protocol).toEqual(protocol);
    expect(problemsIn(text)[0]?.at).toContain('line 2');
  });
});
