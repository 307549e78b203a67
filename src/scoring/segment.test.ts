import { describe, expect, it } from 'vitest';

import { componentPoints, fallPoints, segmentScore } from './segment.ts';
import { rulesOf } from './testing/rules.ts';

describe('components', () => {
  it('rounds each factored component before the sum: 15.03 + 15.21 + 14.96 = 45.20 (facts, scoring 3)', () => {
    const components = [900, 911, 896].map((score) => componentPoints(score, 167));
    expect(components).toEqual([1503, 1521, 1496]);
    expect(segmentScore({ elements: [0], components, deductions: 0, bonus: 0 }).pcs).toBe(4520);
  });

  it('is null without score or factor', () => {
    expect(componentPoints(null, 160)).toBeNull();
    expect(componentPoints(700, null)).toBeNull();
  });
});

describe('falls', () => {
  const scale = (category: string) => {
    const rules = rulesOf({ season: '2022/23', body: 'isu', category, segment: 'free' });
    return rules.deductions.deductions(rules.category, 'free');
  };

  it.each([
    // Comm. 2014 (2016), Rule 353, in translation: 1, 1, 2, 2, 3 for seniors; published. Open data: -4 for three falls, -6 and -9.
    ['senior women', 1, -100],
    ['senior men', 3, -400],
    ['senior women', 4, -600],
    ['senior men', 5, -900],
    ['senior men', 6, -1200],
    // Junior: flat 1.0 each; from memory.
    ['junior women', 3, -300],
    // Comm. 2396, published: 0.5 each in all novice groups.
    ['advanced novice women', 2, -100],
  ])('%s: %d falls make %d', (category, count, points) => expect(fallPoints(scale(category), count)).toBe(points));

  it('cost nothing when there is none, and are not known without a scale', () => {
    const unknown = { ...scale('senior women'), falls: null };
    expect(fallPoints(unknown, 0)).toBe(0);
    // A count that no program has takes neither time nor memory.
    expect(fallPoints({ ...unknown, falls: [-100, -200] }, 1_000_000_000)).toBe(-200 * 999_999_999 - 100);
    expect(fallPoints(unknown, 1)).toBeNull();
  });
});

describe('segment score', () => {
  it('adds what is known and says null otherwise', () => {
    expect(segmentScore({ elements: [100, 250], components: [300], deductions: -100, bonus: 50 })).toEqual({
      tes: 350,
      pcs: 300,
      total: 600,
    });
    expect(segmentScore({ elements: [100, null], components: [300], deductions: 0, bonus: 0 })).toEqual({
      tes: null,
      pcs: 300,
      total: null,
    });
  });
});
