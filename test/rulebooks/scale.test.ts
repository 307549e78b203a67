import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import { shippedLibrary, type Rulebook, type ValueRow } from '../../src/rulebook/index.ts';

/** The scale of values against the check tables of test/facts (each row with its source and mark). */

const library = shippedLibrary();
const rulebook = (id: string): Rulebook => {
  const found = library.rulebook(id);
  if (!found) throw new Error(`no rulebook ${id}`);
  return found;
};
const table = (name: string): Record<string, string>[] =>
  parse(readFileSync(`test/facts/${name}`, 'utf8'), { columns: true });

const rowOf = (id: string, code: string): ValueRow => {
  const row = rulebook(id).row(code);
  if (!row) throw new Error(`${id} has no row ${code}`);
  return row;
};
const hundredths = (text: string): number => new Decimal(text).times(100).toNumber();
/** Half away from zero, as the printed tables round. */
const percent = (amount: Decimal.Value, part: number): number =>
  new Decimal(amount).times(part).div(100).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber() + 0;

const SEASONS: Readonly<Record<string, readonly string[]>> = {
  '2016/17': ['isu/2016-17'],
  '2017/18': ['isu/2017-18'],
  '2018/19': ['isu/2018-19'],
  '2019/20-2021/22': ['isu/2019-20', 'isu/2020-21', 'isu/2021-22'],
  '2022/23-2023/24': ['isu/2022-23', 'isu/2023-24'],
  '2024/25-2025/26': ['isu/2024-25', 'isu/2025-26'],
  '2026/27': ['isu/2026-27'],
};

describe('rows from 2018/19 on', () => {
  const rows = table('scale-of-values-2018.csv');
  it.each(Object.keys(SEASONS).slice(2))('every base value of %s, with its mark', (season) => {
    const wanted = rows.filter((row) => row.season === season);
    expect(wanted.length).toBeGreaterThan(0);
    for (const id of SEASONS[season] ?? []) {
      for (const { code = '', base = '', mark, source = '' } of wanted) {
        const row = rowOf(id, code);
        expect([code, row.base]).toEqual([code, base === '' ? null : hundredths(base)]);
        // 2026/27 words the missing value of ChSp1 more briefly.
        expect([code, row.citation.status]).toEqual([code, mark]);
        if (season !== '2026/27') expect(row.citation.source).toBe(source);
      }
    }
  });

  it('every listed row has its grades: 10 % each, ChSq1 0.50 each', () => {
    for (const { season = '', code = '', base = '', rule } of rows.filter((row) => row.base !== '')) {
      for (const id of SEASONS[season] ?? []) {
        const step = rule === 'choreo0.5' ? (g: number) => 50 * g : (g: number) => percent(hundredths(base), 10 * g);
        expect([code, rowOf(id, code).grades]).toEqual([code, [-5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5].map(step)]);
      }
    }
  });

  it('every derived row is the rounded percentage, its grades 10 % of the rounded value', () => {
    const signs = (id: string): Record<string, number> =>
      id === 'isu/2018-19' ? { '<': 75, e: 75, 'e<': 60, V: 75 } : { '<': 80, e: 80, 'e<': 60, V: 75 };
    let checked = 0;
    for (const { season = '', code = '', base = '' } of rows.filter((row) => row.base !== '')) {
      for (const id of SEASONS[season] ?? []) {
        for (const [sign, part] of Object.entries(signs(id))) {
          const row = rulebook(id).row(`${code}${sign}`);
          const applies =
            sign === 'V' ? /Sp[B1-4]$/.test(code) : sign === '<' ? /^\d/.test(code) : /^\d(F|Lz)$/.test(code);
          expect([id, code, sign, row !== undefined]).toEqual([id, code, sign, applies]);
          if (!row) continue;
          const value = percent(hundredths(base), part);
          expect([code, sign, row.base]).toEqual([code, sign, value]);
          expect(row.grades).toEqual([-5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5].map((g) => percent(value, 10 * g)));
          checked += 1;
        }
      }
    }
    expect(checked).toBeGreaterThan(1000);
  });
});

describe('rows of 2016/17 and 2017/18, recovered from open data', () => {
  const rows = table('scale-of-values-2016.csv');
  it.each(['2016/17', '2017/18'])('every row of %s', (season) => {
    for (const { code = '', base = '', mark, from_memory: cells, ...grades } of rows.filter(
      (r) => r.season === season,
    )) {
      const row = rowOf(SEASONS[season]?.[0] ?? '', code);
      expect([code, row.base]).toEqual([code, hundredths(base)]);
      expect([code, row.citation.status]).toEqual([code, mark]);
      if (grades.minus3 === '') {
        expect(row.grades).toEqual([0, 0, 0, 0, 0, 0, 0]);
        continue;
      }
      const { minus3 = '', minus2 = '', minus1 = '', plus1 = '', plus2 = '', plus3 = '' } = grades;
      const printed = [minus3, minus2, minus1, '0', plus1, plus2, plus3].map(hundredths);
      expect([code, row.grades]).toEqual([code, printed]);
      // A row with a cell from memory must not claim more for its grades.
      if (cells !== '') expect([code, row.gradesCitation?.status]).toEqual([code, 'memory']);
    }
  });

  it('says that a row is not known instead of guessing one', () => {
    for (const code of ['2S<', '4A', '2Fe<', 'USpB', 'CSSp3V', 'FCSp4V2', 'StSqB']) {
      expect([code, rowOf('isu/2016-17', code).base]).toEqual([code, null]);
      expect(rowOf('isu/2016-17', code).grades).toBeNull();
    }
  });
});

