import { describe, expect, it } from 'vitest';
import { storedPriors, type Evidence } from '../../forecast/index.ts';
import { shippedLibrary } from '../../rulebook/index.ts';
import type { Layout } from '../../scoring/index.ts';
import { rulesFor } from '../chosen.ts';
import { entry, inventoryOf, randomJump, seeded } from '../testing/random-inventory.ts';
import { chanceHigher, compare } from './compare.ts';

const HEAD = { season: '2025/26', category: 'senior women', segment: 'free' } as const;
const evidence: Evidence = { history: [], rulesOf: () => null, priors: storedPriors() };

function chosen(layout: Layout) {
  const rules = rulesFor(shippedLibrary(), layout);
  if (!rules.ok) throw new Error(rules.error.advice);
  return rules.value;
}

function compared(a: Layout, b: Layout) {
  const result = compare(a, b, { a: chosen(a), b: chosen(b) }, evidence);
  if (!result.ok) throw new Error(result.error.advice);
  return result.value;
}

describe('comparing two layouts', () => {
  const random = seeded(7);
  const [first, second, third] = [randomJump('3Lz', random), randomJump('3F', random), randomJump('2A', random)];

  it('finds no difference between a layout and itself', () => {
    const layout = inventoryOf([first, third], HEAD);
    const result = compared(layout, layout);
    expect(result.difference).toBe(0);
    expect(result.aBeatsB).toBeCloseTo(0.5, 12);
    expect(result.differences).toEqual([]);
  });

  it('lists only what differs, and the chances of both sides add up to one', () => {
    const a = inventoryOf([third, first], HEAD);
    const b = inventoryOf([third, second], HEAD);
    const there = compared(a, b);
    const back = compared(b, a);
    expect(there.differences.map((d) => `${d.side} ${d.code}`)).toEqual(['a 3Lz', 'b 3F']);
    expect(there.aBeatsB + back.aBeatsB).toBeCloseTo(1, 12);
    expect(there.separateDays + back.separateDays).toBeCloseTo(1, 12);
  });

  it('counts a sure half point as always higher', () => {
    const sure = (code: string, grade: number) => entry(code, [{ p: 1, code, grades: [{ grade, p: 1 }], fall: false }]);
    const result = compared(inventoryOf([sure('3Lz', 1)], HEAD), inventoryOf([sure('3Lz', 0)], HEAD));
    expect(result.aBeatsB).toBe(1);
  });
});

describe('the chance of the higher score', () => {
  it('is the sum over all pairs, ties half', () => {
    const pmf = (from: number, p: readonly number[]) => ({ from, p: Float64Array.from(p) });
    const a = pmf(10, [0.2, 0.3, 0.5]);
    const b = pmf(9, [0.1, 0.4, 0.1, 0.4]);
    let chance = 0;
    a.p.forEach((x, i) => {
      b.p.forEach((y, k) => {
        const difference = 10 + i - (9 + k);
        chance += x * y * (difference > 0 ? 1 : difference === 0 ? 0.5 : 0);
      });
    });
    expect(chanceHigher(a, b)).toBeCloseTo(chance, 12);
  });
});
