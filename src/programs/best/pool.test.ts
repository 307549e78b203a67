import { describe, expect, it } from 'vitest';
import { buildModel } from '../../forecast/index.ts';
import { shippedLibrary, type ChosenRules } from '../../rulebook/index.ts';
import type { Inventory, LayoutElement } from '../../scoring/index.ts';
import { checkLayout } from '../check/check.ts';
import { rulesFor } from '../chosen.ts';
import { segmentRules } from '../segment-rules.ts';
import { entry, inventoryOf, pick, randomJump, randomOther, seeded } from '../testing/random-inventory.ts';
import { bestLayouts, DEFAULT_OPTIONS } from './best.ts';
import { makePool, type Pool } from './pool.ts';

const FREE = { season: '2025/26', category: 'senior women', segment: 'free' } as const;
const SHORT = { season: '2025/26', category: 'senior women', segment: 'short' } as const;

const chosen = (inventory: Inventory): ChosenRules => {
  const rules = rulesFor(shippedLibrary(), inventory);
  if (!rules.ok) throw new Error(rules.error.advice);
  return rules.value;
};

function poolOf(inventory: Inventory, shouldStop = () => false): Pool {
  const rules = chosen(inventory);
  const built = buildModel(inventory, rules, DEFAULT_OPTIONS.evidence);
  if (!built.ok) throw new Error(built.error.advice);
  const pool = makePool(inventory, built.value.model, segmentRules(rules), null, shouldStop);
  if (!pool.ok) throw new Error(pool.error.advice);
  return pool.value;
}

const auto = (elements: readonly LayoutElement[], head: typeof FREE | typeof SHORT): Inventory => ({
  ...inventoryOf(elements, head),
  combine: 'auto',
});
const sure = (code: string, max: number | null = null): LayoutElement =>
  entry(code, [{ p: 1, code, grades: [{ grade: 0, p: 1 }], fall: false }], max);

/** So many single jumps, a third of them toe loops and loops, all different. */
function manySingles(many: number, seed: number): readonly LayoutElement[] {
  const random = seeded(seed);
  return Array.from({ length: many }, (_, i) => {
    const code = i % 3 === 0 ? pick(['3T', '3Lo', '2T', '2Lo', '1T', '1Lo'], random) : '';
    return randomJump(code || pick(['3Lz', '3F', '3S', '2A', '3A', '2Lz', '2F', '4S'], random), random);
  });
}

function others(seed: number): readonly LayoutElement[] {
  const random = seeded(seed);
  return ['CCoSp4', 'FCSp4', 'LSp4', 'CSSp4', 'StSq4', 'ChSq1'].map((code) => randomOther(code, random));
}

describe('combinations that are built', () => {
  it('are those of the rule text: toe loop and loop behind anything, an Axel as a sequence, no entry twice', () => {
    const built = poolOf(
      auto(
        ['3Lz', '2T', '2Lo', '2A'].map((code) => sure(code)),
        FREE,
      ),
    ).items;
    const codes = built.flatMap(({ source, code }) => (source === null ? [code] : []));
    const firsts = ['3Lz', '2T', '2Lo', '2A'];
    const wanted = firsts.flatMap((a) => [
      ...['2T', '2Lo'].filter((b) => b !== a).map((b) => `${a}+${b}`),
      ...(a === '2A' ? [] : [`${a}+2A+SEQ`]),
      ...(a === '2T' || a === '2Lo' ? [] : [`${a}+2T+2Lo`, `${a}+2Lo+2T`]),
    ]);
    expect([...codes].sort()).toEqual([...wanted].sort());
  });

  it('use an entry as often as it is given', () => {
    const codes = poolOf(auto([sure('2T', 2), sure('3S')], FREE)).items.map(({ code }) => code);
    expect(codes).toContain('2T+2T');
    expect(codes).toContain('3S+2T+2T');
    expect(codes).not.toContain('2T+2T+2T');
    expect(codes).not.toContain('3S+3S');
  });

  it('hold nothing that the rules of the segment forbid by itself', () => {
    const codes = poolOf(
      auto(
        ['3Lz', '3T', '2T'].map((code) => sure(code)),
        SHORT,
      ),
    ).items.map(({ code }) => code);
    expect(codes).toContain('3Lz+3T');
    expect(codes.filter((code) => code.split('+').length > 2)).toEqual([]);
  });

  it('take equal entries as one that may be used more often', () => {
    const twice = auto([sure('3T'), sure('3T'), sure('2A'), sure('2T', 2), ...others(3)], FREE);
    const once = auto([sure('3T', 2), sure('2A'), sure('2T', 2), ...others(3)], FREE);
    expect(poolOf(twice).items.map(({ code }) => code)).toEqual(poolOf(once).items.map(({ code }) => code));
    const [a, b] = [twice, once].map((inventory) => bestLayouts(inventory, chosen(inventory), { kind: 'expected' }));
    if (a?.ok !== true || b?.ok !== true) throw new Error('not read');
    expect(a.value.proven && b.value.proven).toBe(true);
    expect(a.value.layouts).toEqual(b.value.layouts);
  });
});

describe('a pool that is stopped', () => {
  it('holds the entries and the pairs of the best jumps, and says that it is not complete', () => {
    const inventory = auto([...manySingles(80, 1), ...others(1)], FREE);
    const pool = poolOf(inventory, () => true);
    expect(pool.complete).toBe(false);
    expect(pool.items.filter(({ source }) => source !== null)).toHaveLength(inventory.elements.length);
    const built = pool.items.filter(({ source }) => source === null);
    expect(built.length).toBeGreaterThan(50);
    expect(built.length).toBeLessThan(600);
    expect(built.every(({ uses }) => uses.length === 2)).toBe(true);
  });

  it('asks the clock between any two items beyond those, and ends with them', () => {
    const inventory = auto([...manySingles(80, 1), ...others(1)], FREE);
    const none = poolOf(inventory, () => true).items.length;
    let asked = 0;
    expect(poolOf(inventory, () => ++asked > 100).items).toHaveLength(none + 100);
    expect(asked).toBe(101);
  });

  it.each([0, 5, 200, 2000])('gives a whole legal layout when stopped after %d questions', (questions) => {
    for (const head of [FREE, SHORT]) {
      for (const objective of [{ kind: 'expected' }, { kind: 'quantile', level: 0.1 }] as const) {
        const inventory = auto([...manySingles(80, 2), ...others(2)], head);
        let asked = 0;
        const rules = chosen(inventory);
        const result = bestLayouts(inventory, rules, objective, { shouldStop: () => ++asked > questions });
        if (!result.ok) throw new Error('not read');
        const [best] = result.value.layouts;
        expect(result.value.proven).toBe(false);
        expect(result.value.bound ?? Infinity).toBeGreaterThanOrEqual(best?.value ?? Infinity);
        const elements = (best?.codes ?? []).map((code) => sure(code));
        expect(elements).toHaveLength(head === FREE ? 12 : 7);
        const checked = checkLayout({ ...inventory, elements }, rules);
        expect(checked.ok && checked.value.verdicts.filter(({ status }) => status === 'broken')).toEqual([]);
      }
    }
  });
});
