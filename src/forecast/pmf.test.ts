import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { placeChances, normalPmf } from './place.ts';
import {
  atomsOf,
  chanceOf,
  convolve,
  cumulative,
  mass,
  mix,
  moments,
  pmfOf,
  quantile,
  trim,
  type Atom,
} from './pmf.ts';

const atoms = fc
  .array(fc.tuple(fc.integer({ min: -50, max: 50 }), fc.double({ min: 0.01, max: 1, noNaN: true })), {
    minLength: 1,
    maxLength: 8,
  })
  .map((list): readonly Atom[] => {
    const total = list.reduce((sum, [, w]) => sum + w, 0);
    return list.map(([points, w]) => ({ points, p: w / total }));
  });

describe('distributions on the hundredths grid', () => {
  it('a sum has the sum of the means and variances, and every pair of values', () => {
    fc.assert(
      fc.property(atoms, atoms, (a, b) => {
        const sum = convolve(pmfOf(a), pmfOf(b));
        expect(mass(sum)).toBeCloseTo(1, 12);
        expect(moments(sum).mean).toBeCloseTo(moments(pmfOf(a)).mean + moments(pmfOf(b)).mean, 9);
        expect(moments(sum).variance).toBeCloseTo(moments(pmfOf(a)).variance + moments(pmfOf(b)).variance, 8);
        const pairs = pmfOf(a.flatMap((x) => b.map((y) => ({ points: x.points + y.points, p: x.p * y.p }))));
        pairs.p.forEach((p, i) => expect(sum.p[pairs.from + i - sum.from] ?? 0).toBeCloseTo(p, 12));
      }),
    );
  });

  it('a quantile is the smallest value whose cumulative chance is at least the level', () => {
    fc.assert(
      fc.property(atoms, fc.double({ min: 0.001, max: 0.999, noNaN: true }), (a, level) => {
        const pmf = pmfOf(a);
        const x = quantile(pmf, level);
        expect(cumulative(pmf, x)).toBeGreaterThanOrEqual(level - 1e-11);
        expect(cumulative(pmf, x - 1)).toBeLessThan(level + 1e-11);
        expect(a.some((atom) => atom.points === x)).toBe(true);
        expect(chanceOf(pmf, x) + cumulative(pmf, x - 1)).toBeCloseTo(1, 12);
      }),
    );
  });

  it('counts a level met up to rounding noise as met', () => {
    const thirds = pmfOf([1, 2, 3].map((points) => ({ points, p: 1 / 3 })));
    expect(quantile(thirds, 2 / 3)).toBe(2);
  });

  it('mixes, trims and lists', () => {
    const mixed = mix([
      { pmf: pmfOf([{ points: 5, p: 1 }]), weight: 0.25 },
      { pmf: pmfOf([{ points: -3, p: 1 }]), weight: 0.75 },
    ]);
    expect(atomsOf(mixed)).toEqual([
      { points: -3, p: 0.75 },
      { points: 5, p: 0.25 },
    ]);
    expect(trim({ from: 10, p: Float64Array.of(0, 0, 1, 0) })).toEqual({ from: 12, p: Float64Array.of(1) });
  });
});

describe('a place against a field', () => {
  it('equals the count over all results of all rivals, ties shared', () => {
    fc.assert(
      fc.property(atoms, atoms, atoms, (own, a, b) => {
        const places = [0, 0, 0];
        for (const x of own) {
          for (const y of a) {
            for (const z of b) {
              const ahead = [y, z].map((r) => (r.points > x.points ? 1 : r.points === x.points ? 0.5 : 0));
              const [q = 0, r = 0] = ahead;
              const p = x.p * y.p * z.p;
              places[0] = (places[0] ?? 0) + p * (1 - q) * (1 - r);
              places[1] = (places[1] ?? 0) + p * (q * (1 - r) + r * (1 - q));
              places[2] = (places[2] ?? 0) + p * q * r;
            }
          }
        }
        placeChances(pmfOf(own), [pmfOf(a), pmfOf(b)]).forEach((p, i) => expect(p).toBeCloseTo(places[i] ?? 0, 10));
      }),
      { numRuns: 50 },
    );
  });

  it('cuts a normal rival into hundredths', () => {
    const { mean, sd } = moments(normalPmf(52.4, 4));
    expect(mean / 100).toBeCloseTo(52.4, 3);
    expect(sd / 100).toBeCloseTo(4, 3);
    expect(normalPmf(50, 0)).toEqual({ from: 5000, p: Float64Array.of(1) });
  });
});
