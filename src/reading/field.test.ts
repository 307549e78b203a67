import { describe, expect, it } from 'vitest';
import { fieldLines, fieldOf } from './field.ts';
import { five, protocolOf, rulesOf, sheetOf } from './testing/readings.ts';

const sheet = (level: number, mark: number) =>
  protocolOf(
    sheetOf([
      { code: `StSq${level}`, marks: five(0) },
      { code: '2A', marks: five(mark) },
    ]),
  );
const field = Array.from({ length: 12 }, (_, i) => sheet(i < 3 ? 3 : 2, i % 4));
const own = sheet(2, 1);
const { panel } = rulesOf(own).values.values;

describe('her place in the field', () => {
  it('is counted by element family, without names', () => {
    const lines = fieldLines(own, fieldOf(field, panel), panel);
    const levels = lines.find((line) => line.family === 'step sequence' && line.measure === 'level');
    // Three of twelve had level 3; nine had level 2, herself among them.
    expect(levels).toMatchObject({ skaters: 12, above: 3, equal: 8 });
    expect(lines.find((line) => line.family === 'jumps')).toMatchObject({ skaters: 12, above: 6 });
    expect(lines.map((line) => line.text).join(' ')).toContain('Of 12 skaters three had more, eight the same.');
  });

  it('is suppressed below ten skaters', () => {
    expect(fieldOf(field.slice(0, 9), panel)).toBeNull();
    expect(fieldLines(own, null, panel)).toEqual([]);
  });

  it('leaves out a family that fewer than ten skaters show', () => {
    const few = [
      ...field.slice(0, 3),
      ...Array.from({ length: 9 }, () => protocolOf(sheetOf([{ code: '2A', marks: five(0) }]))),
    ];
    expect(fieldLines(own, fieldOf(few, panel), panel).map((line) => line.family)).toEqual(['jumps']);
  });
});
