import { describe, expect, it } from 'vitest';

import { shippedLibrary } from '../../rulebook/index.ts';
import { readSheetText } from '../index.ts';

const library = shippedLibrary();

const TABLES = `1 3Lz< < 4.72 -0.47 -1 -1 -1 -1 -1 4.25
2 2A 3.30 0.33 1 1 1 1 1 3.63
3 StSq2 2.60 0.00 0 0 0 0 0 2.60
4 LSp4 2.70 0.99 4 4 3 3 4 3.69
Composition 1.33 6.25 6.00 6.25 6.25 6.50 6.25
Presentation 1.33 6.00 6.00 6.00 6.25 6.25 6.08
Skating Skills 1.33 6.25 6.00 6.25 6.00 6.25 6.17
`;

const TOTALS = [
  'Total Segment Score 38.78   Total Element Score 14.17   Total Program Component Score (factored) 24.61   Total Deductions 0.00',
  'Total Deductions 0.00   Total Program Component Score (factored) 24.61   Total Element Score 14.17   Total Segment Score 38.78',
  'Segment Score: 38.78   Element Score: 14.17   Component Score: 24.61   Deductions: 0.00',
  'Gesamtpunktzahl 38.78   Summe der Elementwerte 14.17   Summe der Programmkomponenten 24.61   Abzüge 0.00',
  'Total du segment 38.78   Total des éléments 14.17   Total des composantes 24.61   Déductions 0.00',
];

/** The first sheet of a text. */
function sheetIn(text: string) {
  const [sheet] = [...readSheetText(text, { library })].flatMap((item) => ('sheet' in item ? [item.sheet] : []));
  return sheet;
}

function read(head: string) {
  const text = `Harbour Lights Trophy\nJunior Women Short Program 2023/24\n${head}\n${TABLES}`;
  const sheet = sheetIn(text);
  return { ...sheet?.protocol, doubts: sheet?.doubts, problems: sheet?.problems };
}

describe('labels of totals', () => {
  it.each(TOTALS)('are no name beside the one on the line of the rank: %s', (totals) => {
    expect(read(`Rank 2   Nuthatch   Starting Number 9\n${totals}`)).toMatchObject({
      skater: 'Nuthatch',
      rank: 2,
      startNumber: 9,
      tes: 14.17,
      pcs: 24.61,
      total: 38.78,
      doubts: [],
      problems: [],
    });
  });

  it.each(TOTALS)('are no name where nobody is named: %s', (totals) => {
    const { skater } = read(totals);
    expect(skater === undefined || skater === 'Harbour Lights Trophy').toBe(true);
  });

  it.each(TOTALS)('stand above the line of the rank as well: %s', (totals) => {
    expect(read(`${totals}\nRank 2   Nuthatch   Starting Number 9`)).toMatchObject({ skater: 'Nuthatch', doubts: [] });
  });
});

describe('a sum on the line of the name', () => {
  it.each([
    '1. Sandpiper, Lake SC   Start 4    38.28 = 14.17 + 24.61 - 0.50',
    '1. Sandpiper, Lake SC   Start 4    14.17 + 24.61 - 0.50 = 38.28',
    '1. Sandpiper, Lake SC   Start 4    38.28 = 14.17 + 24.61 − 0.50',
  ])('is read as totals, its signs are no part of the name: %s', (line) => {
    expect(read(line)).toMatchObject({
      skater: 'Sandpiper, Lake SC',
      rank: 1,
      startNumber: 4,
      tes: 14.17,
      pcs: 24.61,
      total: 38.28,
      deductions: -0.5,
      doubts: [],
    });
  });
});

describe('column heads', () => {
  const names = { skater: 'Wren Halcott', rank: 2, startNumber: 7, tes: 14.17, pcs: 24.61, total: 38.78, doubts: [] };

  it('say which number is which, wrapped over lines too', () => {
    const heads = [
      'Rank  Name          Nation  Starting   Total      Total     Total       Total',
      '                            Number     Segment    Element   Program Component     Deductions',
      '                                       Score      Score     Score (factored)',
    ];
    expect(
      read([...heads, '   2  Wren Halcott   AUT       7          38.78      14.17     24.61   0.00'].join('\n')),
    ).toMatchObject(names);
  });

  it('are read by their place where the words end on different lines', () => {
    const heads = [
      'Starting        Name          Nation',
      'Number    Rank                         Total Segment   Element   Component   Deductions',
    ];
    expect(
      read([...heads, '   7      2   Wren Halcott   AUT      38.78      14.17     24.61   0.00'].join('\n')),
    ).toMatchObject(names);
  });

  it('say it without totals on the line', () => {
    const head =
      'Rank  Name          Nation  Starting\n                            Number\n   2  Wren Halcott   AUT    7';
    expect(read(head)).toMatchObject({ skater: 'Wren Halcott', rank: 2, startNumber: 7, doubts: [] });
  });

  it('leave a doubt where nothing names the numbers', () => {
    const doubts = read('2  Wren Halcott   AUT  7   38.78  14.17  24.61  0.00').doubts ?? [];
    expect(doubts.map((one) => one.at)).toEqual(['rank', 'startNumber']);
  });
});

