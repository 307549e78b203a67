import { describe, expect, it } from 'vitest';

import { elementValue } from './element-value.ts';
import { elementOf, rulebookOf } from './testing/rules.ts';

const computed = 'computed from the rules, no document';

/** Worked base values: season, code, second half, hundredths, source with its mark. */
const WORKED: readonly (readonly [season: string, code: string, half: boolean, base: number, source: string])[] = [
  // Second half, repeat, sequence
  ['2021/22', '3Lz<+3T', true, 981, computed],
  ['2019/20', '3Lz+REP', false, 413, computed],
  ['2019/20', '3Lz+REP', true, 454, computed],
  ['2021/22', '3Lz+2A+SEQ', false, 736, computed],
  ['2021/22', '3Lz+2A+SEQ', true, 810, computed],
  ['2022/23', '3Lz+2A+SEQ', true, 1012, computed],
  ['2018/19', '3T+2A+SEQ', false, 600, 'forum example, (4.20 + 3.30) x 0.8; published'],
  ['2024/25', '4Lz+1Eu+3F', false, 1730, 'from memory of protocols'],
  ['2024/25', '4Lz+1Eu+3F', true, 1903, 'from memory of protocols'],
  ['2018/19', '4T+REP', false, 665, 'from memory'],
  // Calls
  ['2018/19', '3F<', false, 398, 'Comm. 2176, published'],
  ['2018/19', '1T<', false, 30, 'Comm. 2168, published'],
  ['2018/19', '1Lo<', false, 38, 'Comm. 2168, published'],
  ['2018/19', '1Lz<', false, 45, 'Comm. 2168, published'],
  ['2018/19', '1Lze', false, 45, 'Comm. 2168, published'],
  ['2018/19', '1Lze<', false, 36, 'Comm. 2168, published'],
  ['2019/20', '3Lz<', false, 472, 'column of May 2020 (80 %), published'],
  ['2019/20', '3Fe', false, 424, 'from memory'],
  ['2019/20', '3Lze<', false, 354, 'from memory'],
  ['2022/23', '3Lzq', false, 590, 'q leaves the base value: column of May 2020, published'],
  ['2022/23', '3Lz!', false, 590, 'from memory'],
  ['2022/23', '3Lz<<', false, 210, 'one turn less: rules page, published'],
  ['2022/23', '1T<<', false, 0, 'a downgraded single has no value: from memory'],
  ['2022/23', '2A+1T<<', false, 330, 'from memory'],
  // Spins
  ['2019/20', 'CCoSp4V', false, 263, 'from memory'],
  ['2019/20', 'CCoSp2V', false, 188, 'from memory'],
  ['2019/20', 'FCSp4V', false, 240, 'from memory'],
  ['2023/24', 'CCoSp3V', false, 225, 'common practice, no source (levels G)'],
  ['2023/24', 'StSq2', false, 260, 'step table 2023/24, published'],
  ['2024/25', '5T', false, 1400, 'summary of Comm. 2656, published'],
  // Open data 2016-2018 (protocols, counted in facts)
  ['2016/17', '3A+SEQ+2T*', true, 748, 'open data'],
  ['2016/17', '3T+2A+SEQ', true, 669, 'open data'],
  ['2016/17', '3A+REP', true, 655, 'open data'],
  ['2016/17', '4T+REP', true, 793, 'open data'],
  ['2016/17', '4T<+REP', false, 560, 'open data'],
  ['2016/17', '3F<<+REP', true, 146, 'open data'],
  ['2016/17', '2A+3T*+REP', true, 254, 'open data'],
  ['2016/17', '2S+2T*', false, 130, 'open data'],
  ['2016/17', '3Lo*+2T+2Lo', true, 341, 'open data'],
  ['2016/17', '2A*+1Lo', true, 55, 'open data'],
  ['2016/17', '4Lz+COMBO', false, 1360, 'open data'],
  ['2016/17', '3F+COMBO+2T*', false, 530, 'open data'],
  ['2016/17', 'CCoSp4V', false, 300, 'open data'],
  ['2016/17', 'CCoSp1V', false, 170, 'open data'],
];

describe('base value of an element', () => {
  it.each(WORKED)('%s %s (second half: %s) is %d hundredths: %s', (season, code, half, base) => {
    expect(elementValue(rulebookOf(season), elementOf(code), { half }).base).toBe(base);
  });

  it.each(['1A*', 'A', 'Lz', 'StSq', 'CCoSp', 'ChSq', 'FCCoSp4V*', '1Lo<<', '3Lz*+COMBO'])(
    '%s has no value: 0, and no row',
    (code) => {
      expect(elementValue(rulebookOf('2017/18'), elementOf(code), { half: true })).toMatchObject({
        base: 0,
        row: null,
        hasValue: false,
      });
    },
  );

  it('is not known where the season lists no such element, and never 0', () => {
    const value = elementValue(rulebookOf('2019/20'), elementOf('5T+2T'));
    expect(value).toMatchObject({ base: null, row: null, hasValue: true, unknown: ['5T'] });
  });

  it('leaves second half and steps apart: the factor is for jump elements', () => {
    expect(elementValue(rulebookOf('2022/23'), elementOf('CCoSp4'), { half: true }).base).toBe(350);
  });
});

describe('row of the grades of execution', () => {
  it.each([
    // Comm. 2176 as corrected, published: clean 3T 4.2 counts as harder than 3F< 3.98.
    ['2018/19', '3F<+3T', '3T'],
    // From 2019/20, 80 % (published for 2019/20): 3F< is 4.24.
    ['2019/20', '3F<+3T', '3F<'],
    // Open data: the row does not change with +REP, nor by a struck-out jump.
    ['2016/17', '3F<<+REP', '2F'],
    ['2016/17', '2S+2T*', '2S'],
    ['2016/17', '3T+2A+SEQ', '3T'],
  ])('%s %s takes the row of %s', (season, code, row) => {
    const rulebook = rulebookOf(season);
    const { grades } = rulebook.row(row) ?? { grades: undefined };
    expect(elementValue(rulebook, elementOf(code)).row?.grades).toEqual(grades);
    expect(elementValue(rulebook, elementOf(code)).row?.code).toBe(row);
  });
});
