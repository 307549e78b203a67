import { describe, expect, it } from 'vitest';
import { shippedLibrary, type ChosenRules } from '../../rulebook/index.ts';
import type { Inventory } from '../../scoring/index.ts';
import { rulesFor } from '../chosen.ts';
import { checkLayout } from '../check/check.ts';
import { bruteForce } from '../testing/brute-force.ts';
import { entry, inventoryOf, pick, randomJump, randomOther, seeded, withContent } from '../testing/random-inventory.ts';
import { bestLayouts } from './best.ts';
import type { Objective } from './objective.ts';

const SENIOR = { season: '2025/26', category: 'senior women', segment: 'free' } as const;
const SHORT = { season: '2025/26', category: 'senior women', segment: 'short' } as const;
const NOVICE = { season: '2025/26', category: 'intermediate novice women', segment: 'free' } as const;

const chosen = (inventory: Inventory): ChosenRules => {
  const rules = rulesFor(shippedLibrary(), inventory);
  if (!rules.ok) throw new Error(rules.error.advice);
  return rules.value;
};

/** Objectives with targets that lie where chances are neither 0 nor 1. */
const objectivesFor = (middle: number): readonly Objective[] => [
  { kind: 'expected' },
  { kind: 'chance', target: Math.round(middle * 100) },
  { kind: 'chance', target: Math.round(middle * 110) },
  { kind: 'quantile', level: 0.1 },
  { kind: 'quantile', level: 0.4 },
];

/** Compares every objective with the plain search over everything. */
function agrees(inventory: Inventory, rules: ChosenRules): void {
  const [first] = bruteForce(inventory, rules, [{ kind: 'expected' }]);
  const objectives = objectivesFor(first?.value ?? 10);
  const brute = bruteForce(inventory, rules, objectives);
  objectives.forEach((objective, i) => {
    const result = bestLayouts(inventory, rules, objective);
    if (!result.ok) throw new Error(JSON.stringify(result.error));
    const wanted = brute[i] ?? null;
    const [found] = result.value.layouts;
    if (wanted === null) {
      expect(found, `${JSON.stringify(objective)} none`).toBeUndefined();
      expect(result.value.conflict.length).toBeGreaterThan(0);
      return;
    }
    const told = `${JSON.stringify(objective)} wanted ${wanted.codes.join(' ')} found ${found?.codes.join(' ') ?? ''}`;
    expect(result.value.proven, told).toBe(true);
    expect(found?.value, told).toBeCloseTo(wanted.value, 9);
    expect(found?.expected, told).toBeCloseTo(wanted.expected, 9);
  });
}

describe('best layouts against trying everything', () => {
  it('agrees on free skates with tight repeat rules', () => {
    const jumps = ['3T', '3S', '2A', '3T+2T', '2A+2T', '3S+2T', '2T', '2A+1Eu+2S', '2S+2T', '3T+2T+2Lo'];
    for (let seed = 1; seed <= 100; seed++) {
      const random = seeded(seed);
      const elements = [
        ...Array.from({ length: 4 }, () => randomJump(pick(jumps, random), random)),
        ...(random() < 0.4 ? [randomOther(pick(['CCoSp4', 'LSp3'], random), random)] : []),
      ];
      const inventory = inventoryOf(elements, SENIOR, { latePenalty: seed % 4 === 0 ? 1 : 0 });
      const rules = withContent(chosen(inventory), {
        axelRequired: random() < 0.3,
        jumpElements: { min: 0, max: pick([2, 3, 4], random) },
        jumpsPerUnit: pick([[3, 2], [2], [2, 2, 2]], random),
        bonusLast: pick([0, 1, 3, 'all' as const], random),
        repeats: {
          highTurnsFrom: pick([3, 2.5], random),
          highKindsTwice: pick([0, 1, 2], random),
          quadKindsTwice: 1,
          lowKindsTwice: pick([null, 0, 1], random),
          maxSame: pick([1, 2], random),
          familiesTwice: pick([null, null, 1], random),
          maxPerFamily: null,
          repFromTurns: pick([null, 2, 3], random),
          singleKindsTwice: pick([null, 1], random),
          freeBelowTurns: pick([1, 2], random),
        },
      });
      agrees(inventory, rules);
    }
  });

  it('agrees on senior short programs', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const random = seeded(1000 + seed);
      const elements = [
        randomJump(pick(['2A', '3A'], random), random),
        ...Array.from({ length: 2 }, () => randomJump(pick(['3F', '3Lz', '3Lo', '3T'], random), random)),
        ...Array.from({ length: 1 }, () => randomJump(pick(['3Lz+3T', '3F+2T', '3T+3T', '2A+3T'], random), random)),
      ];
      const inventory = inventoryOf(elements, SHORT);
      const rules = withContent(chosen(inventory), {
        spins: { min: null, max: null, kinds: [], sameCodeForbidden: null },
        steps: { min: null, max: null },
        choreo: { min: null, max: null, forms: [] },
      });
      agrees(inventory, rules);
    }
  });

  it('agrees on intermediate novice programs as they are', () => {
    for (let seed = 1; seed <= 6; seed++) {
      const random = seeded(2000 + seed);
      const elements = [
        randomJump(pick(['1A', '2A'], random), random),
        ...Array.from({ length: 2 }, () =>
          randomJump(pick(['2S', '2T', '2Lo', '2S+2T', '2Lo+1T', '1A+2T', '2T+1T'], random), random),
        ),
        ...Array.from({ length: 2 }, () => randomOther(pick(['CCoSp2', 'CSSp2', 'StSq2', 'LSp2'], random), random)),
      ];
      agrees(inventoryOf(elements, NOVICE), chosen(inventoryOf(elements, NOVICE)));
    }
  });

  it('agrees where entries may be used more than once', () => {
    for (let seed = 1; seed <= 30; seed++) {
      const random = seeded(3000 + seed);
      const twice = { ...randomJump(pick(['3T', '2A', '3S+2T'], random), random), max: 2 };
      const elements = [twice, randomJump(pick(['3T+2T', '2T', '3Lz'], random), random), randomJump('2A', random)];
      const inventory = inventoryOf(elements, SENIOR, { must: random() < 0.5 ? ['2A'] : [] });
      agrees(inventory, withContent(chosen(inventory), { axelRequired: null }));
    }
  });
});

