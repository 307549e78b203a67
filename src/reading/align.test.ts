import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { align, type Pair } from './align.ts';

const costs = { pair: (a: number, b: number) => Math.abs(a - b), alone: 3 };

const costOf = (pairs: readonly Pair<number, number>[]): number =>
  pairs.reduce(
    (sum, { left, right }) => sum + (left === null || right === null ? costs.alone : costs.pair(left, right)),
    0,
  );

/** Cheapest alignment by trying every way to go on. */
function cheapest(left: readonly number[], right: readonly number[]): number {
  const [a, ...restA] = left;
  const [b, ...restB] = right;
  if (a === undefined || b === undefined) return (left.length + right.length) * costs.alone;
  return Math.min(
    costs.pair(a, b) + cheapest(restA, restB),
    costs.alone + cheapest(restA, right),
    costs.alone + cheapest(left, restB),
  );
}

const lists = fc.array(fc.integer({ min: 0, max: 9 }), { maxLength: 6 });

describe('alignment', () => {
  it('costs what trying all ways finds', () => {
    fc.assert(
      fc.property(lists, lists, (left, right) => {
        expect(costOf(align(left, right, costs))).toBe(cheapest(left, right));
      }),
    );
  });

  it('keeps both lists whole and in order', () => {
    fc.assert(
      fc.property(lists, lists, (left, right) => {
        const pairs = align(left, right, costs);
        expect(pairs.flatMap((pair) => (pair.left === null ? [] : [pair.left]))).toEqual(left);
        expect(pairs.flatMap((pair) => (pair.right === null ? [] : [pair.right]))).toEqual(right);
      }),
    );
  });

  it('pairs lists longer than any program by place, and forbids what cannot be', () => {
    const long = Array.from({ length: 3000 }, (_, i) => i);
    const pairs = align(long, [...long, 7], { pair: (a) => (a === 5 ? Infinity : 0), alone: 3 });
    expect(pairs).toHaveLength(3002);
    expect(pairs.slice(5, 7)).toEqual([
      { left: 5, right: null },
      { left: null, right: 5 },
    ]);
  });

  it('pairs equal lists one to one', () => {
    expect(align([1, 2, 2], [1, 2, 2], costs)).toEqual([1, 2, 2].map((n) => ({ left: n, right: n })));
  });
});
