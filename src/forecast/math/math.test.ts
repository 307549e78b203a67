import fc from 'fast-check';
import jstat from 'jstat';
import { describe, expect, it } from 'vitest';

import { addWindows, emptySpectrum, inverse, powerOfTwo, spectrumOf } from './fourier.ts';
import { normalNodes } from './hermite.ts';
import { cholesky, solve } from './solve.ts';
import { betaCdf, betaQuantile, logGamma, normalCdf, normalQuantile, studentCdf, studentQuantile } from './special.ts';

const { jStat } = jstat;

const near = (found: number, expected: number, relative: number): void => {
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(relative * Math.max(Math.abs(expected), 1e-12));
};

describe('special functions against a reference library', () => {
  it('normal', () => {
    for (let x = -6; x <= 6; x += 0.37) {
      expect(normalCdf(x)).toBeCloseTo(jStat.normal.cdf(x, 0, 1), 12);
      expect(normalQuantile(normalCdf(x))).toBeCloseTo(x, 8);
    }
    // Tabulated: P(Z > 6) = 9.865876450377e-10, P(Z > 10) = 7.619853024160e-24.
    near(normalCdf(-6), 9.865876450377e-10, 1e-11);
    near(normalCdf(-10), 7.61985302416e-24, 1e-11);
  });

  it('gamma and beta', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 60, noNaN: true }),
        fc.double({ min: 0.3, max: 60, noNaN: true }),
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        (a, b, x) => {
          expect(logGamma(a)).toBeCloseTo(jStat.gammaln(a), 9);
          // The reference stops its fraction at 3e-7.
          expect(betaCdf(x, a, b)).toBeCloseTo(jStat.beta.cdf(x, a, b), 7);
          // Below one the density has a pole at the end, where neighbouring doubles are far apart in chance.
          if (a >= 1 && b >= 1) expect(betaCdf(betaQuantile(x, a, b), a, b)).toBeCloseTo(x, 9);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('beta with whole parameters is a binomial tail', () => {
    // P(Beta(a, b) <= x) = P(Binomial(a + b - 1, x) >= a).
    for (const [a, b, x] of [
      [1, 1, 0.3],
      [2, 5, 0.1],
      [4, 3, 0.62],
      [9, 12, 0.5],
    ] as const) {
      const n = a + b - 1;
      let tail = 0;
      for (let k = a; k <= n; k++) {
        tail += Math.exp(logGamma(n + 1) - logGamma(k + 1) - logGamma(n - k + 1)) * x ** k * (1 - x) ** (n - k);
      }
      expect(betaCdf(x, a, b)).toBeCloseTo(tail, 12);
    }
  });

  it("Student's t", () => {
    for (const df of [1, 2, 3.5, 6, 12, 40, 180]) {
      for (const x of [-8, -2.3, -0.4, 0, 0.9, 3.1, 20]) {
        // The reference itself is good to 4e-9 here (one degree of freedom has a closed form, below).
        expect(studentCdf(x, df)).toBeCloseTo(jStat.studentt.cdf(x, df), 7);
      }
      for (const p of [0.025, 0.1, 0.5, 0.75, 0.9, 0.975]) {
        expect(studentQuantile(p, df)).toBeCloseTo(jStat.studentt.inv(p, df), 5);
      }
    }
    for (const x of [-30, -0.4, 0.01, 2]) {
      expect(studentCdf(x, 1)).toBeCloseTo(0.5 + Math.atan(x) / Math.PI, 13);
      expect(studentCdf(x, 2)).toBeCloseTo(0.5 + x / (2 * Math.sqrt(2 + x * x)), 13);
    }
  });
});

describe('Gauss-Hermite nodes', () => {
  it('integrate the moments of a normal exactly', () => {
    const odd = (k: number): number => (k <= 0 ? 1 : k * odd(k - 2));
    for (const count of [1, 3, 7, 9, 15]) {
      const nodes = normalNodes(count);
      expect(nodes).toHaveLength(count);
      for (let k = 0; k < count; k++) {
        const even = nodes.reduce((sum, n) => sum + n.weight * n.z ** (2 * k), 0);
        near(even, odd(2 * k - 1), 1e-10);
        expect(Math.abs(nodes.reduce((sum, n) => sum + n.weight * n.z, 0))).toBeLessThan(1e-12);
      }
    }
  });
});

describe('transforms', () => {
  it('multiply like the plain product of sequences', () => {
    const short = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 40 });
    fc.assert(
      fc.property(short, short, short, (a, b, c) => {
        const n = powerOfTwo(a.length + b.length + c.length);
        const total = emptySpectrum(n);
        const rest = spectrumOf(Float64Array.from(c), n);
        addWindows(
          total,
          [
            { window: Float64Array.from(a), spectrum: rest },
            { window: Float64Array.from(b), spectrum: rest },
          ],
          0.5,
        );
        inverse(total);
        const plain = new Float64Array(n);
        [a, b].forEach((list) => {
          list.forEach((x, i) => c.forEach((y, j) => (plain[i + j] = (plain[i + j] ?? 0) + 0.5 * x * y)));
        });
        plain.forEach((x, i) => expect(Math.abs((total.re[i] ?? 0) - x)).toBeLessThan(1e-12));
      }),
      { numRuns: 60 },
    );
  });
});

describe('linear equations', () => {
  it('solves a positive definite system', () => {
    const a = [
      [4, 1, 0.5],
      [1, 3, 0.2],
      [0.5, 0.2, 2],
    ];
    const x = solve(cholesky(a), [1, 2, 3]);
    a.forEach((row, i) => expect(row.reduce((sum, v, j) => sum + v * (x[j] ?? 0), 0)).toBeCloseTo(i + 1, 12));
  });
});
