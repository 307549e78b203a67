import { describe, expect, it } from 'vitest';
import { storedPriors, type Evidence } from '../../forecast/index.ts';
import { shippedLibrary } from '../../rulebook/index.ts';
import type { Layout } from '../../scoring/index.ts';
import { rulesFor } from '../chosen.ts';
import { entry, inventoryOf, randomJump, seeded } from '../testing/random-inventory.ts';
import { chanceHigher, compare } from './compare.ts';
import { compareText } from './show.ts';

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

const sure = (code: string, grade = 0) => entry(code, [{ p: 1, code, grades: [{ grade, p: 1 }], fall: false }]);

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
    const result = compared(inventoryOf([sure('3Lz', 1)], HEAD), inventoryOf([sure('3Lz', 0)], HEAD));
    expect(result.aBeatsB).toBe(1);
  });
});

describe('components in a comparison', () => {
  const elements = [sure('3Lz'), sure('2A')];
  const marks = (mean: number) =>
    ['Composition', 'Presentation', 'Skating Skills'].map((name) => ({ name, factor: null, mean, sd: 0.2 }));
  const layout = (components: Layout['components'], list = elements): Layout => ({
    ...inventoryOf(list, HEAD),
    components,
  });

  it.each([[null], [[]]])('holds them equal where only one side states them (other side: %j)', (missing) => {
    const a = layout(missing);
    const b = layout(marks(6));
    for (const result of [compared(a, b), compared(b, a)]) {
      expect(result.difference).toBe(0);
      expect(result.separateDays).toBeCloseTo(0.5, 12);
      // 3 marks of 6.00 x 2.67 (facts on programs: factors of women since 2022/23) on both sides.
      expect(result.components?.a).toBeCloseTo(48.06, 9);
      expect(result.components?.b).toBeCloseTo(48.06, 9);
      expect(compareText(result)).toContain('has no component marks: those of');
    }
    expect(compareText(compared(a, b))).toContain('A has no component marks: those of B are taken for both');
    // 3F 5.30 instead of 3Lz 5.90, both in the first half: 0.60 remains, whatever the marks.
    const fewer = compared(layout(missing, [sure('3F'), sure('2A')]), b);
    expect(fewer.difference).toBeCloseTo(-0.6, 9);
  });

  it('names their points where both sides state them and they differ, and lets them decide', () => {
    const result = compared(layout(marks(6.5)), layout(marks(6)));
    expect(result.difference).toBeCloseTo(0.5 * 3 * 2.67, 1);
    expect(result.aBeatsB).toBeGreaterThan(0.5);
    expect(compareText(result)).toContain('Components: 52.06 on average in A, 48.06 in B.');
  });

  it('takes the same for both where neither states them, and says so', () => {
    const result = compared(layout(null), layout(null));
    expect(result.difference).toBe(0);
    expect(compareText(result)).toContain('The layouts state no component marks');
    const other = { ...layout(null), category: 'junior women' } as const;
    const across = compared(layout(null), other);
    expect(across.components).toBeNull();
    expect(compareText(across)).toContain('both sides are without components');
    // The same two jumps, the second one late: 5.90 + 3.30 x 1.1, seniors and juniors alike.
    expect(across.difference).toBe(0);
    expect(across.a.expected).toBeCloseTo(9.53, 9);
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