describe('answers of best', () => {
  const sure = (code: string) => entry(code, [{ p: 1, code, grades: [{ grade: 0, p: 1 }], fall: false }]);
  const seniorShort = ['2A', '3F', '3Lz+3T', 'FCSp4', 'LSp4', 'CCoSp4', 'StSq4'].map(sure);

  it('are legal layouts by the check', () => {
    const inventory = inventoryOf(seniorShort, SHORT);
    const rules = chosen(inventory);
    const result = bestLayouts(inventory, rules, { kind: 'expected' });
    if (!result.ok) throw new Error('not read');
    const codes = result.value.layouts[0]?.codes ?? [];
    expect([...codes].sort()).toEqual(seniorShort.map((e) => e.code).sort());
    const checked = checkLayout({ ...inventory, elements: codes.map((code) => sure(code)) }, rules);
    expect(checked.ok && checked.value.legal).toBe(true);
  });

  it('name the constraints that exclude each other', () => {
    const inventory = inventoryOf([...seniorShort, sure('3Lo')], SHORT, { must: ['3F', '3Lo'] });
    const result = bestLayouts(inventory, chosen(inventory), { kind: 'expected' });
    if (!result.ok) throw new Error('not read');
    expect(result.value.layouts).toEqual([]);
    expect(result.value.conflict).toContain('must: 3F');
    expect(result.value.conflict).toContain('must: 3Lo');
    expect(result.value.conflict.length).toBeLessThanOrEqual(3);
  });

  it('say that a must is not in the inventory', () => {
    const inventory = inventoryOf(seniorShort, SHORT, { must: ['3A'] });
    const result = bestLayouts(inventory, chosen(inventory), { kind: 'expected' });
    expect(result.ok && result.value.conflict).toEqual(['must: 3A']);
  });

  it('leave out what the coach has not released', () => {
    const held = { ...sure('3A'), stage: 'landed' as const };
    const inventory = inventoryOf([...seniorShort, held], SHORT);
    const result = bestLayouts(inventory, chosen(inventory), { kind: 'expected' });
    if (!result.ok) throw new Error('not read');
    expect(result.value.layouts[0]?.codes).not.toContain('3A');
    expect(result.value.excluded.map((e) => e.code)).toEqual(['3A']);
  });

  it('are not proven when the search is stopped', () => {
    const inventory = inventoryOf(seniorShort, SHORT);
    const result = bestLayouts(inventory, chosen(inventory), { kind: 'expected' }, { shouldStop: () => true });
    expect(result.ok && result.value.proven).toBe(false);
  });

  it('still are whole programs when no time is left, and claim no bound that is not one', () => {
    const spins = ['FCSp3', 'LSp3', 'CCoSp3', 'CSSp4'].map(sure);
    const inventory = inventoryOf([...spins, ...seniorShort], SHORT);
    for (const objective of [{ kind: 'expected' }, { kind: 'quantile', level: 0.1 }] as const) {
      const result = bestLayouts(inventory, chosen(inventory), objective, { shouldStop: () => true });
      if (!result.ok) throw new Error('not read');
      expect(result.value.proven).toBe(false);
      expect(result.value.bound).toBeNull();
      expect(result.value.layouts[0]?.codes).toHaveLength(7);
    }
  });

  it('bound what a stopped search may still miss, in points', () => {
    const inventory = inventoryOf([...seniorShort, ...['3Lo', '3S', '3Lz', '3F+2T'].map(sure)], SHORT);
    const whole = bestLayouts(inventory, chosen(inventory), { kind: 'expected' });
    let asked = 0;
    const stopped = bestLayouts(inventory, chosen(inventory), { kind: 'expected' }, { shouldStop: () => ++asked > 40 });
    if (!whole.ok || !stopped.ok) throw new Error('not read');
    if (stopped.value.proven) return;
    expect(stopped.value.bound ?? Infinity).toBeGreaterThanOrEqual((whole.value.bound ?? 0) - 1e-9);
    expect(stopped.value.bound ?? 0).toBeLessThan(200);
  });
});
