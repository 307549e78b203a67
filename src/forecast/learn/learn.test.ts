import fc from 'fast-check';
import jstat from 'jstat';
import { describe, expect, it } from 'vitest';

import { formatElement } from '../../notation/index.ts';
import { storedPriors } from '../priors/stored.ts';
import { elementOf, protocolOf, rulesOf } from '../testing/programs.ts';
import { estimatePriors } from './estimate.ts';
import { nextGrade, onScale } from './grades.ts';
import { learnElement, ownRecord } from './learn.ts';
import { matchPlan } from './match.ts';
import { shrunk } from './rates.ts';
import { earlierProgram, type Skated } from './skated.ts';
import { jumpTry, severityOf } from './status.ts';

const { jStat } = jstat;
const skated = (code: string, grade: number | null = 0.2, fall = false): Skated => ({
  element: elementOf(code),
  grade,
  fall,
});

describe('rates', () => {
  it('are the mean of the Dirichlet posterior, sampled from the reference library', () => {
    // Dirichlet(own + strength * prior) has this mean; a Gamma construction estimates it.
    const own = { a: 3, b: 1, c: 0 };
    const prior = { a: 5, b: 4, c: 1 };
    const found = shrunk(own, prior, 4);
    const alpha = [3 + 4 * 0.5, 1 + 4 * 0.4, 0 + 4 * 0.1];
    const total = alpha.reduce((sum, x) => sum + x, 0);
    expect([found.a, found.b, found.c]).toEqual(alpha.map((x) => x / total));
    expect(found.a).toBeCloseTo(jStat.beta.mean(alpha[0] ?? 0, total - (alpha[0] ?? 0)), 12);
  });

  it('are the prior without tries of her own, and hers with very many', () => {
    fc.assert(
      fc.property(fc.nat(40), fc.nat(40), fc.integer({ min: 1, max: 40 }), (x, y, z) => {
        const prior = { a: x + 1, b: y + 1, c: z };
        const sum = x + y + z + 2;
        expect(shrunk({ a: 0, b: 0, c: 0 }, prior, 5).a).toBeCloseTo((x + 1) / sum, 12);
        expect(shrunk({ a: 1e9, b: 0, c: 0 }, prior, 5).a).toBeCloseTo(1, 6);
        const rates = shrunk({ a: 2, b: 7, c: 1 }, prior, 5);
        expect(rates.a + rates.b + rates.c).toBeCloseTo(1, 12);
      }),
    );
  });
});

describe('grades', () => {
  const prior = { mean: 0.2, sd: 0.3, strength: 3 };

  it('follow Student’s t of the normal-inverse-gamma posterior', () => {
    // By hand: prior of 3 grades at 0.2 (spread worth 6 grades), own 0.4 and 0.6.
    const next = nextGrade(prior, [
      { grade: 0.4, weight: 1 },
      { grade: 0.6, weight: 1 },
    ]);
    const variance = (6 * 0.09 + 0.02 + ((3 * 2) / 5) * 0.3 ** 2) / 8;
    expect(next.centre).toBeCloseTo((3 * 0.2 + 2 * 0.5) / 5, 12);
    expect(next.df).toBe(8);
    expect(next.scale).toBeCloseTo(Math.sqrt(variance * 1.2), 12);
    const cells = onScale(next, { min: -5, max: 5 });
    const above = cells.filter((c) => c.grade >= 2).reduce((sum, c) => sum + c.p, 0);
    expect(above).toBeCloseTo(1 - jStat.studentt.cdf((1.75 / 5 - next.centre) / next.scale, 8), 3);
  });

  it('are wider with few grades of her own than with many', () => {
    const many = Array.from({ length: 30 }, (_, i) => ({ grade: 0.2 + (i % 2 ? 0.1 : -0.1), weight: 1 }));
    expect(nextGrade(prior, many).scale).toBeLessThan(nextGrade(prior, many.slice(0, 2)).scale);
  });

  it('stay on the scale and sum to 1', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -2, max: 2, noNaN: true }),
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        fc.constantFrom(3, 5),
        (centre, scale, max) => {
          const cells = onScale({ centre, scale, df: 7 }, { min: -max, max });
          expect(cells.reduce((sum, c) => sum + c.p, 0)).toBeCloseTo(1, 12);
          expect(cells.every((c) => c.grade >= -max && c.grade <= max)).toBe(true);
        },
      ),
    );
  });
});

