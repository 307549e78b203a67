import fc from 'fast-check';
import jstat from 'jstat';
import { describe, expect, it } from 'vitest';

import { chooseRules, shippedLibrary } from '../rulebook/index.ts';
import { readProtocol } from '../scoring/index.ts';
import {
  bestsOf,
  callRecords,
  chanceWithin,
  elementHistory,
  goalState,
  levelAttainment,
  LOAD_CAUTIONS,
  loadByWeek,
  outlookOf,
  seasonLines,
  seasonProgram,
  seasonView,
  sinceLast,
  standing,
  trendOf,
  usualRange,
  type SeasonProgram,
  type Video,
} from './index.ts';

const { jStat } = jstat;

function program(
  order: number,
  codes: readonly string[],
  total: number,
  more: object = {},
  video?: Video,
): SeasonProgram {
  const value = {
    season: '2023/24',
    category: 'junior women',
    segment: 'short',
    competition: `event ${order}`,
    order,
    total,
    tes: total / 2,
    pcs: total / 2,
    elements: codes.map((code) => ({ code, marks: [1, 1, 1], score: 3 + order })),
    components: [{ name: 'Composition', score: 5 + order / 10, marks: [] }],
    ...more,
  };
  const read = readProtocol(value);
  const rules = chooseRules(shippedLibrary(), { season: '2023/24', category: 'junior women', segment: 'short' });
  if (!read.ok || !rules.ok) throw new Error('test protocol');
  return seasonProgram(read.value, rules.value, order, video);
}

describe('trend', () => {
  it('has the slope and interval of a least-squares line', () => {
    // By hand: 1, 3, 2, 6 over 0..3: slope 1.4, residual sum of squares 4.2, sum of squares across 5.
    const trend = trendOf([1, 3, 2, 6]);
    expect(trend?.perEvent).toBeCloseTo(1.4, 12);
    expect(trend?.noise).toBeCloseTo(Math.sqrt(4.2 / 2), 12);
    const reach = jStat.studentt.inv(0.975, 2) * Math.sqrt(4.2 / 2 / 5);
    expect(trend?.interval[1]).toBeCloseTo(1.4 + reach, 5);
    expect(trend?.direction).toBe('none');
  });

  it('says up only where the change is larger than the noise, and nothing of three results', () => {
    expect(trendOf([1, 2, 3])).toBeNull();
    expect(trendOf([10, 12.1, 13.9, 16, 18.1])?.direction).toBe('up');
    expect(trendOf([18.1, 16, 13.9, 12.1, 10])?.direction).toBe('down');
  });

  it('calls pure noise a trend about once in twenty', () => {
    let called = 0;
    let seed = 7;
    const noise = (): number => {
      let sum = 0;
      for (let i = 0; i < 12; i++) {
        seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
        sum += seed / 2 ** 32;
      }
      return sum - 6;
    };
    for (let i = 0; i < 2000; i++) if (trendOf(Array.from({ length: 6 }, noise))?.direction !== 'none') called++;
    expect(called / 2000).toBeGreaterThan(0.03);
    expect(called / 2000).toBeLessThan(0.07);
  });
});

describe('usual range', () => {
  it('is Student’s range for one more result', () => {
    const range = usualRange([50, 54, 52]);
    const reach = jStat.studentt.inv(0.9, 2) * Math.sqrt(4 * (1 + 1 / 3));
    expect(range?.low).toBeCloseTo(52 - reach, 5);
    expect(usualRange([50, 54])).toBeNull();
    expect([standing(52, range), standing(10, range), standing(90, range), standing(1, null)]).toEqual([
      'inside',
      'below',
      'above',
      'unknown',
    ]);
  });
});

describe('goals', () => {
  it('one event: the chance of the normal; more events never help less, and less than if independent', () => {
    fc.assert(
      fc.property(fc.double({ min: 40, max: 60, noNaN: true }), fc.integer({ min: 2, max: 8 }), (target, events) => {
        const outlook = { mean: 50, levelSd: 2, daySd: 3 };
        const one = chanceWithin(target, 1, outlook);
        const more = chanceWithin(target, events, outlook);
        expect(one).toBeCloseTo(1 - jStat.normal.cdf(target - 0.005, 50, Math.hypot(2, 3)), 3);
        expect(more).toBeGreaterThanOrEqual(one - 1e-12);
        expect(more).toBeLessThanOrEqual(1 - (1 - one) ** events + 1e-6);
      }),
    );
  });

  it('has no outlook from fewer than three results', () => {
    expect(outlookOf([50, 51])).toBeNull();
    expect(outlookOf([50, 50, 50])?.mean).toBeCloseTo(50, 10);
    expect(outlookOf([50, 50, 50])?.daySd).toBeGreaterThan(0);
  });

  it('is met, on the way or moved; never failed', () => {
    const goal = { target: 50, by: '2024-02-01' };
    expect(goalState(goal, [{ total: 50 }], '2024-03-01')).toBe('met');
    expect(goalState(goal, [{ total: 49.99 }], '2024-01-31')).toBe('on the way');
    expect(goalState(goal, [{ total: 49.99 }], '2024-02-02')).toBe('moved');
  });
});

