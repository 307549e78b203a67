import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { readInventory, readLayout, readProtocol, writeProtocol } from './index.ts';

const problemOf = (value: unknown, reader: (value: unknown) => ReturnType<typeof readProtocol> = readProtocol) => {
  const read = reader(value);
  return read.ok ? null : read.error;
};

describe('protocol form', () => {
  it('turns points into hundredths and keeps what is missing null', () => {
    const read = readProtocol({
      id: 7,
      season: '2023-24',
      category: 'Junior Ladies',
      segment: 'free',
      elements: [{ no: 1, code: '3Lz<+3T', base: 9.81, goe: -0.38, marks: [2, null, 1] }],
      components: [{ name: 'Composition', factor: 2.67, marks: [6.25, null], score: 6.25 }],
      deductions: [{ reason: 'fall', count: 1, points: -1.0 }],
      unknownField: { anything: true },
    });
    expect(read).toMatchObject({
      ok: true,
      value: {
        id: '7',
        season: '2023/24',
        category: 'junior women',
        elements: [{ base: 981, goe: -38, marks: [2, null, 1], score: null, half: false, info: '' }],
        components: [{ factor: 267, marks: [625, null], score: 625 }],
        deductions: { total: -100, items: [{ reason: 'fall', count: 1, points: -100 }] },
        tes: null,
        bonus: null,
        warnings: [],
      },
    });
  });

  it('reads a positive deduction as its negative, with a warning', () => {
    expect(readProtocol({ elements: [], deductions: 1 })).toMatchObject({
      ok: true,
      value: { deductions: { total: -100 }, warnings: [expect.stringContaining('1.00 was read as -1.00')] },
    });
  });

  it.each([
    [{}, 'elements', 'nothing'],
    [[], 'value', 'a list of 0'],
    ['text', 'value', '"text"'],
    [{ elements: [{ code: 5 }] }, 'elements[0].code', '5'],
    [{ elements: [{ code: '3T', base: 9.815 }] }, 'elements[0].base', '9.815'],
    [{ elements: [{ code: '3T', base: '9.81' }] }, 'elements[0].base', '"9.81"'],
    [{ elements: [{ code: '3T', marks: [1, 2.5] }] }, 'elements[0].marks[1]', '2.5'],
    [{ elements: [{ code: '3T', half: 'x' }] }, 'elements[0].half', '"x"'],
    [{ elements: [], components: [{ name: 'Composition', factor: 0 }] }, 'components[0].factor', '0'],
    [{ elements: [], deductions: [{ reason: 'fall', points: 'one' }] }, 'deductions[0].points', '"one"'],
    [{ elements: [], category: 'ladies' }, 'category', '"ladies"'],
    [{ elements: [], season: '2023' }, 'season', '"2023"'],
    [{ elements: [], segment: 'pattern dance' }, 'segment', '"pattern dance"'],
    [{ elements: [], date: '2023-02-30' }, 'date', '"2023-02-30"'],
    [{ elements: [], total: Infinity }, 'total', 'null'],
    [{ elements: Array.from({ length: 501 }, () => ({ code: '3T' })) }, 'elements', 'a list of 501'],
  ])('%j is refused at %s', (value, at, found) => {
    expect(problemOf(value)).toMatchObject({ code: 'protocol.form', at, found });
  });

  it('is read back from what it writes', () => {
    const points = fc.integer({ min: -2000, max: 20000 }).map((value) => value / 100);
    const form = fc.record(
      {
        id: fc.string(),
        season: fc.constant('2023/24'),
        category: fc.constantFrom('senior women', 'basic novice men'),
        segment: fc.constantFrom('short', 'free'),
        elements: fc.array(
          fc.record(
            {
              no: fc.nat(),
              code: fc.string(),
              info: fc.string(),
              feedback: fc.string(),
              half: fc.boolean(),
              base: points,
              goe: points,
              marks: fc.array(fc.option(fc.integer({ min: -5, max: 5 }))),
              score: points,
            },
            { requiredKeys: ['code'] },
          ),
        ),
        components: fc.array(
          fc.record({
            name: fc.string(),
            factor: points.filter((value) => value > 0),
            marks: fc.array(fc.option(points)),
          }),
        ),
        deductions: fc.oneof(
          points.map((value) => -Math.abs(value)),
          fc.array(fc.record({ reason: fc.string(), points: points.map((value) => -Math.abs(value)) })),
        ),
        tes: points,
        total: points,
      },
      { requiredKeys: ['elements'] },
    );
    fc.assert(
      fc.property(form, (value) => {
        const first = readProtocol(value);
        expect(first.ok).toBe(true);
        if (first.ok) expect(readProtocol(writeProtocol(first.value))).toEqual(first);
      }),
    );
  });

  it('never throws, whatever it is given', () => {
    fc.assert(
      fc.property(fc.anything(), (value) => {
        for (const read of [readProtocol, readLayout, readInventory]) expect(typeof read(value).ok).toBe('boolean');
        expect(typeof readProtocol({ elements: [value], deductions: value }).ok).toBe('boolean');
      }),
    );
  });
});

