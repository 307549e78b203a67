import { describe, expect, it } from 'vitest';
import { buildModel } from '../../forecast/index.ts';
import { shippedLibrary } from '../../rulebook/index.ts';
import { rulesFor } from '../chosen.ts';
import { segmentRules } from '../segment-rules.ts';
import { inventoryOf, pick, randomJump, randomOther, seeded } from '../testing/random-inventory.ts';
import { bestLayouts, DEFAULT_OPTIONS } from './best.ts';
import { climb } from './climb.ts';
import { Contest } from './contest.ts';
import { searchExpected } from './expected.ts';
import type { TailObjective } from './objective-value.ts';
import { makePool } from './pool.ts';
import { prepare } from './search.ts';

const FREE = { season: '2025/26', category: 'senior women', segment: 'free' } as const;
const never = (): boolean => false;

function randomAuto(seed: number) {
  const random = seeded(seed);
  const jumps = Array.from({ length: 6 }, (_, i) =>
    randomJump(i === 0 ? '2A' : pick(['3Lz', '3F', '3S', '2A', '3T', '2T', '2Lo', '4S'], random), random),
  );
  const others = ['CCoSp4', 'LSp4', 'StSq4'].map((code) => randomOther(code, random));
  return { ...inventoryOf([...jumps, ...others], FREE, { latePenalty: seed % 3 }), combine: 'auto' as const };
}

describe('climbing from the layout with the highest expected score', () => {
  it('ends at a legal layout, no worse than its start and hardly worse than the proven best', () => {
    const shares: number[] = [];
    for (let seed = 1; seed <= 5; seed++) {
      const inventory = randomAuto(seed);
      const chosen = rulesFor(shippedLibrary(), inventory);
      if (!chosen.ok) throw new Error(chosen.error.advice);
      const rules = segmentRules(chosen.value);
      const built = buildModel(inventory, chosen.value, DEFAULT_OPTIONS.evidence);
      if (!built.ok) throw new Error(built.error.advice);
      const pool = makePool(inventory, built.value.model, rules, null, never);
      if (!pool.ok) throw new Error(pool.error.advice);
      const setting = prepare(inventory, { ...built.value.model, otherDeductions: [] }, pool.value, rules, never);
      const [expected] = searchExpected(setting, 1, never).found;
      if (expected === undefined) throw new Error('no layout');
      const mean = expected.value;
      const objectives: readonly TailObjective[] = [
        { kind: 'quantile', level: 0.1 },
        { kind: 'chance', target: Math.round(mean + 150) },
      ];
      for (const objective of objectives) {
        const contest = new Contest(setting, objective, 1, never);
        contest.evaluate(expected.what);
        const start = contest.best.found[0]?.value ?? NaN;
        climb(setting, contest, never);
        const end = contest.best.found[0]?.value ?? NaN;
        expect(end).toBeGreaterThanOrEqual(start);
        const proven = bestLayouts(inventory, chosen.value, objective);
        if (!proven.ok || !proven.value.proven) throw new Error('not proven');
        const most = (proven.value.layouts[0]?.value ?? NaN) * (objective.kind === 'quantile' ? 100 : 1);
        expect(end).toBeLessThanOrEqual(most + 1e-9);
        shares.push(most === 0 ? 1 : end / most);
      }
    }
    expect(shares.length).toBe(10);
    expect(Math.min(...shares)).toBeGreaterThan(0.97);
    expect(shares.reduce((a, b) => a + b, 0) / shares.length).toBeGreaterThan(0.99);
  });
});
