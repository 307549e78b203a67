import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { largestRemainder, shapleyShares } from './shapley.ts';

/** All orders of 0…n-1. */
function orders(n: number): number[][] {
  if (n === 0) return [[]];
  return orders(n - 1).flatMap((order) =>
    Array.from({ length: n }, (_, place) => [...order.slice(0, place), n - 1, ...order.slice(place)]),
  );
}

/** Mean marginal contribution over all orders, times n!, straight from the definition. */
function bruteForce(n: number, v: (set: number) => number): number[] {
  const sums = Array.from({ length: n }, () => 0);
  for (const order of orders(n)) {
    let set = 0;
    for (const player of order) {
      const next = set | (1 << player);
      sums[player] = (sums[player] ?? 0) + v(next) - v(set);
      set = next;
    }
  }
  return sums;
}

const factorial = (n: number): number => (n <= 1 ? 1 : n * factorial(n - 1));

const games = fc.integer({ min: 1, max: 6 }).chain((n) =>
  fc.record({
    n: fc.constant(n),
    values: fc.array(fc.integer({ min: -2000, max: 2000 }), { minLength: 64, maxLength: 64 }),
  }),
);

describe('shares of the causes', () => {
  it('are the mean over all orders, each within a hundredth', () => {
    fc.assert(
      fc.property(games, ({ n, values }) => {
        const v = (set: number) => values[set] ?? 0;
        const brute = bruteForce(n, v);
        shapleyShares(n, v).forEach((share, i) => {
          expect(Math.abs(share * factorial(n) - (brute[i] ?? NaN))).toBeLessThan(factorial(n));
        });
      }),
      { numRuns: 200 },
    );
  });

  it('are rounded as the definition of largest remainder says, from the brute-force shares', () => {
    fc.assert(
      fc.property(games, ({ n, values }) => {
        const v = (set: number) => values[set] ?? 0;
        const brute = bruteForce(n, v).map((share) => share / factorial(n));
        const floors = brute.map((share) => Math.floor(share + 1e-9));
        const order = brute
          .map((share, i) => ({ i, rest: Math.round((share - (floors[i] ?? 0)) * 1e6) }))
          .sort((a, b) => b.rest - a.rest || a.i - b.i);
        const missing = v((1 << n) - 1) - v(0) - floors.reduce((a, b) => a + b, 0);
        const raised = order.slice(0, missing).map((one) => one.i);
        expect(shapleyShares(n, v)).toEqual(floors.map((share, i) => share + (raised.includes(i) ? 1 : 0)));
      }),
      { numRuns: 200 },
    );
  });

  it('add up to the whole difference', () => {
    fc.assert(
      fc.property(games, ({ n, values }) => {
        const v = (set: number) => values[set] ?? 0;
        const sum = shapleyShares(n, v).reduce((a, b) => a + b, 0);
        expect(sum).toBe(v((1 << n) - 1) - v(0));
      }),
    );
  });

  it('do not depend on the order of the causes, up to the hundredth that rounding places', () => {
    fc.assert(
      fc.property(games, ({ n, values }) => {
        const v = (set: number) => values[set] ?? 0;
        const mirrored = (set: number) =>
          v(Array.from({ length: n }, (_, i) => ((set >> i) & 1) << (n - 1 - i)).reduce((a, b) => a | b, 0));
        const there = shapleyShares(n, v);
        const back = shapleyShares(n, mirrored).reverse();
        there.forEach((share, i) => expect(Math.abs(share - (back[i] ?? NaN))).toBeLessThanOrEqual(1));
      }),
    );
  });

  it('give nothing to a cause that never changes the score', () => {
    fc.assert(
      fc.property(games, fc.nat({ max: 5 }), ({ n, values }, which) => {
        const idle = which % n;
        const v = (set: number) => values[set & ~(1 << idle)] ?? 0;
        expect(shapleyShares(n, v)[idle]).toBe(0);
      }),
    );
  });

  it('treat causes alike that act alike', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -500, max: 500 }), { minLength: 7, maxLength: 7 }), (bySize) => {
        const v = (set: number) => bySize[[0, 1, 2, 3, 4, 5].filter((i) => (set >> i) & 1).length] ?? 0;
        const shares = shapleyShares(6, v);
        expect(Math.max(...shares) - Math.min(...shares)).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('two causes are half the sum of both orders, the odd hundredth to the earlier', () => {
    // v: none 500, first alone 400, second alone 377, both 300: exact shares -88.5 and -111.5.
    const v = (set: number) => [500, 400, 377, 300][set] ?? 0;
    expect(shapleyShares(2, v)).toEqual([-88, -112]);
  });

  it('no causes, no shares', () => expect(shapleyShares(0, () => 0)).toEqual([]));
});

it('largest remainder floors towards minus infinity and favours the earlier on ties', () => {
  expect(largestRemainder([-15, -15], 10, -3)).toEqual([-1, -2]);
  expect(largestRemainder([7, 7, 6], 10, 2)).toEqual([1, 1, 0]);
});
