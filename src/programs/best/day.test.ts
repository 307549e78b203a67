import { describe, expect, it } from 'vitest';
import { buildModel } from '../../forecast/index.ts';
import { shippedLibrary, type ChosenRules } from '../../rulebook/index.ts';
import type { Inventory } from '../../scoring/index.ts';
import { rulesFor } from '../chosen.ts';
import { bruteForecast } from '../testing/brute-force.ts';
import { inventoryOf, pick, randomJump, randomOther, seeded, withContent } from '../testing/random-inventory.ts';
import { bestLayouts, DEFAULT_OPTIONS } from './best.ts';
import type { Objective } from './objective.ts';

const SENIOR = { season: '2025/26', category: 'senior women', segment: 'free' } as const;
const JUMPS = ['3T', '3S', '2A', '3T+2T', '2A+2T', '3S+2T', '2T', '2S+2T', '3S+2A+SEQ'];

const chosen = (inventory: Inventory): ChosenRules => {
  const rules = rulesFor(shippedLibrary(), inventory);
  if (!rules.ok) throw new Error(rules.error.advice);
  return rules.value;
};

function agrees(inventory: Inventory, rules: ChosenRules): void {
  const built = buildModel(inventory, rules, DEFAULT_OPTIONS.evidence);
  if (!built.ok) throw new Error(built.error.advice);
  const { model } = built.value;
  const [first] = bruteForecast(inventory, rules, model, [{ kind: 'expected' }]);
  const middle = first?.value ?? 0;
  const objectives: readonly Objective[] = [
    { kind: 'expected' },
    { kind: 'chance', target: Math.round(middle * 100) },
    { kind: 'chance', target: Math.round(middle * 108) },
    { kind: 'quantile', level: 0.15 },
  ];
  const brute = bruteForecast(inventory, rules, model, objectives);
  objectives.forEach((objective, i) => {
    const result = bestLayouts(inventory, rules, objective);
    if (!result.ok) throw new Error(result.error.advice);
    const wanted = brute[i] ?? null;
    const [found] = result.value.layouts;
    const told = `${JSON.stringify(objective)} wanted ${wanted?.codes.join(' ') ?? 'none'} found ${found?.codes.join(' ') ?? 'none'}`;
    expect(result.value.proven, told).toBe(true);
    expect(found?.value, told).toBeCloseTo(wanted?.value ?? NaN, 8);
    expect(found?.expected, told).toBeCloseTo(wanted?.expected ?? NaN, 7);
  });
}

describe('best layouts where the day moves elements together', () => {
  it('agree with trying every program, form and components with a spread', () => {
    for (let seed = 1; seed <= 24; seed++) {
      const random = seeded(5000 + seed);
      const elements = [
        ...Array.from({ length: 3 }, () => randomJump(pick(JUMPS, random), random)),
        randomOther(pick(['CCoSp4', 'LSp3'], random), random),
      ];
      const inventory: Inventory = {
        ...inventoryOf(elements, SENIOR),
        form: { sd: pick([0.3, 0.6, 1], random) },
        components: [{ name: 'Composition', factor: null, mean: 5.5, sd: pick([0, 0.3], random) }],
      };
      const rules = withContent(chosen(inventory), {
        axelRequired: random() < 0.4,
        jumpElements: { min: 0, max: pick([2, 3], random) },
        bonusLast: pick([0, 1, 3], random),
        repeats: {
          highTurnsFrom: 3,
          highKindsTwice: pick([0, 1, 2], random),
          quadKindsTwice: 1,
          lowKindsTwice: null,
          maxSame: pick([1, 2], random),
          familiesTwice: null,
          maxPerFamily: null,
          repFromTurns: 3,
          singleKindsTwice: null,
          freeBelowTurns: 2,
        },
      });
      agrees(inventory, rules);
    }
  });
});
