import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { SheetReading } from '../../src/intake/index.ts';
import { loadPdfLibrary, pdfTables } from '../../src/intake/pdf/load.ts';
import { pagesOfPdf } from '../../src/intake/pdf/pages.ts';
import { createRecogniser } from '../../src/intake/recognise/stream.ts';
import { compareSheet } from '../../src/intake/testing/compare.ts';
import { isPinned } from '../../src/intake/testing/held.ts';
import { dice } from '../../src/intake/testing/invented.ts';
import { SHEET_FORMS, type PrintedProtocol } from '../../src/intake/testing/sheet-forms.ts';
import type { Token } from '../../src/intake/token.ts';
import { shippedLibrary } from '../../src/rulebook/index.ts';
import { FORMS } from './forms.ts';
import { inventedProtocols } from './invented.ts';
import { openProtocols } from './protocols.ts';
import { pdfOf } from './render.ts';

const library = shippedLibrary();
const protocols = [
  ...openProtocols(join(import.meta.dirname, '../data/protocols-2016-2018.jsonl')).filter((_, i) => i % 104 === 5),
  ...inventedProtocols(
    { season: '2023/24', category: 'junior women', segment: 'free', judges: 5, letters: true },
    2,
    1,
  ),
];
/** Forms whose producers start quickly; the other forms differ in what the read-back tries. */
const forms = FORMS.filter(({ producer }) => producer !== 'chromium');
const noBrowser = (): never => {
  throw new Error('no browser is needed');
};

type Dice = (sides: number) => number;
/** The words of a sheet page by page. */
type Pages = readonly (readonly Token[])[];
interface Sheet {
  readonly name: string;
  readonly pages: Pages;
  /** What the sheet says unspoilt. */
  readonly truth: PrintedProtocol;
}

const sheets: Sheet[] = [];
beforeAll(async () => {
  const library = await loadPdfLibrary();
  for (const form of forms) {
    for (const protocol of protocols) {
      const bytes = new Uint8Array(await pdfOf([protocol], form, noBrowser));
      const pages: (readonly Token[])[] = [];
      for await (const page of pagesOfPdf(library, bytes, { tables: pdfTables() }))
        if (page.ok) pages.push(page.value.tokens);
      const reading = read(pages);
      if (reading === undefined) continue;
      sheets.push({ name: `${form.name}, ${protocol.id}`, pages, truth: withSum(reading) as PrintedProtocol });
    }
  }
}, 120_000);

function read(pages: Pages): SheetReading | undefined {
  const recogniser = createRecogniser({ library });
  const found = pages.flatMap((page) => recogniser.page(page));
  return [...found, ...recogniser.end()][0];
}

/** Deductions by their sum: a sheet that lost their lines may still print it. */
function withSum(reading: SheetReading): SheetReading['protocol'] {
  const { deductions, ...rest } = reading.protocol;
  const sum = Array.isArray(deductions) ? deductions.reduce((all, one) => all + one.points, 0) : deductions;
  return { ...rest, ...(sum == null ? {} : { deductions: sum }) };
}

/** The tokens of every page that pass, changed. */
const changed = (pages: Pages, change: (token: Token) => readonly Token[]): Pages =>
  pages.map((page) => page.flatMap(change));

const tokensWith = (pages: Pages, pattern: RegExp): Token[] => pages.flat().filter((token) => pattern.test(token.text));

/** Words of one line stand at one height. */
const lineOf = (token: Token): string => `${token.page} ${Math.round((token.y + token.height / 2) / 3)}`;
const rowsOf = (pages: Pages): string[] => [...new Set(tokensWith(pages, /\d[.,]\d\d/).map(lineOf))];

