import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { programSpins } from './program-spins.ts';
import { assignFeatures, type SpinWorth } from './spin-assignment.ts';
import { expectedOver } from './step-chances.ts';
import { rankOf } from './step-assess.ts';
import type { Spin } from './spin.ts';
import { spins2023, spins2024 } from './testing/rules.ts';
import { anySpin, part, spin } from './testing/spins.ts';

/** A worth that grows with the level and more so for later letters of the code, so that place matters. */
const worth: SpinWorth = (one, level) => (rankOf(level) + 1) * (100 + 10 * one.code.length);

const total = (spins: readonly Spin[], rules: typeof spins2023): number =>
  programSpins(spins, rules).reduce((sum, answer, place) => {
    const one = spins[place];
    return sum + (one === undefined ? 0 : (expectedOver(answer.chances, (level) => worth(one, level)) ?? 0));
  }, 0);

/** Every way to leave out variations and features of every part. */
function everyChoice(spins: readonly Spin[]): Spin[][] {
  return spins.reduce<Spin[][]>(
    (all, one) => all.flatMap((some) => subsets(one).map((choice) => [...some, choice])),
    [[]],
  );
}

function subsets(one: Spin): Spin[] {
  const places = one.parts.flatMap((p, index) =>
    [...p.features, p.variation].flatMap((name) => (name === null ? [] : [`${index} ${name}`])),
  );
  return Array.from({ length: 2 ** places.length }, (_, bits) => {
    const out = new Set(places.filter((__, n) => ((bits >> n) & 1) === 1));
    const parts = one.parts.map((p, index) => ({
      ...p,
      variation: out.has(`${index} ${p.variation ?? ''}`) ? null : p.variation,
      features: p.features.filter((name) => !out.has(`${index} ${name}`)),
    }));
    return { ...one, parts };
  });
}

describe('best assignment of features to spins', () => {
  it('moves a feature to the spin that gains from it', () => {
    // The first spin has two features on its foot without the edge; the second has nothing else.
    const spins = [
      spin('CSp', [
        part('camel', 8, {
          variation: 'CF',
          features: ['eight-revolutions', 'change-of-edge', 'difficult-exit', 'difficult-entrance'],
        }),
      ]),
      spin('FCSp', [part('camel', 4, { features: ['change-of-edge'] })]),
    ];
    const found = assignFeatures(spins, { ...spins2023, gate: [] }, worth);
    expect(found?.left).toEqual([{ spin: 0, index: 0, name: 'change-of-edge' }]);
    expect(found?.expected).toBeGreaterThan(found?.before ?? Infinity);
  });

  it('is as good as the best of all choices, and never worse than as written', () => {
    fc.assert(
      fc.property(anySpin, anySpin, fc.constantFrom(spins2023, spins2024), (a, b, rules) => {
        const spins = [a, { ...b, used: [] }];
        fc.pre(subsets(a).length * subsets(b).length <= 128);
        const found = assignFeatures(spins, rules, worth);
        const best = Math.max(...everyChoice(spins).map((choice) => total(choice, rules)));
        expect(found?.expected).toBeCloseTo(best, 8);
        expect(found?.before).toBeCloseTo(total(spins, rules), 8);
        expect(total(found?.spins ?? [], rules)).toBeCloseTo(best, 8);
      }),
      { numRuns: 25 },
    );
  });
});
