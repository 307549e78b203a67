import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { formatElement } from '../../notation/index.ts';
import { storedPriors } from '../priors/stored.ts';
import { reliabilityOf } from '../reliability.ts';
import { elementOf, rulesOf } from '../testing/programs.ts';
import { learnElement, ownRecord } from './learn.ts';
import { readRunThrough } from './practice-form.ts';
import { PRACTICE_LAST, PRACTICE_SHARE, practiceRows, type LoggedRunThrough } from './practice.ts';

const WORDS = ['opened', 'short', 'fell', 'stepped out', 'edge', 'no tail', 'left out'] as const;
const rules = rulesOf('2023/24', 'novice women', 'free');
const day = (i: number): string => `2023-10-${String(i + 1).padStart(2, '0')}`;
const runs = (count: number, what: string | null): LoggedRunThrough[] =>
  Array.from({ length: count }, (_, i) => ({
    at: day(i),
    elements: ['3S', '2A+2T', 'CCoSp4'],
    exceptions: what === null ? [] : [{ no: 1, what }],
  }));

/** How often a 3S comes off, learnt from run-throughs alone. */
function reliability(practice: readonly LoggedRunThrough[]): number {
  const plan = [elementOf('3S'), elementOf('2A+2T'), elementOf('CCoSp4')];
  const record = ownRecord(plan, [], rules, storedPriors(), [], practiceRows(practice));
  return reliabilityOf({ code: '3S', outcomes: learnElement(plan, 0, null, record, rules, storedPriors()) });
}

describe('run-throughs', () => {
  it('move a jump towards what was logged, and not far: a dozen count less than three competitions', () => {
    const none = reliability([]);
    expect(reliability(runs(12, null))).toBeGreaterThan(none);
    expect(reliability(runs(12, 'opened'))).toBeLessThan(none);
    const weight = practiceRows(runs(40, null)).reduce((sum, row) => sum + row.weight, 0);
    expect(weight).toBeLessThan(3);
    expect(weight).toBeGreaterThan(2);
  });

  it('never make it safer by something that went otherwise', () => {
    // Of a Salchow no edge is called, it has no tail here, and a step-out is no call.
    const calls = ['opened', 'short', 'fell'] as const;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 12 }), fc.nat(11), fc.constantFrom(...calls), (count, at, what) => {
        const clean = runs(count, null);
        const other = clean.map((run, i) => (i === at % count ? { ...run, exceptions: [{ no: 1, what }] } : run));
        expect(reliability(other)).toBeLessThan(reliability(clean));
      }),
    );
  });

  it('say nothing where the jump was left out, and nothing of levels and grades', () => {
    expect(reliability(runs(8, 'left out'))).toBeCloseTo(reliability([]), 12);
    const [row] = practiceRows(runs(1, 'opened'));
    expect(row?.skated.map((s) => [formatElement(s.element), s.grade, s.fall])).toEqual([
      ['2S', null, false],
      ['2A+2T', null, false],
    ]);
  });

  it('count the newest, whatever the order they come in', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(runs(20, null), { minLength: 1 }), (some) => {
        const rows = practiceRows(some);
        expect(rows).toHaveLength(Math.min(PRACTICE_LAST, some.length));
        expect(rows[0]?.weight).toBe(PRACTICE_SHARE);
      }),
    );
  });

  it('are what they say in the words of the log', () => {
    const told = (what: string) =>
      practiceRows([{ at: day(0), elements: ['3Lz+2T'], exceptions: [{ no: 1, what }] }])[0]?.skated.map(
        ({ element, fall }) => `${formatElement(element)}${fall ? ' F' : ''}`,
      );
    expect(WORDS.map(told)).toEqual([['2Lz'], ['3Lz<+2T'], ['3Lz F'], ['3Lz+2T'], ['3Lze+2T'], ['3Lz'], []]);
  });
});

describe('the form of a run-through', () => {
  it('is read, and what is wrong in it is named with its place', () => {
    const good = { at: day(0), elements: ['3S'], exceptions: [{ no: 1, code: '3S', what: 'opened' }], note: 'cold' };
    const read = readRunThrough(good);
    expect(read.ok && read.value.exceptions).toEqual([{ no: 1, what: 'opened' }]);
    const wrong = [
      [{ ...good, at: 'yesterday' }, 'at'],
      [{ ...good, elements: ['3Zz'] }, 'elements[0]'],
      [{ ...good, exceptions: [{ no: 2, what: 'opened' }] }, 'exceptions[0].no'],
      [{ ...good, exceptions: [{ no: 1 }] }, 'exceptions[0].what'],
    ] as const;
    for (const [value, at] of wrong) {
      const answer = readRunThrough(value);
      expect(answer.ok ? null : answer.error.at).toBe(at);
    }
  });
});