const SPOILS: Readonly<Record<string, (pages: Pages, roll: Dice) => Pages>> = {
  'a digit lost': (pages, roll) => {
    const figures = tokensWith(pages, /\d/);
    const target = figures[roll(figures.length)];
    const digits = [...(target?.text ?? '').matchAll(/\d/g)].map((match) => match.index);
    const at = digits[roll(digits.length)] ?? 0;
    return changed(pages, (token) => {
      const text = token === target ? token.text.slice(0, at) + token.text.slice(at + 1) : token.text;
      return text === '' ? [] : [{ ...token, text }];
    });
  },
  'two digits of a figure swapped': (pages, roll) => {
    const figures = tokensWith(pages, /\d[.,]?\d/);
    const target = figures[roll(figures.length)];
    const text = (target?.text ?? '').replace(/(\d)([.,]?)(\d)(?!.*\d[.,]?\d)/, '$3$2$1');
    return changed(pages, (token) => [token === target ? { ...token, text } : token]);
  },
  'two rows swapped': (pages, roll) => {
    const rows = rowsOf(pages);
    const first = roll(rows.length - 1);
    const [a, b] = [rows[first], rows[first + 1]];
    const y = (row: string | undefined): Token | undefined => pages.flat().find((token) => lineOf(token) === row);
    const [top, bottom] = [y(a), y(b)];
    if (top === undefined || top.page !== bottom?.page) return pages;
    const by = bottom.y - top.y;
    return changed(pages, (token) => [
      lineOf(token) === a ? { ...token, y: token.y + by } : lineOf(token) === b ? { ...token, y: token.y - by } : token,
    ]);
  },
  'a row lost': (pages, roll) => {
    const rows = rowsOf(pages);
    const row = rows[roll(rows.length)];
    return changed(pages, (token) => (lineOf(token) === row ? [] : [token]));
  },
  'a column lost': (pages, roll) => {
    const figures = tokensWith(pages, /\d[.,]\d\d/);
    const target = figures[roll(figures.length)];
    if (target === undefined) return pages;
    const inTable = (token: Token): boolean =>
      token.page === target.page && token.x < target.x + target.width && token.x + token.width > target.x;
    const wide = new Set(
      rowsOf(pages).filter((row) => pages.flat().filter((token) => lineOf(token) === row).length >= 6),
    );
    return changed(pages, (token) => (inTable(token) && wide.has(lineOf(token)) ? [] : [token]));
  },
  'the end cut off': (pages, roll) => {
    const all = pages.flat();
    const last = all[Math.floor(all.length * (0.2 + 0.08 * roll(10)))];
    if (last === undefined) return pages;
    return changed(pages, (token) =>
      token.page < last.page || (token.page === last.page && token.y < last.y) ? [token] : [],
    );
  },
};

/** Which columns the truth carries is told by the truth itself: every field of it is asked for. */
const ASKED = { ...SHEET_FORMS[0], columns: ['no', 'info'], letters: 'suffix', itemised: true } as never;

/** A column of words that is cut through leaves a part of a name, which is held by nothing. */
const NAME = /components\[\d+\]\.name/;

describe.each(Object.entries(SPOILS))('a printed sheet with %s', (name, spoil) => {
  it('has no silent error among the figures that the arithmetic holds', () => {
    const roll = dice(name.length * 104729);
    const silent: string[] = [];
    let spoilt = 0;
    for (let i = 0; i < 150; i++) {
      const sheet = sheets[roll(sheets.length)];
      if (sheet === undefined) continue;
      const pages = spoil(sheet.pages, roll);
      if (JSON.stringify(pages) === JSON.stringify(sheet.pages)) continue;
      spoilt++;
      const reading = read(pages);
      if (reading === undefined) continue;
      const compared = compareSheet(sheet.truth, { ...reading, protocol: withSum(reading) }, ASKED);
      silent.push(
        ...compared.silent
          .filter((message) => isPinned(message, reading, sheet.truth.elements, library) && !NAME.test(message))
          .map((message) => `${sheet.name}: ${message}`),
      );
    }
    expect(spoilt).toBeGreaterThan(50);
    expect(silent).toEqual([]);
  });
});
