import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { auditAnswer } from '../index.ts';
import { auditOf } from '../testing/rules.ts';

/*
 * Sheets of 2023/24 (grades -5 to +5, three components) made up at random and computed a second time
 * here with a decimal library: base values as text, steps of 10 %, half up away from zero.
 */

const round = (value: Decimal): Decimal => value.toDecimalPlaces(2, Decimal.ROUND_HALF_UP);

/** Values of 2023/24 as in the facts (singles published, the rest published or from memory). */
const ENTRIES: readonly { readonly code: string; readonly parts: readonly string[]; readonly jump: boolean }[] = [
  { code: '3Lz+3T', parts: ['5.90', '4.20'], jump: true },
  { code: '3Lz<+3T', parts: ['4.72', '4.20'], jump: true },
  { code: '3F!', parts: ['5.30'], jump: true },
  { code: '3Fe+2T', parts: ['4.24', '1.30'], jump: true },
  { code: '2A+1Eu+2S', parts: ['3.30', '0.50', '1.30'], jump: true },
  { code: '3Loq', parts: ['4.90'], jump: true },
  { code: '3S<<', parts: ['1.30'], jump: true },
  { code: '2A+2A+SEQ', parts: ['3.30', '3.30'], jump: true },
  { code: 'CCoSp3V', parts: ['2.25'], jump: false },
  { code: 'FSSp4', parts: ['3.00'], jump: false },
  { code: 'LSp2', parts: ['1.90'], jump: false },
  { code: 'StSq3', parts: ['3.30'], jump: false },
];

const grade = fc.integer({ min: -5, max: 5 });
const mark = fc.integer({ min: 1, max: 40 }).map((quarters) => quarters / 4);

const sheet = fc.record({
  judges: fc.integer({ min: 3, max: 9 }),
  elements: fc.array(
    fc.record({ entry: fc.constantFrom(...ENTRIES), grades: fc.array(grade, { minLength: 9, maxLength: 9 }) }),
    {
      minLength: 1,
      maxLength: 12,
    },
  ),
  bonus: fc.nat({ max: 3 }),
  components: fc.array(fc.array(mark, { minLength: 9, maxLength: 9 }), { minLength: 3, maxLength: 3 }),
  falls: fc.nat({ max: 5 }),
});

function meanOf(values: readonly Decimal[]): Decimal {
  const sorted = [...values].sort((a, b) => a.comparedTo(b));
  const kept = sorted.length >= 5 ? sorted.slice(1, -1) : sorted;
  return round(Decimal.sum(...kept).div(kept.length));
}

function goeOf(parts: readonly string[], grades: readonly number[]): Decimal {
  const step = Decimal.max(...parts).div(10);
  return meanOf(grades.map((one) => round(step.times(one))));
}

const SCALE = [0, -1, -2, -4, -6, -9];
const NAMES = ['Composition', 'Presentation', 'Skating Skills'];

/** The sheet as a form with every figure printed, from decimals. */
function printed(given: typeof sheet extends fc.Arbitrary<infer T> ? T : never) {
  const jumps = given.elements.filter((one) => one.entry.jump).length;
  let seen = 0;
  const elements = given.elements.map(({ entry, grades }, i) => {
    if (entry.jump) seen += 1;
    const half = entry.jump && seen > jumps - Math.min(given.bonus, jumps);
    const sum = Decimal.sum(...entry.parts);
    const base = half ? round(sum.times('1.1')) : sum;
    const marks = grades.slice(0, given.judges);
    const goe = goeOf(entry.parts, marks);
    return {
      no: i + 1,
      code: entry.code,
      half,
      base: base.toNumber(),
      goe: goe.toNumber() + 0,
      marks,
      score: base.plus(goe).toNumber(),
    };
  });
  const components = given.components.map((all, i) => {
    const marks = all.slice(0, given.judges);
    return {
      name: NAMES[i] ?? '',
      factor: 2.67,
      marks,
      score: meanOf(marks.map((one) => new Decimal(one))).toNumber(),
    };
  });
  const tes = Decimal.sum(0, ...elements.map((one) => one.score));
  const pcs = Decimal.sum(0, ...components.map((one) => round(new Decimal(one.score).times('2.67'))));
  const deductions = SCALE[given.falls] ?? 0;
  const total = tes.plus(pcs).plus(deductions);
  const heading = { id: 'made-up', season: '2023/24', category: 'senior women', segment: 'free' };
  return {
    ...heading,
    elements,
    components,
    deductions,
    tes: tes.toNumber(),
    pcs: pcs.toNumber(),
    total: total.toNumber(),
  };
}

describe('a sheet of 2023/24', () => {
  it('is recomputed as a decimal library does, for 3 to 9 judges', () => {
    fc.assert(
      fc.property(sheet, (given) => {
        const form = printed(given);
        const bare = {
          ...form,
          elements: form.elements.map(({ no, code, half, marks }) => ({ no, code, half, marks })),
          components: form.components.map(({ name, factor, marks }) => ({ name, factor, marks })),
          tes: null,
          pcs: null,
          total: null,
        };
        expect(auditAnswer(auditOf(bare))).toMatchObject({
          elements: form.elements.map(({ no, base, goe, score }) => ({ no, base, goe, score })),
          components: form.components.map(({ name, score }) => ({ name, score })),
          tes: form.tes,
          pcs: form.pcs,
          deductions: form.deductions,
          findings: [],
        });
        expect(auditOf({ ...bare, total: form.total }).total).toBe(Math.round(form.total * 100));
        expect(auditOf(form).findings).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  it('scores no less when a judge gives more', () => {
    fc.assert(
      fc.property(sheet, fc.nat(), fc.nat(), (given, which, judge) => {
        const form = printed(given);
        const raised = structuredClone(form);
        const row = raised.elements[which % raised.elements.length];
        if (row === undefined) return;
        const j = judge % row.marks.length;
        row.marks[j] = Math.min(5, (row.marks[j] ?? 0) + 1);
        expect(auditOf(raised).tes).toBeGreaterThanOrEqual(auditOf(form).tes ?? 0);
      }),
      { numRuns: 200 },
    );
  });
});