describe('layout form', () => {
  const outcome = (p: number, grade: object) => ({ p, code: '2A', grade });
  const withOutcomes = (...outcomes: object[]) => ({ elements: [{ code: '2A+2T', outcomes }] });

  it('normalises probabilities that sum to 1 within 1e-9', () => {
    const read = readLayout(withOutcomes(outcome(0.7, { '0': 0.5, '-1.5': 0.5 + 5e-10 }), outcome(0.3, { '1': 1 })));
    expect(read.ok).toBe(true);
    const outcomes = read.ok ? (read.value.elements[0]?.outcomes ?? []) : [];
    expect(outcomes.map((one) => one.p).reduce((a, b) => a + b)).toBeCloseTo(1, 15);
    expect(outcomes[0]?.grades.map((one) => one.grade)).toEqual([-1.5, 0]);
    expect(outcomes[0]?.grades.map((one) => one.p).reduce((a, b) => a + b)).toBeCloseTo(1, 15);
  });

  it.each([
    [withOutcomes(outcome(0.7, { '0': 1 }), outcome(0.3001, { '0': 1 })), 'elements[0].outcomes'],
    [withOutcomes(outcome(1, { '0': 0.9 })), 'elements[0].outcomes[0].grade'],
    [withOutcomes(outcome(1, { good: 1 })), 'elements[0].outcomes[0].grade'],
    [withOutcomes(outcome(1, {})), 'elements[0].outcomes[0].grade'],
    [withOutcomes(outcome(-1, { '0': 1 }), outcome(2, { '0': 1 })), 'elements[0].outcomes[0].p'],
    [withOutcomes({ p: 1, code: '2Az', grade: { '0': 1 } }), 'elements[0].outcomes[0].code'],
    [{ elements: [{ code: '3Lzz' }] }, 'elements[0].code'],
    [{ elements: [{ code: '2A', stage: 'soon' }] }, 'elements[0].stage'],
    [{ elements: [], form: { sd: -1 } }, 'form.sd'],
  ])('%j is refused at %s', (value, at) => expect(readLayout(value)).toMatchObject({ ok: false, error: { at } }));

  it('tells absent components from none', () => {
    const components = (value: object) => {
      const read = readLayout({ elements: [], ...value });
      return read.ok ? read.value.components : undefined;
    };
    expect(components({})).toBeNull();
    expect(components({ components: [] })).toEqual([]);
  });
});

describe('inventory form', () => {
  it('has defaults for what it does not say', () => {
    expect(readInventory({ elements: [{ code: '2A', max: 2 }] })).toMatchObject({
      ok: true,
      value: { combine: 'listed', constraints: { must: [], never: [], latePenalty: 0 }, elements: [{ max: 2 }] },
    });
  });

  it.each([
    [{ elements: [{ code: '2A', max: 0 }] }, 'elements[0].max'],
    [{ elements: [], combine: 'all' }, 'combine'],
    [{ elements: [], constraints: { must: ['2A', '9A9'] } }, 'constraints.must[1]'],
    [{ elements: [], constraints: { latePenalty: -1 } }, 'constraints.latePenalty'],
  ])('%j is refused at %s', (value, at) => expect(readInventory(value)).toMatchObject({ ok: false, error: { at } }));
});
