import { describe, expect, it } from 'vitest';
import { entryOf, five, layoutOf, pointsOf, protocolOf, readForm, sheetOf, sumOf } from './testing/readings.ts';

const novice = { category: 'novice women' };

describe('clean: every element as attempted', () => {
  it.each([
    ['3Lz<', 590],
    ['3Fe<+2T', 530 + 130],
    ['3Lz*', 590],
    ['2A+REP', 330],
    ['3T+COMBO', 420],
    ['3F+2A+SEQ', 530 + 330],
    ['1A', 110],
    ['A', 0],
    ['CCoSp2V', 350],
    ['CCoSp', 350],
    ['StSqB', 390],
    ['ChSq1', 300],
  ])('%s stands at %i hundredths', (code, reference) => {
    const marks = /\*|^A$|^CCoSp$/.test(code) ? [] : five(0);
    expect(readForm(sheetOf([{ code, marks }])).reference).toMatchObject({ kind: 'clean', tes: reference });
  });

  it('keeps the half as printed, also on the cleaned element', () => {
    const reading = readForm(sheetOf([{ code: '3Lz<', half: true, marks: five(0) }]));
    expect(reading.reference.tes).toBe(649);
    expect(entryOf(reading, 'second-half')).toBeUndefined();
  });

  it('takes the cap of the category: ISU basic novice 2, national intermediate steps 2', () => {
    const steps = [{ code: 'StSq1', marks: five(0) }];
    expect(readForm(sheetOf(steps, { category: 'basic novice women' })).reference.tes).toBe(260);
    expect(readForm(sheetOf(steps, { category: 'intermediate women' })).reference.tes).toBe(260);
  });

  it('without value: the star, and what a rotation call adds, share the whole', () => {
    const reading = readForm(sheetOf([{ code: '3T<*', marks: [] }]));
    // v: clean 4.20, call alone 3.36, star 0.
    expect(pointsOf(reading, 'rotation')).toBe(-42);
    expect(pointsOf(reading, 'no-value')).toBe(-378);
  });

  it('a repeat is the share of the repeat rule', () => {
    const reading = readForm(sheetOf([{ code: '3Lo+REP', marks: five(0) }]));
    expect(pointsOf(reading, 'repeat')).toBe(343 - 490);
  });

  it('components as awarded; bonus and deductions against none', () => {
    const reading = readForm(
      sheetOf([{ code: '2A', marks: five(0) }], {
        components: [{ name: 'Composition', factor: 2.67, marks: five(5) }],
        bonus: 1,
        deductions: [
          { reason: 'fall', count: 1, points: -1 },
          { reason: 'time violation', points: -2 },
        ],
      }),
    );
    expect(reading.reference).toMatchObject({ tes: 330, pcs: 1335, deductions: 0, total: 1665 });
    expect(reading.awarded).toMatchObject({ tes: 330, pcs: 1335, deductions: -300, total: 1465 });
    expect(pointsOf(reading, 'fall', null)).toBe(-100);
    expect(pointsOf(reading, 'deduction', null)).toBe(-200);
    expect(entryOf(reading, 'bonus', null)).toMatchObject({ points: 100, winBack: -100, fieldOfPlay: false });
    expect(sumOf(reading)).toBe(reading.difference);
  });

  it('an unitemised deduction is split by the falls on the sheet and the scale of the season', () => {
    const falls = [
      { code: '2A', info: 'F', marks: five(-5) },
      { code: '3T', info: 'F', marks: five(-5) },
      { code: '3SF', marks: five(-5) },
    ];
    const reading = readForm(sheetOf(falls, { deductions: -5 }));
    expect(pointsOf(reading, 'fall', null)).toBe(-400);
    expect(pointsOf(reading, 'deduction', null)).toBe(-100);
  });
});

