import { readFileSync } from 'node:fs';

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { chooseRules, shippedLibrary, type ChosenRules } from '../../rulebook/index.ts';
import { pmfOf } from '../pmf.ts';
import { protocolOf, rulesOf } from '../testing/programs.ts';
import { backtest } from './backtest.ts';
import { Field } from './field.ts';
import { backtestLine, type Line } from './line.ts';
import { cdfAt, crpsOf, predictive, quantilesOf } from './predictive.ts';
import { normalCrps, PooledSpread } from './rivals.ts';
import { Past } from './walk.ts';

const OPEN_DATA = new URL('../../../test/data/protocols-2016-2018.jsonl', import.meta.url);

const chosen = new Map<string, ChosenRules>();

function rulesFor(season: string | null, category: string | null, segment: 'short' | 'free' | null): ChosenRules {
  const key = `${season ?? ''} ${category ?? ''} ${segment ?? ''}`;
  const known = chosen.get(key);
  if (known !== undefined) return known;
  const found = chooseRules(shippedLibrary(), {
    season: season ?? undefined,
    category: category ?? undefined,
    segment: segment ?? undefined,
  });
  if (!found.ok) throw new Error(found.error.advice);
  chosen.set(key, found.value);
  return found.value;
}

/** Lines of the open data up to a place in time. */
function openData(until: number): readonly Line[] {
  return readFileSync(OPEN_DATA, 'utf8')
    .trim()
    .split('\n')
    .map((text) => protocolOf(JSON.parse(text)))
    .filter((p) => (p.order ?? 0) <= until)
    .map((protocol, i) => {
      const line = backtestLine(protocol, rulesFor(protocol.season, protocol.category, protocol.segment), i);
      if (!line.ok) throw new Error(line.error.advice);
      return line.value;
    });
}

const early = openData(4);

describe('no forecast sees the present or the future', () => {
  const last = early.filter((l) => l.when <= 3);
  const expected = backtest(last, { priors: null }).predictions;

  it('later lines, whatever they hold, in whatever order, change nothing before them', () => {
    const later = early.filter((l) => l.when === 4);
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1_000_000 }),
        fc.double({ min: 0.2, max: 3, noNaN: true }),
        (seed, factor) => {
          const altered = later.map((l, i) => ({ ...l, total: l.total * factor, skater: `s${(seed * (i + 1)) % 97}` }));
          const mixed = [...altered, ...last].sort((a, b) => ((a.total * seed) % 13) - ((b.total * seed) % 13));
          const made = new Map(backtest(mixed, { priors: null }).predictions.map((p) => [p.id, p]));
          for (const prediction of expected) expect(made.get(prediction.id)).toEqual(prediction);
        },
      ),
      { numRuns: 4 },
    );
  });

  it('the same moment is not earlier: the own short program is not used for the free skate', () => {
    const first = last.filter((l) => l.when === 1);
    expect(backtest(first, { priors: null }).predictions.every((p) => p.quantiles === null && p.n === 0)).toBe(true);
  });

  it('asking for a forecast at or before a learnt moment throws', () => {
    const past = new Past(null);
    const [one] = last;
    if (one === undefined) throw new Error('no line');
    past.learn([one]);
    expect(() => past.forecast(one)).toThrow(/equal is not earlier/);
    expect(() => past.forecast({ ...one, when: one.when - 1 })).toThrow(/leak/);
    expect(() => past.learn([one])).toThrow(/leak/);
  });

  it('counts her own earlier protocols of the category and segment, and forecasts newcomers from the field', () => {
    const predictions = new Map(expected.map((p) => [p.id, p]));
    for (const line of last) {
      const own = last.filter(
        (l) =>
          l.when < line.when && l.skater === line.skater && l.category === line.category && l.segment === line.segment,
      );
      const field = last.some((l) => l.when < line.when && l.category === line.category && l.segment === line.segment);
      const made = predictions.get(line.id);
      expect(made?.n).toBe(own.length);
      expect(made?.quantiles !== null).toBe(field);
    }
  });

  it('writes rising quantiles', () => {
    for (const { quantiles } of expected) {
      const values = Object.values(quantiles ?? {});
      expect([...values]).toEqual([...values].sort((a, b) => a - b));
      if (quantiles !== null) expect(Object.keys(quantiles).sort()).toHaveLength(19);
    }
  });
});

