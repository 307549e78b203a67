import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { panelMean } from './panel.ts';

const panel = { trimFrom: 5, drop: 1 };
const marks = fc.array(fc.integer({ min: -500, max: 1000 }), { minLength: 1, maxLength: 12 });

/** The same by a decimal library: sort, cut, mean, two decimals half away from zero. */
function byDecimals(values: readonly number[], drop: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const kept = values.length >= 5 ? sorted.slice(drop, sorted.length - drop) : sorted;
  const sum = kept.reduce((total, value) => total.plus(value), new Decimal(0));
  return sum.div(kept.length).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber() + 0;
}

describe('panelMean', () => {
  it('agrees with a decimal library for one dropped at each end', () => {
    fc.assert(
      fc.property(marks, (values) => {
        expect(panelMean(values, panel)).toBe(byDecimals(values, 1));
      }),
    );
  });

  it('agrees with a decimal library for two dropped at each end', () => {
    fc.assert(
      fc.property(marks, (values) => {
        expect(panelMean(values, { trimFrom: 5, drop: 2 })).toBe(byDecimals(values, 2));
      }),
    );
  });

  it('does not depend on the order of the judges, nor on places without a mark', () => {
    fc.assert(
      fc.property(marks, fc.nat(), (values, turn) => {
        const k = turn % values.length;
        const turned: (number | null)[] = [...values.slice(k), null, ...values.slice(0, k)];
        expect(panelMean(turned, panel)).toBe(panelMean(values, panel));
      }),
    );
  });

  it('never falls when a mark rises', () => {
    fc.assert(
      fc.property(marks, fc.nat(), fc.integer({ min: 1, max: 300 }), (values, which, more) => {
        const raised = values.map((value, i) => (i === which % values.length ? value + more : value));
        expect(panelMean(raised, panel)).toBeGreaterThanOrEqual(panelMean(values, panel) ?? 0);
      }),
    );
  });

  it('averages all marks of a small panel, and keeps what dropping would empty', () => {
    expect(panelMean([100, 200, 400, 500], panel)).toBe(300);
    expect(panelMean([100, null, 200, 400, 500], panel)).toBe(300);
    expect(panelMean([100, 200], { trimFrom: 2, drop: 1 })).toBe(150);
  });

  it('is null without any mark', () => {
    expect(panelMean([], panel)).toBeNull();
    expect(panelMean([null, null], panel)).toBeNull();
  });
});
