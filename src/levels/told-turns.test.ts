import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { KeyPoint } from '../notation/index.ts';
import { chooseRules, shippedLibrary, type StepRules } from '../rulebook/index.ts';
import { explainSteps, levelFrom, turnRange, type TurnLevel } from './feedback-steps.ts';

const rulesOf = (category: string): StepRules => {
  const chosen = chooseRules(shippedLibrary(), { season: '2023/24', category, segment: 'free', body: 'isu' });
  if (!chosen.ok) throw new Error(chosen.error.found);
  return chosen.value.levels.steps(chosen.value.category);
};
const rules = rulesOf('junior women');

/** A step sequence as it may truly have been: turn level, features, and a number of turns that gives that level. */
const truth = fc
  .record({
    turnLevel: fc.constantFrom<TurnLevel>(0, 1, 2, 3, 4),
    met: fc.tuple(fc.boolean(), fc.boolean(), fc.boolean()),
    share: fc.double({ min: 0, max: 1, noNaN: true }),
  })
  .map(({ turnLevel, met, share }) => {
    const { min, max } = turnRange(turnLevel, rules);
    const letters = met.map((yes): KeyPoint => (yes ? 'Y' : 'N'));
    const level = levelFrom(turnLevel, met.filter(Boolean).length, rules.cap);
    return { turnLevel, met, turns: min + Math.round(share * (max - min)), letters, level };
  });

describe('turns that the panel told', () => {
  it('never take away what was true, and leave only accounts that allow them', () => {
    fc.assert(
      fc.property(truth, fc.boolean(), ({ turnLevel, met, turns, letters, level }, printed) => {
        const given = { level, letters: printed ? letters : null, rules };
        const plain = explainSteps(given);
        const told = explainSteps({ ...given, toldTurns: { min: turns, max: turns } });
        expect(told.toldFits).toBe(true);
        expect(told.turns).toEqual({ min: turns, max: turns });
        const [rotation, body, clusters] = met;
        expect(told.explanations).toContainEqual({ turnLevel, rotation, body, clusters });
        for (const one of told.explanations) {
          expect(plain.explanations).toContainEqual(one);
          const range = turnRange(one.turnLevel, rules);
          expect(turns >= range.min && turns <= range.max).toBe(true);
        }
      }),
    );
  });

  it('narrow level 2 with three letters yes from 7 or 8 to the number told', () => {
    const given = { level: 2, letters: ['Y', 'Y', 'Y'], rules } as const;
    expect(explainSteps(given).turns).toEqual({ min: 7, max: 8 });
    expect(explainSteps({ ...given, toldTurns: { min: 8, max: 8 } }).turns).toEqual({ min: 8, max: 8 });
  });

  it('settle what letters leave open: level 2 with one letter yes and nine turns was held by the letters', () => {
    const given = { level: 2, letters: ['Y', 'N', 'N'], rules } as const;
    expect(new Set(explainSteps(given).explanations.map((one) => one.turnLevel))).toEqual(new Set([2, 3, 4]));
    const told = explainSteps({ ...given, toldTurns: { min: 9, max: 9 } });
    expect(told.explanations.map((one) => one.turnLevel)).toEqual([3]);
    expect(told.complexity).toBe('missing');
  });

  it('that no account allows are not used: the sheet stands', () => {
    const given = { level: 2, letters: ['Y', 'Y', 'Y'], rules } as const;
    const told = explainSteps({ ...given, toldTurns: { min: 11, max: 11 } });
    expect(told).toEqual({ ...explainSteps(given), toldFits: false });
  });

  it('say nothing where no level was confirmed', () => {
    const told = explainSteps({ level: null, letters: null, rules, toldTurns: { min: 4, max: 4 } });
    expect(told).toMatchObject({ toldFits: false, turns: null, explanations: [] });
  });
});