describe('the forecast distribution', () => {
  const form = pmfOf([
    { points: -60, p: 0.15 },
    { points: 10, p: 0.35 },
    { points: 20, p: 0.5 },
  ]);

  it('has the mean and spread asked, its quantiles invert its cumulative chances', () => {
    for (const shape of [null, form]) {
      const made = predictive(112.3, 7.5, shape, 0.1);
      let mean = 0;
      let square = 0;
      made.p.forEach((p, i) => {
        const x = made.from + i * made.step;
        mean += p * x;
        square += p * x * x;
      });
      expect(mean).toBeCloseTo(112.3, 2);
      expect(Math.sqrt(square - mean * mean)).toBeCloseTo(7.5, 1);
      const levels = [0.05, 0.25, 0.5, 0.75, 0.95];
      quantilesOf(made, levels).forEach((x, i) => expect(cdfAt(made, x)).toBeCloseTo(levels[i] ?? 0, 9));
    }
  });

  it('without a form scores like the closed form of a normal', () => {
    for (const y of [80, 105, 112.3, 140]) {
      const made = predictive(112.3, 7.5, null, 0.1);
      expect(crpsOf(made, y)).toBeCloseTo(normalCrps({ mean: 112.3, sd: 7.5 }, y), 2);
    }
  });

  it('scores every distribution by the integral of its squared error', () => {
    const made = predictive(50, 4, form, 0.1);
    for (const y of [20, 47, 51.2, 90]) {
      let integral = 0;
      const step = 0.002;
      for (let x = 10; x < 100; x += step) integral += step * (cdfAt(made, x) - (x >= y ? 1 : 0)) ** 2;
      expect(crpsOf(made, y)).toBeCloseTo(integral, 2);
    }
  });
});

describe('rivals and field', () => {
  it('the closed CRPS of a normal is the integral of the squared error', () => {
    const rival = { mean: 60, sd: 5 };
    const made = predictive(60, 5, null, 1);
    let integral = 0;
    for (let x = 0; x < 120; x += 0.005) integral += 0.005 * (cdfAt(made, x) - (x >= 52 ? 1 : 0)) ** 2;
    expect(normalCrps(rival, 52)).toBeCloseTo(integral, 2);
  });

  it('spread is pooled over skaters and the field’s figures grow line by line', () => {
    const pooled = new PooledSpread();
    const field = new Field();
    const women = early.filter((l) => l.category === 'senior women' && l.segment === 'short');
    for (const line of women) {
      pooled.add(line);
      field.add(line);
    }
    const groups = [...new Set(women.map((l) => l.skater))].map((s) => women.filter((l) => l.skater === s));
    const mean = (list: readonly Line[]): number => list.reduce((sum, l) => sum + l.total, 0) / list.length;
    const squares = groups.reduce((sum, g) => sum + g.reduce((s, l) => s + (l.total - mean(g)) ** 2, 0), 0);
    const df = women.length - groups.length;
    const usual = (0.09 * mean(women)) ** 2;
    expect(pooled.sd(mean(women))).toBeCloseTo(Math.sqrt((squares + 5 * usual) / (df + 5)), 8);
    expect(field.figures()?.plainTotal.mean).toBeCloseTo(mean(women), 8);
    const weights = women.map((l) => 1 / (2 * women.filter((o) => o.skater === l.skater).length - 1));
    const weighted =
      women.reduce((sum, l, i) => sum + l.tes * (weights[i] ?? 0), 0) / weights.reduce((a, b) => a + b, 0);
    expect(field.figures()?.tes.mean).toBeCloseTo(weighted, 8);
  });
});

describe('lines that cannot be placed', () => {
  const rules = rulesOf('2017/18', 'senior men', 'short');
  const base = { category: 'senior men', segment: 'short', skater: 'a', elements: [], components: [] };

  it('say what is missing', () => {
    const at = (value: object): string | null => {
      const line = backtestLine(protocolOf({ ...base, ...value }), rules, 0);
      return line.ok ? null : line.error.at;
    };
    expect(at({ total: 70 })).toBe('order');
    expect(at({ order: 3, category: null, total: 70 })).toBe('category');
    expect(at({ order: 3, segment: null, total: 70 })).toBe('segment');
    expect(at({ date: '2017-11-18', total: 70 })).toBeNull();
  });
});

describe('on the open data', () => {
  const { summary } = backtest(openData(12), { priors: null });

  it('beats the best simple rival by more than three per cent, all lines and those with her own record', () => {
    expect(summary.ratio).toBeLessThanOrEqual(0.97);
    expect(summary.withOwn.ratio).toBeLessThanOrEqual(0.97);
    expect(summary.withOwn.n).toBe(316);
  });

  it('holds what came inside its 80 % range 76 to 84 times in 100', () => {
    for (const figures of [summary, summary.withOwn]) {
      expect(figures.coverage['0.8']).toBeGreaterThanOrEqual(0.76);
      expect(figures.coverage['0.8']).toBeLessThanOrEqual(0.84);
    }
  });

  it('has a flat histogram where her own record is known (chi-square, 9 degrees of freedom, 1 in 100)', () => {
    const { pit, n } = summary.withOwn;
    const chi = pit.reduce((sum, count) => sum + (count - n / 10) ** 2 / (n / 10), 0);
    expect(chi).toBeLessThan(21.67);
  });
});
