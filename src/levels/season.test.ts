import library from 'jstat';
import { describe, expect, it } from 'vitest';
import type { KeyPoint, SpinElement } from '../notation/index.ts';
import { inferMissedPositions, type SpinSheet } from './season-spins.ts';
import { creditInference, inferStepCredit, type StepSheet } from './season-steps.ts';
import { planOf, levelOfCount } from './step-assess.ts';
import { clusterMoves } from './step-clusters.ts';
import { countTurns } from './step-grid.ts';
import { fiveTypes } from './testing/rules.ts';
import { TWELVE, line, withLetters } from './testing/sequences.ts';

const moves = withLetters(line(TWELVE), 'YY');
const plan = planOf(moves, fiveTypes);

/** A small seeded generator of numbers from 0 to 1 (mulberry32): the same every time. */
function seeded(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** The sheet of one event: every turn credited with `rate`, a complete combination accepted with `flow`. */
function skate(random: () => number, rate: number, flow: number): StepSheet {
  const credited = moves.map(() => random() < rate);
  const met = [...clusterMoves(plan.clusters)].every((index) => credited[index]) && random() < flow;
  const count = countTurns(plan.groups, fiveTypes, (index) => credited[index] === true);
  const level = levelOfCount(count, 2 + Number(met), fiveTypes);
  const letters: KeyPoint[] = ['Y', 'Y', met ? 'Y' : 'N'];
  return { level: level === 'none' ? null : level, letters };
}

describe('how many planned turns are usually credited', () => {
  it.each([
    [0.75, 1],
    [0.85, 0.8],
    [0.95, 0.9],
  ])(
    'a true rate of %d (flow accepted %d) lies in the stated interval in 90 of 100 simulated seasons',
    (rate, flow) => {
      let held = 0;
      const infer = creditInference(moves, fiveTypes);
      for (let season = 0; season < 100; season += 1) {
        const random = seeded(season);
        const sheets = Array.from({ length: 8 }, () => skate(random, rate, flow));
        const found = infer(sheets).rate;
        if (found !== null && found.low <= rate && rate <= found.high) held += 1;
      }
      expect(held).toBeGreaterThanOrEqual(90);
    },
  );

  it('narrows with more sheets and rises with better ones', () => {
    const good: StepSheet = { level: 4, letters: ['Y', 'Y', 'Y'] };
    const poor: StepSheet = { level: 2, letters: ['Y', 'Y', 'N'] };
    const width = (sheets: StepSheet[]) => {
      const { rate } = inferStepCredit(moves, fiveTypes, sheets);
      return (rate?.high ?? 1) - (rate?.low ?? 0);
    };
    const mean = (sheets: StepSheet[]) => inferStepCredit(moves, fiveTypes, sheets).rate?.mean ?? 0;
    expect(width([good, good, good, good])).toBeLessThan(width([good]));
    expect(mean([good])).toBeGreaterThan(mean([poor]));
  });

  it('leaves contradictory and missing evidence out, and says why', () => {
    const found = inferStepCredit(moves, fiveTypes, [
      { level: 4, letters: ['Y', 'N', 'N'] },
      { level: null, letters: null },
      { level: 3, letters: null },
    ]);
    expect(found.sheets).toEqual([
      { used: false, why: 'level and letters contradict each other' },
      { used: false, why: 'no level was confirmed' },
      { used: true, why: null },
    ]);
    expect(found.turns?.planned).toBe(12);
    expect(found.assumptions.length).toBeGreaterThan(3);
    expect(inferStepCredit(moves, fiveTypes, []).rate).toBeNull();
  });

  it('takes the word of the panel as evidence', () => {
    const sheet: StepSheet = { level: 3, letters: ['Y', 'Y', 'N'] };
    const mean = (told: NonNullable<StepSheet['told']>) =>
      inferStepCredit(moves, fiveTypes, [{ ...sheet, told }]).rate?.mean ?? 0;
    const silent = inferStepCredit(moves, fiveTypes, [sheet]).rate?.mean ?? 0;
    // Twelve counted, one combination without flow: only the combination was missing.
    expect(mean({ counted: { min: 12, max: 12 } })).toBeGreaterThan(silent);
    expect(mean({ notCredited: [6, 7, 8] })).toBeLessThan(silent);
  });

  it('sets the third letter aside where the plan has no valid combinations', () => {
    const loose = withLetters(line('LFO Ro, / RFO Ro, / LFO Co, / RFO Co, / LFO Br, / RFO Br'), 'YY');
    const found = inferStepCredit(loose, fiveTypes, [{ level: 1, letters: ['Y', 'Y', 'Y'] }]);
    expect(found.sheets[0]?.why).toContain('left aside');
    expect(found.rate).not.toBeNull();
  });
});

describe('positions missed in combination spins', () => {
  const spin = (v: 0 | 1): SpinElement => ({
    kind: 'spin',
    flying: false,
    changeFoot: true,
    position: 'Co',
    level: 3,
    v,
    noValue: false,
  });
  const clean: SpinSheet = { element: spin(0), positions: null };

  it('follow a beta distribution, as the reference library has it', () => {
    const sheets: SpinSheet[] = [
      { element: spin(1), positions: ['sit'] },
      { element: spin(1), positions: ['sit'] },
      { element: spin(1), positions: null },
      clean,
      clean,
      clean,
    ];
    const sit = inferMissedPositions(sheets, 0.9).find((one) => one.position === 'sit');
    expect(sit).toMatchObject({ missed: 2, held: 3, unknown: 1 });
    expect(sit?.rate.mean).toBeCloseTo(3 / 7, 3);
    expect(sit?.rate.low).toBeCloseTo(library.jStat.beta.inv(0.05, 3, 4), 2);
    expect(sit?.rate.high).toBeCloseTo(library.jStat.beta.inv(0.95, 3, 4), 2);
    expect(inferMissedPositions(sheets).find((one) => one.position === 'camel')).toMatchObject({ missed: 0, held: 5 });
  });

  it('look at combination spins only', () => {
    const sit: SpinSheet = { element: { ...spin(0), position: 'S' }, positions: null };
    expect(inferMissedPositions([sit])[0]).toMatchObject({ missed: 0, held: 0, unknown: 0 });
  });
});
