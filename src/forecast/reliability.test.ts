import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { readLayout } from '../scoring/index.ts';
import { distributionOf } from './exact/distribution.ts';
import { buildModel } from './model.ts';
import { moments } from './pmf.ts';
import { storedPriors } from './priors/stored.ts';
import { asPlanned, outcomesAt, reliabilityOf } from './reliability.ts';
import { meanGains, sensitivityOf } from './sensitivity.ts';
import { rulesOf, seniorFree } from './testing/programs.ts';

const rules = rulesOf('2023/24', 'senior women', 'free');
const evidence = { history: [], rulesOf: () => null, priors: storedPriors() };

function modelOf(reliability: number | null, code = '3Lz') {
  const read = readLayout({
    elements: [{ code, ...(reliability === null ? {} : { reliability }) }, { code: 'CCoSp4' }, { code: '2A+2T' }],
    components: [],
  });
  if (!read.ok) throw new Error(read.error.found);
  const built = buildModel(read.value, rules, evidence);
  if (!built.ok) throw new Error(built.error.found);
  return built.value;
}

const meanOf = (reliability: number): number => {
  const pmf = distributionOf(modelOf(reliability).model, 'tes');
  return pmf.ok ? moments(pmf.value).mean : NaN;
};

describe('a stated reliability', () => {
  it('is what the model then has, and everything else keeps its proportions', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 0.99, noNaN: true }), (r) => {
        const before = modelOf(null).model.elements[0];
        const after = modelOf(r).model.elements[0];
        if (before === undefined || after === undefined) throw new Error('the element is gone');
        expect(reliabilityOf(after)).toBeCloseTo(r, 12);
        expect(after.outcomes.reduce((sum, o) => sum + o.p, 0)).toBeCloseTo(1, 12);
        const shares = (e: typeof after, wanted: boolean) => {
          const own = asPlanned(e).flatMap((good, i) => (good === wanted ? [e.outcomes[i]?.p ?? 0] : []));
          return own.map((p) => p / own.reduce((sum, x) => sum + x, 0));
        };
        for (const wanted of [true, false]) {
          shares(after, wanted).forEach((share, i) => expect(share).toBeCloseTo(shares(before, wanted)[i] ?? -1, 10));
        }
      }),
    );
  });

  it('is worth more the higher it is, in a straight line where elements are apart', () => {
    const [low, middle, high] = [0.2, 0.5, 0.8].map(meanOf);
    expect(middle).toBeGreaterThan(low ?? Infinity);
    expect((low ?? 0) + (high ?? 0)).toBeCloseTo(2 * (middle ?? 0), 4);
  });

  it('may be never and always', () => {
    for (const r of [0, 1]) {
      const [element] = modelOf(r).model.elements;
      expect(element === undefined ? null : reliabilityOf(element)).toBe(r);
    }
  });

  it('of a code without a level is the highest level that is modelled', () => {
    const element = modelOf(0.7, 'FCSp').model.elements[0];
    expect(element === undefined ? null : reliabilityOf(element)).toBeCloseTo(0.7, 12);
  });

  it('cannot be moved where an element comes in one way alone', () => {
    const one = { code: '2A', outcomes: modelOf(null, '2A').model.elements[0]?.outcomes.slice(0, 1) ?? [] };
    const alone = { ...one, outcomes: one.outcomes.map((o) => ({ ...o, p: 1 })) };
    expect(outcomesAt(alone, 0.5)).toBeNull();
  });

  it('is told beside the range, and a number that is no chance is refused', () => {
    expect(modelOf(0.7).basis.words).toContain('one element comes off is as you entered it');
    expect(modelOf(null).basis.words).not.toContain('as you entered');
    const read = readLayout({ elements: [{ code: '2A', reliability: 70 }] });
    expect(read.ok ? null : read.error.at).toBe('elements[0].reliability');
  });

  it('is worth on average what the whole distribution says, repeats and falls included', () => {
    const model = seniorFree(0.4);
    const gains = meanGains(model, 'total');
    if (!gains.ok) throw new Error(gains.error.found);
    expect(gains.value.length).toBeGreaterThan(5);
    for (const { no, mean } of gains.value.slice(0, 3)) {
      const exact = sensitivityOf(model, no - 1, 'total', []);
      expect(exact.ok ? exact.value?.mean : null).toBeCloseTo(mean, 6);
    }
  });
});