describe('what a sheet lacks is left out on both sides', () => {
  it('marks of an element with value', () => {
    const reading = readForm(sheetOf([{ code: '2A', marks: five(0) }, { code: '3Lz<', marks: [] }, { code: '3T' }]));
    expect(reading.awarded.tes).toBe(330);
    expect(reading.reference.tes).toBe(330);
    expect(reading.ledger).toEqual([]);
    expect(reading.warnings.join(' ')).toMatch(/elements\[1\].*left out on both sides/);
  });
  it('no components: the sum is null and the total is what is there', () => {
    const reading = readForm(sheetOf([{ code: '2A', marks: five(1) }]));
    expect(reading.awarded).toMatchObject({ pcs: null, total: 363 });
    expect(reading.reference).toMatchObject({ pcs: null, total: 330 });
  });
  it('a code that cannot be read, or a grade off the scale', () => {
    const reading = readForm(
      sheetOf([
        { code: 'what', marks: five(0) },
        { code: '2A', marks: five(7) },
      ]),
    );
    expect(reading.awarded).toMatchObject({ tes: null, total: 0 });
    expect(reading.findings.map((one) => one.kind)).toContain('unreadable');
  });
});

describe('usual: her medians of the history', () => {
  const earlier = (id: string, elements: object[], more: object = {}) =>
    protocolOf(sheetOf(elements, { id, skater: 'W', ...more }));
  const history = [
    earlier('a', [
      { code: 'StSq2', marks: five(0) },
      { code: '2A<', marks: five(-2) },
    ]),
    earlier('b', [
      { code: 'StSq3', marks: five(1) },
      { code: '2A', marks: [1, 0, 0, 1, 0] },
    ]),
    earlier('c', [
      { code: 'StSq2', marks: five(2) },
      { code: '2A', marks: five(1) },
    ]),
  ];
  const today = (elements: object[]) => sheetOf(elements, { id: 'today', skater: 'W', order: 9 });

  it('level and grade are medians, with calls counted in', () => {
    const reading = readForm(
      today([
        { code: 'StSq3', marks: five(1) },
        { code: '2A', marks: five(1) },
      ]),
      { history },
    );
    expect(reading.reference.kind).toBe('usual');
    // StSq2 at +1: 2.60 + 0.26; 2A at 1/3: 3.30 + 0.11.
    expect(reading.reference.tes).toBe(286 + 341);
    expect(pointsOf(reading, 'execution', 2)).toBe(22);
  });

  it('an even number takes the mean of grades and the lower of levels', () => {
    const two = history.slice(0, 2);
    const reading = readForm(today([{ code: 'StSq4', marks: five(0) }]), { history: two });
    expect(reading.reference.tes).toBe(260 + 13);
  });

  it('an element without history is clean', () => {
    expect(readForm(today([{ code: '3Lz<', marks: five(0) }]), { history }).reference.tes).toBe(590);
  });

  it('other skaters, later programs and the sheet itself are passed over', () => {
    const others = [
      earlier('today', [{ code: '2A', marks: five(5) }]),
      earlier('x', [{ code: '2A', marks: five(5) }], { skater: 'V' }),
      earlier('y', [{ code: '2A', marks: five(5) }], { order: 9 }),
      earlier('z', [{ code: '2A', marks: five(5) }], { order: 12 }),
    ];
    const reading = readForm(today([{ code: '2A', marks: five(0) }]), { history: [...history, ...others] });
    expect(reading.reference.tes).toBe(341);
  });

  it('only where it is asked for is the history left aside', () => {
    const reading = readForm(today([{ code: '2A', marks: five(0) }]), { history, reference: 'clean' });
    expect(reading.reference).toMatchObject({ kind: 'clean', tes: 330 });
  });
});

