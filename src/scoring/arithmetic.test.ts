import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { percentOf, roundedDivision, sumOrNull } from './arithmetic.ts';

describe('roundedDivision', () => {
  it.each([
    // Contract, Numbers: -0.385 -> -0.39, half away from zero.
    [-385, 10, -39],
    [385, 10, 39],
    [5, 2, 3],
    [-5, 2, -3],
    [4, 3, 1],
    [0, 7, 0],
  ])('%d / %d is %d', (numerator, denominator, result) => expect(roundedDivision(numerator, denominator)).toBe(result));

  it('agrees with a decimal library, ties away from zero', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e9, max: 1e9 }), fc.integer({ min: 1, max: 1000 }), (numerator, denominator) => {
        const exact = new Decimal(numerator).div(denominator).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber();
        expect(roundedDivision(numerator, denominator)).toBe(exact === 0 ? 0 : exact);
      }),
    );
  });
});

describe('percentOf', () => {
  it.each([
    // Comm. 2168 (2018/19), published: 0.50 x 75 % is printed as 0.38.
    [50, 75, 38],
    // Open data 2016-2018: 3A+REP with x, 5.95 x 1.1 = 6.545, printed 6.55.
    [595, 110, 655],
  ])('%d at %d %% is %d', (value, percent, result) => expect(percentOf(value, percent)).toBe(result));
});

describe('sumOrNull', () => {
  it('is null as soon as one part is not known, and 0 for nothing', () => {
    expect(sumOrNull([1, null, 2])).toBeNull();
    expect(sumOrNull([])).toBe(0);
    expect(sumOrNull([1, 2])).toBe(3);
  });
});
