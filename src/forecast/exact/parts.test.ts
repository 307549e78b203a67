import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { componentPoints } from '../../scoring/index.ts';
import { normalNodes } from '../math/hermite.ts';
import { normalPdf } from '../math/special.ts';
import { mass, moments } from '../pmf.ts';
import { componentScore } from './components.ts';
import { formCorrelation, tilt } from './day-form.ts';

const RANGE = { min: 25, max: 1000 };

describe('component score', () => {
  it('is one value without spread, rounded as scoring rounds', () => {
    // 5.125 -> 5.13 (half up); 5.13 x 1.33 = 6.8229 -> 6.82; 6.00 x 1.33 = 7.98.
    const pmf = componentScore(
      [
        { name: 'a', mean: 5.125, sd: 0, factor: 133 },
        { name: 'b', mean: 6, sd: 0, factor: 133 },
      ],
      RANGE,
    );
    expect([pmf.from, [...pmf.p]]).toEqual([682 + 798, [1]]);
    expect(componentScore([], RANGE)).toEqual({ from: 0, p: Float64Array.of(1) });
  });

  it('agrees with a fine numerical integral over the one draw that moves all components', () => {
    const parts = [
      { name: 'a', mean: 7.25, sd: 0.3, factor: 267 },
      { name: 'b', mean: 6.5, sd: 0.2, factor: 267 },
      { name: 'c', mean: 9.8, sd: 0.3, factor: 267 },
    ];
    const pmf = componentScore(parts, RANGE);
    expect(mass(pmf)).toBeCloseTo(1, 12);
    let mean = 0;
    let square = 0;
    const step = 0.0005;
    for (let u = -8; u <= 8; u += step) {
      const total = parts.reduce((sum, part) => {
        const mark = Math.min(1000, Math.max(25, Math.round((part.mean + part.sd * u) * 100)));
        return sum + (componentPoints(mark, part.factor) ?? 0);
      }, 0);
      mean += step * normalPdf(u) * total;
      square += step * normalPdf(u) * total * total;
    }
    const found = moments(pmf);
    expect(found.mean).toBeCloseTo(mean, 1);
    expect(found.sd).toBeCloseTo(Math.sqrt(square - mean * mean), 1);
  });
});

describe('form of the day', () => {
  const outcomes = fc
    .array(fc.tuple(fc.integer({ min: -200, max: 900 }), fc.double({ min: 0.01, max: 1, noNaN: true })), {
      minLength: 1,
      maxLength: 12,
    })
    .map((list) => {
      const total = list.reduce((sum, [, w]) => sum + w, 0);
      return list.map(([value, w]) => ({ value, p: w / total }));
    });

  it('keeps every outcome’s probability on average over the nodes, and every node whole', () => {
    fc.assert(
      fc.property(outcomes, fc.double({ min: 0, max: 0.9, noNaN: true }), (list, rho) => {
        const nodes = normalNodes(7);
        const rows = tilt(list, rho, nodes);
        for (const row of rows) expect(row.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 11);
        list.forEach(({ p }, i) => {
          expect(nodes.reduce((sum, n, k) => sum + n.weight * (rows[k]?.[i] ?? 0), 0)).toBeCloseTo(p, 9);
        });
      }),
      { numRuns: 60 },
    );
  });

  it('gives better outcomes better chances on better days', () => {
    const list = [
      { value: 0, p: 0.3 },
      { value: 500, p: 0.7 },
    ];
    const success = tilt(list, 0.5, normalNodes(7)).map((row) => row[1] ?? 0);
    expect([...success]).toEqual([...success].sort((a, b) => a - b));
    expect(success.at(-1)).toBeGreaterThan(success[0] ?? 1);
  });

  it('moves an element by the spread of the day in grades, as far as its own spread allows', () => {
    expect(formCorrelation(0, 50, 100)).toBe(0);
    expect(formCorrelation(0.5, 50, 100)).toBeCloseTo(0.25);
    expect(formCorrelation(10, 50, 100)).toBe(0.9);
    expect(formCorrelation(0.5, 50, 0)).toBe(0);
  });
});