it('leaves out a nation in brackets and the lines between the parts', () => {
  expect(read('Place 2 - Nuthatch (AUT) - Start No. 9')).toMatchObject({ skater: 'Nuthatch', rank: 2, startNumber: 9 });
});

it('keeps words that are a name and a column head at once', () => {
  expect(read('Rank 2   Per No Halcott   Start 9')).toMatchObject({
    skater: 'Per No Halcott',
    rank: 2,
    startNumber: 9,
  });
});

describe('a skater’s line with more than the name', () => {
  it.each([
    'Rank 2   Nuthatch Grey   (SC Elm Bay)   Starting Number 9',
    'Rank 2 Name: Nuthatch Grey Nation AUT Starting Number: 9',
    'Rank\tName\tNation\tStarting Number\n2\tNuthatch Grey\tAUT\t9',
  ])('gives the name alone: %s', (head) => {
    expect(read(`${head}\n${TOTALS[0] ?? ''}`)).toMatchObject({ skater: 'Nuthatch Grey', rank: 2, startNumber: 9 });
  });

  it('is no title of an event, and the season is no name', () => {
    const text = `Judges Details per Skater - Season 2023/24\nJunior Women Short Program\nPlace 2   Nuthatch Grey (SC Elm Bay)   Starting Number 9\n${TOTALS[0] ?? ''}\n${TABLES}`;
    const sheet = sheetIn(text);
    expect(sheet?.protocol).toMatchObject({ skater: 'Nuthatch Grey', season: '2023/24' });
    expect(sheet?.protocol.competition ?? '').not.toContain('Nuthatch');
  });

  it('leaves the title beside place and date to the event', () => {
    const text = `Harbour Cup 2024 · Elm Bay, 18.01.2024\nJunior Women Short Program 2023/24\nRank 2 Nuthatch Starting Number 9\n${TOTALS[0] ?? ''}\n${TABLES}`;
    const sheet = sheetIn(text);
    expect(sheet?.protocol).toMatchObject({ competition: 'Harbour Cup 2024', date: '2024-01-18' });
  });
});

describe('two sums on one line', () => {
  it.each([
    ['before', '14.17 Summe der Elemente 13.32'],
    ['behind', 'Summe der Elemente 13.32 14.17'],
    ['between the lines of', 'Summe der\n14.17 13.32\nElemente'],
  ])('the element score %s its label is told from the sum of the base values, though a score is wrong', (_, line) => {
    const [elements = '', components = ''] = TABLES.split(/(?=Composition)/);
    const text = `Harbour Lights Trophy\nJunior Women Short Program 2023/24\nRank 2 Nuthatch Starting Number 9\n${elements.replace('3.63', '3.73')}${line}\n${components}Gesamtpunktzahl 38.78\nSumme der Programmkomponenten 24.61\n`;
    const sheet = sheetIn(text);
    expect(sheet?.protocol).toMatchObject({ tes: 14.17, pcs: 24.61, total: 38.78 });
  });
});

describe('lines of a text', () => {
  const plain = `Harbour Lights Trophy\nJunior Women Short Program 2023/24\nRank 2 Nuthatch Starting Number 9\n${TOTALS[0] ?? ''}\n${TABLES}`;
  const protocolsIn = (text: string): unknown[] =>
    [...readSheetText(text, { library })].flatMap((item) => ('sheet' in item ? [item.sheet.protocol] : []));

  it.each([
    [
      'in a preformatted part of a page',
      `<html><body><h1>x</h1><pre>${plain.replaceAll('<', '&lt;')}</pre></body></html>`,
    ],
    ['that end in carriage returns alone', plain.replaceAll('\n', '\r')],
    ['that end in both', plain.replaceAll('\n', '\r\n')],
  ])('%s are lines', (_, text) => {
    expect(protocolsIn(text)).toEqual(protocolsIn(plain));
    expect(protocolsIn(text)).toMatchObject([{ elements: { length: 4 }, total: 38.78 }]);
  });
});

describe('a lone letter beside a spin with V', () => {
  it('is asked, not dropped', () => {
    const tables = TABLES.replace('4 LSp4 2.70', '4 LSp4V S 2.03').replace(
      '0.99 4 4 3 3 4 3.69',
      '0.74 4 4 3 3 4 2.77',
    );
    const text = `Harbour Lights Trophy\nJunior Women Short Program 2023/24\nRank 2 Nuthatch Starting Number 9\n${tables}`;
    const sheet = sheetIn(text);
    expect(sheet?.protocol.elements[3]).toMatchObject({ code: 'LSp4V' });
    expect(sheet?.doubts).toContainEqual(expect.objectContaining({ at: 'elements[3].feedback', alternatives: ['NS'] }));
  });
});