/** Facts in words: source and mark beside each figure. */
const WORDS: readonly [id: string, code: string, base: number, grades: string, source: string, mark: string][] = [
  ['isu/2018-19', '1T<', 30, '-5:-15 +1:3 +5:15', 'ISU Comm. 2168, table read', 'published'],
  ['isu/2018-19', '1Lz<', 45, '+1:5 +2:9 +3:14 +4:18 +5:23', 'ISU Comm. 2168, table read', 'published'],
  ['isu/2018-19', '1Lze', 45, '-1:-5 -5:-23', 'ISU Comm. 2168, table read', 'published'],
  ['isu/2018-19', '1Lze<', 36, '', 'ISU Comm. 2168, table read', 'published'],
  ['isu/2018-19', '1Lo<', 38, '', 'ISU Comm. 2168, table read', 'published'],
  ['isu/2018-19', '1Eu<', 38, '', 'ISU Comm. 2168, table read', 'published'],
  ['isu/2018-19', '3F<', 398, '', 'ISU Comm. 2176', 'published'],
  ['isu/2023-24', 'StSq3', 330, '-5:-165', 'Japanese rules article for 2023/24', 'published'],
  ['isu/2023-24', 'StSq4', 390, '+5:195', 'Japanese rules article for 2023/24', 'published'],
  ['isu/2023-24', '3Lz<', 472, '+1:47 +2:94 +3:142 +4:189 +5:236', 'worked number', 'memory'],
  ['isu/2023-24', '3Fe', 424, '', 'worked number', 'memory'],
  ['isu/2023-24', '3Lze<', 354, '', 'worked number', 'memory'],
  ['isu/2023-24', 'CCoSp4V', 263, '', 'worked number', 'memory'],
  ['isu/2023-24', 'CCoSp3V', 225, '', 'worked number', 'memory'],
  ['isu/2023-24', 'CCoSp2V', 188, '', 'worked number', 'memory'],
  ['isu/2023-24', 'FCSp4V', 240, '', 'worked number', 'memory'],
  ['isu/2023-24', 'CSSp4V', 225, '', 'worked number', 'memory'],
  ['isu/2023-24', 'ChSq1', 300, '+3:150', 'worked number', 'memory'],
  ['isu/2024-25', '5Lz', 1400, '+5:700', 'ISU Comm. 2656 as reported', 'published'],
  ['isu/2025-26', '1Eu', 50, '', 'inferred and from memory', 'memory'],
  ['isu/2016-17', '4Lz<<', 600, '-3:-210', 'open data', 'published'],
  ['isu/2016-17', '3Lze<<', 150, '', 'open data', 'published'],
];

describe('figures stated in words', () => {
  it.each(WORDS)('%s %s is %d (%s; %s, %s)', (id, code, base, grades, _source, mark) => {
    const row = rowOf(id, code);
    expect(row.base).toBe(base);
    expect(row.citation.status).toBe(mark);
    const lowest = rulebook(id).values.goe.min;
    for (const cell of grades.split(' ').filter((text) => text !== '')) {
      const [grade = '', points = ''] = cell.split(':');
      expect([cell, row.grades?.[Number(grade) - lowest]]).toEqual([cell, Number(points)]);
    }
  });
});

describe('which rows there are', () => {
  it('values a downgraded jump as the one with a turn less, a downgraded single as nothing', () => {
    const [lower, down] = [rowOf('isu/2023-24', '2Lz'), rowOf('isu/2023-24', '3Lz<<')];
    expect([down.base, down.grades]).toEqual([lower.base, lower.grades]);
    expect(rowOf('isu/2023-24', '3Lze<<').base).toBe(rowOf('isu/2023-24', '2Lze').base);
    expect(rowOf('isu/2023-24', '1Lo<<')).toMatchObject({ base: 0, grades: [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0] });
    expect(rowOf('isu/2016-17', '4F<<').base).toBe(rowOf('isu/2016-17', '3F').base);
  });

  it('knows what is without value and what does not exist', () => {
    for (const code of ['A', 'Lz', 'CSSp', 'FCCoSp', 'StSq', 'ChSq']) expect(rowOf('isu/2023-24', code).base).toBe(0);
    for (const code of ['5T', '6T', '5A', '3Tee', 'XSp4', 'StSq5', 'ChSq2', '', '3']) {
      expect([code, rulebook('isu/2023-24').row(code)]).toEqual([code, undefined]);
    }
    expect(rulebook('isu/2025-26').row('5A')).toBeUndefined();
    expect(rowOf('isu/2026-27', 'ChSp1')).toMatchObject({ base: null, grades: null });
  });

  it('reads other spellings of a row: calls that change no value, the order of edge and rotation', () => {
    expect(rulebook('isu/2023-24').row('3Lz!')?.code).toBe('3Lz');
    expect(rulebook('isu/2023-24').row('3Fq')?.code).toBe('3F');
    expect(rulebook('isu/2023-24').row('3F<e')?.code).toBe('3Fe<');
    expect(rulebook('isu/2023-24').row('CCoSp3V1')?.code).toBe('CCoSp3V');
  });
});
