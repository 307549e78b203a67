import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import type { ValueRow } from '../rulebook/index.ts';
import { goeByMeanGrade, goeOfGrade, goeOfMarks, pointsOfGrade } from './goe.ts';
import { rulebookOf } from './testing/rules.ts';

const panel = { trimFrom: 5, drop: 1 };

function rowOf(season: string, code: string): ValueRow {
  const row = rulebookOf(season).row(code);
  if (row === undefined) throw new Error(code);
  return row;
}

describe('points of a grade', () => {
  it.each([
    // Comm. 2168 (2018/19), published: steps of 1Lz<.
    ['2018/19', '1Lz<', [5, 9, 14, 18, 23]],
    // Facts, scoring 2: 10 % of 4.72 by single steps; computed.
    ['2019/20', '3Lz<', [47, 94, 142, 189, 236]],
    // Step table 2023/24, published: StSq4 3.90 + 1.95 = 5.85.
    ['2023/24', 'StSq4', [39, 78, 117, 156, 195]],
    // Article updated for 2018, published: each step 0.50.
    ['2019/20', 'ChSq1', [50, 100, 150, 200, 250]],
    // Recovered from open data 2016-2018 (+3 from memory): quads are uneven, -4.0 to +3.0.
    ['2016/17', '4T', [100, 200, 300]],
  ])('%s %s: +1 … make %j', (season, code, steps) => {
    const row = rowOf(season, code);
    expect(steps.map((_, i) => pointsOfGrade(row, i + 1))).toEqual(steps);
    expect(pointsOfGrade(row, 0)).toBe(0);
    expect(pointsOfGrade(row, steps.length + 1)).toBeNull();
  });

  it('is negative and rounded away from zero below 0', () => {
    expect(pointsOfGrade(rowOf('2019/20', '3Lz<'), -3)).toBe(-142);
    // From memory, 2018 onward: 4T with -5 loses 4.75.
    expect(pointsOfGrade(rowOf('2018/19', '4T'), -5)).toBe(-475);
    // Step table 2023/24, published: StSq3 from -1.65.
    expect(pointsOfGrade(rowOf('2023/24', 'StSq3'), -5)).toBe(-165);
  });
});

describe('grade of execution of a panel', () => {
  it('drops one 2 and the 4 of a protocol of November 2018 (blog, published): 2.83, not 2.93', () => {
    expect(goeOfMarks(rowOf('2018/19', '4F'), [2, 3, 2, 3, 2, 2, 3, 3, 4], panel)).toBe(283);
  });

  it('converts each grade first (open data: quads of 2016-2018 prove it)', () => {
    const marks = [-3, -3, -2, -3, -2, -3, -3, -2, -3];
    // Kept: five of -3 (-4.0), two of -2 (-2.4): -24.8 / 7.
    expect(goeOfMarks(rowOf('2016/17', '4T'), marks, panel)).toBe(-354);
    const mixed = [-1, 0, 1, 0, -1, 1, 0, 1, 0];
    expect(goeOfMarks(rowOf('2016/17', '4T'), mixed, panel)).toBe(11);
    expect(goeByMeanGrade(rowOf('2016/17', '4T'), mixed, panel)).toEqual([14]);
  });

  it('is null for a mark off the scale, no mark at all, or a row without points', () => {
    const row = rowOf('2019/20', '3T');
    expect(goeOfMarks(row, [1, 7, 1], panel)).toBeNull();
    expect(goeOfMarks(row, [null, null], panel)).toBeNull();
    expect(goeOfMarks({ ...row, grades: null }, [1, 1], panel)).toBeNull();
  });

  it('never falls when a judge gives more', () => {
    const rows = ['3Lz<', 'CCoSp3V', 'ChSq1', '4T', 'StSq2'].map((code) => rowOf('2022/23', code));
    fc.assert(
      fc.property(
        fc.constantFrom(...rows),
        fc.array(fc.integer({ min: -5, max: 4 }), { minLength: 1, maxLength: 9 }),
        fc.nat(),
        (row, marks, which) => {
          const raised = marks.map((mark, i) => (i === which % marks.length ? mark + 1 : mark));
          expect(goeOfMarks(row, raised, panel)).toBeGreaterThanOrEqual(goeOfMarks(row, marks, panel) ?? 0);
        },
      ),
    );
  });
});

describe('points of a fractional grade', () => {
  it('lie between the rounded points of the neighbours, rounded half away from zero', () => {
    const row = rowOf('2019/20', '3Lz<');
    expect(goeOfGrade(row, 1.5)).toBe(71);
    expect(goeOfGrade(row, -1.5)).toBe(-71);
    expect(goeOfGrade(row, 2.5)).toBe(118);
    expect(goeOfGrade(row, -5)).toBe(-236);
    expect(goeOfGrade(row, 5)).toBe(236);
    expect(goeOfGrade(row, 5.1)).toBeNull();
    // Computed in facts: ChSq1 with mean grade 3.00 scores 3.00 + 1.50.
    expect(goeOfGrade(rowOf('2019/20', 'ChSq1'), 3)).toBe(150);
  });

  it('agree with a decimal library and never fall with the grade', () => {
    const row = rowOf('2022/23', '3F<');
    fc.assert(
      fc.property(fc.integer({ min: -5000, max: 4999 }), (thousandths) => {
        const grade = thousandths / 1000;
        const below = Math.floor(thousandths / 1000);
        const low = new Decimal(pointsOfGrade(row, below) ?? NaN);
        const high = new Decimal(pointsOfGrade(row, below + 1) ?? NaN);
        const share = new Decimal(thousandths).div(1000).minus(below);
        const exact = low.plus(high.minus(low).times(share)).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber() + 0;
        expect(goeOfGrade(row, grade)).toBe(exact);
        expect(goeOfGrade(row, (thousandths + 1) / 1000)).toBeGreaterThanOrEqual(exact);
      }),
    );
  });
});