describe('layout: the planned elements', () => {
  const plan = (elements: object[], more: object = {}) =>
    layoutOf({ season: '2023/24', category: 'senior women', segment: 'free', elements, ...more });

  it('a popped jump is content; its call stays rotation', () => {
    const layout = plan([{ code: '2A' }, { code: '3Lz' }]);
    const form = sheetOf([
      { code: '1A', marks: five(0) },
      { code: '2Lz<', marks: five(0) },
    ]);
    const reading = readForm(form, { layout });
    expect(pointsOf(reading, 'content', 1)).toBe(110 - 330);
    expect(pointsOf(reading, 'content', 2)).toBeLessThan(-300);
    expect(pointsOf(reading, 'rotation', 2)).toBeLessThan(0);
    expect(sumOf(reading)).toBe(reading.difference);
    expect(reading.findings.map((one) => [one.kind, one.at])).toEqual([
      ['slip', 'elements[0].code'],
      ['slip', 'elements[1].code'],
    ]);
  });

  it('missing partner, missing element, added element', () => {
    const layout = plan([{ code: '3Lz+3T' }, { code: 'LSp3' }, { code: '2A' }, { code: 'StSq3' }]);
    const form = sheetOf([
      { code: '3Lz+COMBO', marks: five(0) },
      { code: '2A', marks: five(0) },
      { code: '3T', marks: five(0) },
      { code: 'StSq3', marks: five(0) },
    ]);
    const reading = readForm(form, { layout });
    const content = reading.ledger.map((one) => [one.no, one.element, one.cause, one.points]);
    expect(content).toEqual([
      [1, '3Lz+COMBO', 'content', -420],
      [2, 'LSp3', 'content', -240],
      [3, '3T', 'content', 420],
    ]);
  });

  it('planned level and grade; without level the highest, without grade 0', () => {
    const layout = plan([{ code: 'CCoSp3', grade: 1.5 }, { code: 'LSp' }]);
    const reading = readForm(
      sheetOf([
        { code: 'CCoSp4', marks: five(2) },
        { code: 'LSp4', marks: five(0) },
      ]),
      { layout },
    );
    expect(reading.reference.tes).toBe(345 + 270);
    expect(pointsOf(reading, 'level', 1)).toBeGreaterThan(0);
  });

  it('without level and grade: her usual where there is a history', () => {
    const history = [protocolOf(sheetOf([{ code: 'LSp3', marks: five(1) }], { id: 'h' }))];
    const reading = readForm(sheetOf([{ code: 'LSp4', marks: five(0) }]), { layout: plan([{ code: 'LSp' }]), history });
    expect(reading.reference).toMatchObject({ kind: 'layout', tes: 240 + 24 });
  });

  it('second half by `half`, and by `start` against half the time among the last three', () => {
    const jumps = ['3Lz', '3F', '3Lo', '3S', '3T', '2A'];
    const form = sheetOf(jumps.map((code) => ({ code, marks: five(0) })));
    const byHalf = readForm(form, { layout: plan(jumps.map((code, i) => ({ code, half: i === 5 }))) });
    expect(byHalf.ledger).toMatchObject([{ no: 6, cause: 'second-half', points: 330 - 363, fieldOfPlay: false }]);
    const starts = [10, 20, 130, 140, 150, 160];
    const byStart = readForm(form, { layout: plan(jumps.map((code, i) => ({ code, start: starts[i] ?? 0 }))) });
    expect(byStart.ledger.map((one) => one.no)).toEqual([4, 5, 6]);
  });

  it('a silent layout leaves the half as printed', () => {
    const reading = readForm(sheetOf([{ code: '2A', half: true, marks: five(0) }]), { layout: plan([{ code: '2A' }]) });
    expect(reading.ledger).toEqual([]);
  });

  it('components at the planned mean, else as awarded', () => {
    const components = [
      { name: 'Composition', factor: 2.67, marks: five(5) },
      { name: 'Presentation', factor: 2.67, marks: five(5) },
    ];
    const layout = plan([{ code: '2A' }], {
      components: [{ name: 'composition', mean: 5.5 }, { name: 'Presentation' }],
    });
    const reading = readForm(sheetOf([{ code: '2A', marks: five(0) }], { components }), { layout });
    expect(pointsOf(reading, 'components', null)).toBe(1335 - 1469);
    expect(reading.reference.pcs).toBe(1469 + 1335);
  });

  it('no layout fits: the next reference, with a warning', () => {
    const reading = readForm(sheetOf([{ code: '2A', marks: five(0) }], novice), { reference: 'layout' });
    expect(reading.reference.kind).toBe('clean');
    expect(reading.warnings.join(' ')).toMatch(/No layout fits/);
  });
});

it('counts as compared the printed figures alone that the audit has a figure of its own for', () => {
  const element = { code: '2A', base: 3.3, goe: 0, score: 3.3, marks: five(0) };
  expect(readForm(sheetOf([element], { tes: 3.3 })).checked).toBe(4);
  // Without components no total can be told: the printed one stands unchecked.
  expect(readForm(sheetOf([element], { tes: 3.3, total: 40 })).checked).toBe(4);
});