describe('a record of programs', () => {
  const record = [
    program(1, ['3Lz+2T', '2A', 'CCoSp3', 'StSq2'], 48, {}, 'no'),
    program(2, ['3Lz<+2T', '2A', 'CCoSp4', 'StSq2'], 47, {}, 'yes'),
    program(3, ['3Lz+2T', '1A', 'CCoSp3V', 'StSq3'], 45, {}, 'yes'),
    program(4, ['3Lz+3T', '2A', 'CCoSp4', 'StSq3'], 53, {}, 'yes'),
  ];

  it('is told element by element', () => {
    const history = elementHistory(record);
    expect(history.find((h) => h.element === '3Lz+2T')).toMatchObject({ clean: 2 });
    expect(history.find((h) => h.element === '3Lz+2T')?.executions.map((e) => e.code)).toEqual([
      '3Lz+2T',
      '3Lz<+2T',
      '3Lz+2T',
    ]);
    expect(history.find((h) => h.element === 'CCoSp')?.gradeTrend?.n).toBe(4);
    expect(levelAttainment(record).find((l) => l.element === 'CCoSp')).toMatchObject({
      n: 4,
      reduced: 1,
      levels: { '3': 2, '4': 2 },
    });
  });

  it('keeps events with and without video apart', () => {
    const calls = callRecords(record).filter((c) => c.jump === '3Lz');
    expect(calls).toEqual([
      { jump: '3Lz', video: 'yes', tries: 3, calls: { '<': 1 } },
      { jump: '3Lz', video: 'no', tries: 1, calls: {} },
    ]);
  });

  it('says what changed and whether it is inside the usual range', () => {
    // Before it 48, 47, 45: mean 46.67, spread 1.53, so usually up to 46.67 + 1.886 x 1.53 x 1.155 = 50.0.
    const last = sinceLast(record);
    expect(last).toMatchObject({ competition: 'event 4', before: 'event 3', change: 8, standing: 'above' });
    expect(last?.elements).toContainEqual({ element: '3Lz+3T', before: null, now: '3Lz+3T', points: null });
    expect(last?.usual?.high).toBeCloseTo(50, 1);
    expect(sinceLast(record.slice(0, 3))).toMatchObject({ standing: 'unknown', change: -2 });
    expect(sinceLast(record.slice(0, 1))).toBeNull();
  });

  it('knows the personal and the season’s best', () => {
    const older = program(0, ['2A'], 60, { season: '2022/23' });
    expect(bestsOf([older, ...record])).toMatchObject([
      { personal: { total: 60 }, season: { total: 53, competition: 'event 4' } },
    ]);
  });

  it('prints no chance before three programs and no word that a family should not read', () => {
    const view = seasonView('a', record, { targets: [50], events: 2 });
    expect(seasonView('a', record.slice(0, 2), { targets: [50], events: 2 }).kinds[0]?.targets).toBeNull();
    const text = seasonLines(view).join('\n');
    expect(text).toContain('usual range');
    expect(text).not.toMatch(/failed|weak|lazy|!\s|%/);
  });

  it('says so where two scales of grades meet', () => {
    const old = readProtocol({
      season: '2017/18',
      category: 'junior women',
      segment: 'short',
      order: 0,
      total: 40,
      elements: [],
    });
    const rules = chooseRules(shippedLibrary(), { season: '2017/18', category: 'junior women', segment: 'short' });
    if (!old.ok || !rules.ok) throw new Error('test protocol');
    const view = seasonView('a', [seasonProgram(old.value, rules.value, 0), ...record]);
    expect(view.warnings.join(' ')).toContain('two scales');
    expect(view.kinds[0]?.totalTrend).toBeNull();
  });
});

describe('jump counts', () => {
  it('add up by week from Monday, without a norm', () => {
    const weeks = loadByWeek([
      { at: '2024-01-01', attempts: 30 },
      { at: '2024-01-07T18:00:00Z', attempts: 20 },
      { at: '2024-01-08', attempts: 10 },
      { at: 'no date', attempts: 99 },
    ]);
    expect(weeks).toEqual([
      { week: '2024-01-01', attempts: 50, days: 2 },
      { week: '2024-01-08', attempts: 10, days: 1 },
    ]);
    expect(LOAD_CAUTIONS[0]).toBe('Counts only what was logged; a low number does not mean rest.');
    expect(LOAD_CAUTIONS.join(' ')).not.toMatch(/\d/);
  });
});
