import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseCode, withoutCalls, type Element } from '../notation/index.ts';
import { chooseRules, shippedLibrary } from '../rulebook/index.ts';
import { elementValue, goeOfGrade, goeOfMarks } from '../scoring/index.ts';
import { pairedAccount } from './element-ledger.ts';
import { fraction, ZERO } from './fraction.ts';
import { elementGame } from './game.ts';
import { cleanReference } from './reference.ts';
import type { Skated } from './sides.ts';

const chosen = chooseRules(shippedLibrary(), { season: '2023/24', category: 'senior women', segment: 'free' });
if (!chosen.ok) throw new Error(JSON.stringify(chosen.error));
const rules = chosen.value;
const context = { rulebook: rules.values, panel: rules.values.values.panel };

function elementOf(code: string): Element {
  const read = parseCode(code);
  if (!read.ok) throw new Error(code);
  return read.value.element;
}

const skatedOf = (code: string, marks: readonly (number | null)[], fall = false): Skated => ({
  index: 0,
  no: 1,
  code,
  element: elementOf(code),
  half: false,
  fall,
  feedback: null,
  hasInfo: false,
  lettersIn: null,
  marks,
});

const codes = fc.constantFrom(
  ...['3Lz<', '3Fe<', '3F!q', '3Lz<<+3T<', '2A+REP', '3T<*', '3Lz+3T*', '3Lo<+2A+SEQ', '3Lze+1Eu+3S<+REP', '1Lo<<'],
  ...['CCoSp3V', 'FCSpB', 'LSp2V', 'StSqB', 'StSq3', 'ChSq1', 'CSSp*', 'StSq'],
);
const panels = fc.array(fc.integer({ min: -5, max: 5 }), { minLength: 1, maxLength: 9 });
const grades = fc.integer({ min: -21, max: 21 }).map((n) => fraction(n, 7));

/** All orders of a list. */
function orders<T>(items: readonly T[]): T[][] {
  if (items.length === 0) return [[]];
  return items.flatMap((item, i) => orders(items.filter((_, j) => j !== i)).map((rest) => [item, ...rest]));
}

describe('one element as a question of causes', () => {
  it('begins at the reference and ends at the sheet, as scoring computes both', () => {
    fc.assert(
      fc.property(codes, panels, grades, fc.boolean(), (code, marks, grade, fall) => {
        const skated = skatedOf(code, marks, fall);
        const reference = { ...cleanReference(skated.element, rules), grade };
        const game = elementGame(skated, reference, context);
        const sheet = elementValue(rules.values, skated.element);
        const clean = elementValue(rules.values, reference.element);
        const ofSheet =
          sheet.row === null ? 0 : (sheet.base ?? NaN) + (goeOfMarks(sheet.row, marks, context.panel) ?? NaN);
        const ofClean =
          clean.row === null ? 0 : (clean.base ?? NaN) + (goeOfGrade(clean.row, grade.n / grade.d) ?? NaN);
        expect([game?.values[0], game?.values.at(-1)]).toEqual([ofClean, ofSheet]);
      }),
      { numRuns: 300 },
    );
  });

  it('its entries are the mean over all orders of the causes, within a hundredth, and add up', () => {
    fc.assert(
      fc.property(codes, panels, grades, fc.boolean(), (code, marks, grade, fall) => {
        const skated = skatedOf(code, marks, fall);
        const reference = { ...cleanReference(skated.element, rules), grade };
        const game = elementGame(skated, reference, context);
        const account = pairedAccount(skated, reference, context);
        if (game === null || account === null) throw new Error('every code here has a value');
        const all = orders(game.causes.map((_, i) => i));
        game.causes.forEach((cause, i) => {
          const sum = all.reduce((total, order) => {
            const before = order.slice(0, order.indexOf(i)).reduce((set, one) => set | (1 << one), 0);
            return total + (game.values[before | (1 << i)] ?? NaN) - (game.values[before] ?? NaN);
          }, 0);
          const share = account.entries.find((entry) => entry.cause === cause)?.points ?? 0;
          expect(Math.abs(share - sum / all.length)).toBeLessThan(1);
        });
        const total = account.entries.reduce((sum, entry) => sum + entry.points, 0);
        expect(total).toBe(account.awarded - account.reference);
      }),
      { numRuns: 150 },
    );
  });

  it('books no more grades than are missing, shared in the proportion that the list asks for', () => {
    fc.assert(
      fc.property(panels, grades, fc.boolean(), (marks, grade, fall) => {
        const skated = skatedOf('3Lze<', marks, fall);
        const game = elementGame(skated, { ...cleanReference(skated.element, rules), grade }, context);
        const booked = [...(game?.obliged.values() ?? [])].map((one) => one.booked.n / one.booked.d);
        const kept = [...marks]
          .sort((a, b) => a - b)
          .slice(marks.length >= 5 ? 1 : 0, marks.length >= 5 ? -1 : undefined);
        const mean = kept.reduce((sum, mark) => sum + mark, 0) / kept.length;
        const missing = Math.max(0, grade.n / grade.d - mean);
        const asked = fall ? [2, 2, 5] : [2, 2];
        const total = asked.reduce((sum, n) => sum + n, 0);
        const expected = asked.map((n) => n * Math.min(1, missing / total));
        booked.forEach((n, i) => expect(n).toBeCloseTo(expected[i] ?? NaN, 9));
        expect(booked).toHaveLength(asked.length);
      }),
    );
  });

  it('a panel of one mind at the reference grade leaves nothing but the code', () => {
    const skated = skatedOf('3Lz', [1, 1, 1]);
    expect(pairedAccount(skated, { ...cleanReference(skated.element, rules), grade: fraction(1) }, context)).toEqual({
      awarded: 649,
      reference: 649,
      entries: [],
    });
  });

  it('clean is as attempted: calls off, jumps as called', () => {
    fc.assert(
      fc.property(codes, (code) => {
        const { element, grade } = cleanReference(elementOf(code), rules);
        expect(grade).toEqual(ZERO);
        expect(withoutCalls(element)).toEqual(element);
      }),
    );
  });
});