describe('tries of a plan', () => {
  it('finds the same content first, then the same first jump, then a jump opened early', () => {
    const plan = ['3Lz+3T', '3Lz', '2A', 'CCoSp4', '3F'].map(elementOf);
    const program = [skated('3Lz'), skated('3Lz+2T'), skated('1A'), skated('CCoSp3'), skated('3S')];
    const found = matchPlan(plan, program).map((s) => (s === null ? null : formatElement(s.element)));
    expect(found).toEqual(['3Lz+2T', '3Lz', '1A', 'CCoSp3', null]);
  });

  it('reads what became of it', () => {
    const plan = elementOf('3Lz+3T');
    expect(jumpTry(plan, skated('3Lz<+2T'))).toMatchObject({ first: '<', second: 'less' });
    expect(jumpTry(plan, skated('3Lz'))).toMatchObject({ first: 'ok', second: 'missing' });
    expect(jumpTry(plan, skated('3Lz'), true)).toMatchObject({ second: null });
    expect(jumpTry(plan, skated('1Lz'))).toMatchObject({ first: 'pop2', second: null });
    expect(severityOf({ first: 'ok', edge: 'e', second: null, fall: false })).toBe('short');
    expect(severityOf({ first: '<<', edge: null, second: null, fall: true })).toBe('fall');
  });
});

describe('falls that a sheet deducts without marking them', () => {
  const rules = rulesOf('2017/18', 'senior men', 'free');
  const element = (code: string, mark: number) => ({ code, marks: [mark, mark, mark, mark, mark] });
  const base = { category: 'senior men', segment: 'free', season: '2017/18' };

  it('are the lowest grades on jumps, as many as the deduction pays for', () => {
    const program = earlierProgram(
      protocolOf({ ...base, deductions: -1, elements: [element('4T', -3), element('3A', -3), element('CSp4', -3)] }),
      1,
      rules,
    );
    expect(program.skated.map((s) => s.fall)).toEqual([true, false, false]);
    const none = earlierProgram(protocolOf({ ...base, deductions: 0, elements: [element('4T', -3)] }), 1, rules);
    expect(none.skated[0]?.fall).toBe(false);
    expect(none.skated[0]?.grade).toBe(-1);
  });
});

describe('outcomes learnt', () => {
  const rules = rulesOf('2023/24', 'junior women', 'free');
  const plan = ['3Lz+3T', '2A', 'CCoSp4', 'StSq4', 'ChSq1'].map(elementOf);
  const priors = storedPriors();
  const program = (when: number, codes: readonly string[]) =>
    earlierProgram(
      protocolOf({
        category: 'junior women',
        segment: 'free',
        season: '2023/24',
        elements: codes.map((code) => ({ code, marks: [1, 1, 1, 1, 1] })),
      }),
      when,
      rules,
    );

  it('sum to 1, hold only what the rulebook has a value for, with no program of her own too', () => {
    for (const history of [[], [program(1, ['3Lz<+3T', '2A', 'CCoSp3', 'StSq2', 'ChSq1'])]]) {
      const record = ownRecord(plan, history, rules, priors);
      plan.forEach((_, i) => {
        const outcomes = learnElement(plan, i, null, record, rules, priors);
        expect(outcomes.reduce((sum, o) => sum + o.p, 0)).toBeCloseTo(1, 9);
        for (const o of outcomes) expect(o.grades.reduce((sum, g) => sum + g.p, 0)).toBeCloseTo(1, 9);
      });
    }
  });

  it('lean towards her own record as it grows', () => {
    const short = (times: number): number => {
      const history = Array.from({ length: times }, (_, i) => program(i + 1, ['3Lz<+3T', '2A', 'CCoSp4', 'StSq4']));
      const outcomes = learnElement(plan, 0, null, ownRecord(plan, history, rules, priors), rules, priors);
      return outcomes.filter((o) => formatElement(o.element).startsWith('3Lz<')).reduce((sum, o) => sum + o.p, 0);
    };
    expect(short(1)).toBeGreaterThan(short(0));
    expect(short(4)).toBeGreaterThan(short(1));
    expect(short(4)).toBeGreaterThan(0.4);
  });

  it('keep an element whose value nobody knows, so that it is told and not taken as 0', () => {
    const unknown = [elementOf('ChSt1')];
    const outcomes = learnElement(unknown, 0, null, ownRecord(unknown, [], rules, priors), rules, priors);
    expect(outcomes.map((o) => formatElement(o.element))).toContain('ChSt1');
  });

  it('never confirm a level above the category’s cap', () => {
    const novice = rulesOf('2023/24', 'advanced novice women', 'free');
    const record = ownRecord(plan, [], novice, priors);
    const levels = learnElement(plan, 3, null, record, novice, priors).map((o) => formatElement(o.element));
    expect(levels).not.toContain('StSq4');
    expect(levels).toContain('StSq3');
  });
});

describe('priors', () => {
  it('are wide defaults without any program', () => {
    const none = estimatePriors([], 'nothing');
    expect(none.programs).toBe(0);
    expect(none.jumpGrade.triple.ok.n).toBe(0);
    const record = ownRecord([elementOf('3T')], [], rulesOf('2023/24', 'senior men', 'free'), none);
    const outcomes = learnElement([elementOf('3T')], 0, null, record, rulesOf('2023/24', 'senior men', 'free'), none);
    expect(outcomes.length).toBeGreaterThan(3);
  });
});
