import { describe, expect, it } from 'vitest';
import { entryOf, five, pointsOf, readForm, sheetOf, sumOf } from './testing/readings.ts';

// Worked numbers of the practice note (from memory of a technical specialist) and of the levels facts
// (common practice, no source); values of 2023/24 from memory.
describe('the cost of a call includes the grades that it obliges (from memory)', () => {
  it('2Aq costs 0.66: two grades, nothing in base', () => {
    const reading = readForm(sheetOf([{ code: '2Aq', marks: five(-2) }]));
    expect(pointsOf(reading, 'rotation')).toBe(-66);
    expect(pointsOf(reading, 'execution')).toBeUndefined();
    expect(entryOf(reading, 'rotation')?.grades).toEqual({ booked: 2, min: 2, max: 2 });
  });

  it('3Lz< costs 2.12 with two grades', () => {
    const reading = readForm(sheetOf([{ code: '3Lz<', marks: five(-2) }]));
    expect(pointsOf(reading, 'rotation')).toBe(-212);
    expect(sumOf(reading)).toBe(-212);
  });

  it('3Lz< costs 2.60 in all with three grades; the third grade is execution', () => {
    const reading = readForm(sheetOf([{ code: '3Lz<', marks: five(-3) }]));
    expect(sumOf(reading)).toBe(-260);
    // Both orders by hand. Execution: -0.59 alone, 1.42 against 0.94 after the call; rotation: -2.12 alone,
    // 5.31 to 3.30 after it. Halves -53.5 and -206.5: the odd hundredth stays with the earlier cause.
    expect(pointsOf(reading, 'execution')).toBe(-54);
    expect(pointsOf(reading, 'rotation')).toBe(-206);
    expect(entryOf(reading, 'rotation')?.grades).toEqual({ booked: 2, min: 2, max: 3 });
  });

  it('a call is never booked more grades than were really missing', () => {
    const reading = readForm(sheetOf([{ code: '3Lz<', marks: five(-1) }]));
    expect(entryOf(reading, 'rotation')?.grades?.booked).toBe(1);
    expect(pointsOf(reading, 'rotation')).toBe(-118 - 47);
    expect(pointsOf(reading, 'execution')).toBeUndefined();
  });

  it('good grades in spite of a call: nothing is booked, the grades are execution', () => {
    const reading = readForm(sheetOf([{ code: '3Lz<', marks: five(1) }]));
    expect(entryOf(reading, 'rotation')?.grades?.booked).toBe(0);
    expect(pointsOf(reading, 'rotation')).toBeLessThan(-117);
    expect(pointsOf(reading, 'execution')).toBeGreaterThan(40);
    expect(sumOf(reading)).toBe(472 + 47 - 590);
  });

  it('two calls share what is missing: 3Lze< with three grades', () => {
    const reading = readForm(sheetOf([{ code: '3Lze<', marks: five(-3) }]));
    // Asked for: 2 and 2, missing 3, so 1.5 each. By hand: v(none) 5.90, one call 4.72 - 0.71 (between
    // 0.47 and 0.94), both 3.54 - 1.06; execution changes nothing.
    const [one, both] = [472 - 71, 354 - 106];
    expect(entryOf(reading, 'rotation')?.grades).toEqual({ booked: 1.5, min: 2, max: 3 });
    expect(entryOf(reading, 'edge')?.grades).toEqual({ booked: 1.5, min: 2, max: 4 });
    const exact = (one - 590 + both - one) / 2;
    expect(pointsOf(reading, 'rotation')).toBe(Math.ceil(exact));
    expect(pointsOf(reading, 'edge')).toBe(Math.floor(exact));
  });

  it('2A with a fall at -5: 1.65 and the deduction, of which the deduction is the small part', () => {
    const form = sheetOf([{ code: '2A', info: 'F', marks: five(-5) }], {
      category: 'advanced novice women',
      deductions: -0.5,
    });
    const reading = readForm(form);
    expect(pointsOf(reading, 'fall')).toBe(-165);
    expect(pointsOf(reading, 'fall', null)).toBe(-50);
    expect(pointsOf(reading, 'execution')).toBeUndefined();
  });
});

describe('CCoSp3V with NU (common practice, no source)', () => {
  const spin = (mark: number) =>
    readForm(sheetOf([{ code: 'CCoSp3V', feedback: 'NU', marks: five(mark) }], { category: 'advanced novice women' }));

  it('the missing upright cost 0.75 in base: 2.25 instead of 3.00', () => {
    expect(entryOf(spin(0), 'V')).toMatchObject({ points: -75, winBack: 75, fieldOfPlay: true });
  });

  it.each([
    [1, 75 + 30 - 23],
    [2, 75 + 60 - 45],
    [-2, 75 - 60 + 45],
  ])('and a quarter of the value of each grade: grade %i', (mark, winBack) => {
    expect(entryOf(spin(mark), 'V')?.winBack).toBe(winBack);
  });

  it('is priced as a lower bound, with one more revolution as the cure', () => {
    const [advice] = spin(0).advice;
    expect(advice?.atLeast).toBe(true);
    expect(advice?.text).toMatch(/one more revolution in the upright position/i);
    expect(advice?.text).toMatch(/at least 0\.75/);
  });

  it('a V without letters has no invented cause', () => {
    const reading = readForm(sheetOf([{ code: 'CCoSp3V', marks: five(0) }]));
    expect(reading.feedback[0]).toMatchObject({ letters: null, missingPosition: null, consistent: true });
    expect(reading.advice.map((one) => one.text).join(' ')).toMatch(/does not say why the V was given/);
  });
});

describe('StSq2 with YYN on the national ladder (common practice, no source)', () => {
  const reading = readForm(
    sheetOf([{ code: 'StSq2', feedback: 'Y Y N', marks: five(0) }], { category: 'novice women' }),
  );
  it('brackets the count at 7 to 8', () => {
    expect(reading.feedback[0]).toMatchObject({ letters: 'YYN', turns: { min: 7, max: 8 }, complexity: 'missing' });
    expect(reading.advice[0]?.text).toMatch(
      /7 or 8 turns were counted\. One or two more counted turns bring level 3\./,
    );
  });
  it('prints what the deduction rests on', () => {
    expect(reading.feedback[0]?.assumptions.join(' ')).toMatch(/5, 7, 9.*reach level 4/);
  });
});

it('letters that cannot be are a finding, and nothing is read from them', () => {
  const reading = readForm(sheetOf([{ code: 'StSq4', feedback: 'YYN', marks: five(0) }]));
  expect(reading.feedback[0]).toMatchObject({ consistent: false, turns: null, explanations: [] });
  expect(reading.findings).toMatchObject([{ kind: 'letters', at: 'elements[0].feedback' }]);
});

it.each([
  [{ code: 'StSq4+kpYYN' }, 'letters', 'elements[0].code'],
  [{ code: 'StSq4', info: 'YYN' }, 'letters', 'elements[0].info'],
  [{ code: 'CSSp4', feedback: 'NC' }, 'letters', 'elements[0].feedback'],
  [{ code: 'StSq3', feedback: 'WXQ' }, 'unreadable', 'elements[0].feedback'],
  [{ code: '2A', feedback: 'NU' }, 'unreadable', 'elements[0].feedback'],
])('%j: the finding names the field', (element, kind, at) => {
  expect(readForm(sheetOf([{ ...element, marks: five(0) }])).findings).toMatchObject([{ kind, at }]);
});

it('a dash in the letters column says nothing', () => {
  expect(readForm(sheetOf([{ code: '2A', feedback: ' - ', marks: five(0) }])).findings).toEqual([]);
});
