import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { practiceRecord, practiceSentence } from './practice.ts';

const run = (at: string, what: string | null = null) => ({
  at,
  elements: ['3S', 'CCoSp4', '3S'],
  exceptions: what === null ? [] : [{ no: 1, what }],
});

describe('run-throughs of an element', () => {
  it('are counted in words: of the last dozen, and of the last week', () => {
    const runs = [
      run('2023-10-01', 'opened'),
      run('2023-10-12', 'fell'),
      run('2023-10-13'),
      run('2023-10-14T18:30:00.000Z', 'left out'),
    ];
    const record = practiceRecord(runs, '3S', '2023-10-14');
    // Two 3S in every program; the one that was left out is no try.
    expect(record).toEqual({ last: { asPlanned: 5, tried: 7 }, week: { asPlanned: 4, tried: 5 } });
    expect(practiceSentence('3S', record)).toBe('landed 5 of the last 7 in run-throughs; last week 4 of 5');
    expect(practiceSentence('CCoSp4', practiceRecord(runs, 'CCoSp4', '2023-10-14'))).toBe(
      'as planned 4 of the last 4 in run-throughs; last week 3 of 3',
    );
  });

  it('say nothing of an element that was not tried', () => {
    expect(practiceSentence('2A', practiceRecord([run('2023-10-01')], '2A', '2023-10-14'))).toBeNull();
  });

  it('never count more landed than tried, nor more than the last dozen', () => {
    const words = fc.constantFrom('opened', 'fell', 'left out', null);
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.integer({ min: 1, max: 28 }), words), { maxLength: 30 }), (logged) => {
        const runs = logged.map(([day, what]) => run(`2023-10-${String(day).padStart(2, '0')}`, what));
        const { last, week } = practiceRecord(runs, '3S', '2023-10-20');
        expect(last.asPlanned).toBeLessThanOrEqual(last.tried);
        expect(week.asPlanned).toBeLessThanOrEqual(week.tried);
        expect(last.tried).toBeLessThanOrEqual(12);
      }),
    );
  });
});
