import { describe, expect, it } from 'vitest';
import { parseCode, type Element } from '../notation/index.ts';
import { elementCost, pairElements } from './pairing.ts';

function elementOf(code: string): Element {
  const read = parseCode(code);
  if (!read.ok) throw new Error(code);
  return read.value.element;
}

const list = (codes: string) =>
  codes.split(' ').map((code) => ({ code, element: code === '?' ? null : elementOf(code) }));
const planned = (codes: string) => codes.split(' ').map((code) => ({ code, element: elementOf(code) }));

const pairs = (plan: string, sheet: string): string[] =>
  pairElements(planned(plan), list(sheet)).map(({ left, right }) => `${left?.code ?? '-'}:${right?.code ?? '-'}`);

describe('what it costs to read one element as another', () => {
  it('calls, levels and V cost nothing', () => {
    expect(elementCost(elementOf('3Lz+3T'), elementOf('3Lz<e+3Tq'))).toBe(0);
    expect(elementCost(elementOf('CCoSp4'), elementOf('CCoSp2V'))).toBe(0);
  });
  it('fewer turns and a missing partner are small, another jump larger, another kind never', () => {
    const cost = (a: string, b: string) => elementCost(elementOf(a), elementOf(b));
    expect(cost('2A', '1A')).toBeLessThan(cost('2A+2T', '2A'));
    expect(cost('2A+2T', '2A')).toBeLessThan(cost('3Lz', '3F'));
    expect(cost('3Lz', 'LSp4')).toBe(Infinity);
    expect(cost('StSq3', 'ChSq1')).toBe(Infinity);
  });
});

describe('planned and skated in skating order', () => {
  it.each([
    ['the same program', '3Lz 2A LSp', '3Lz< 2A LSp3', '3Lz:3Lz< 2A:2A LSp:LSp3'],
    ['a popped jump', '3Lz 2A', '1Lz 2A', '3Lz:1Lz 2A:2A'],
    ['one left out in the middle', '3Lz LSp 2A', '3Lz 2A', '3Lz:3Lz LSp:- 2A:2A'],
    ['one added', '3Lz LSp', '3Lz 2A LSp', '3Lz:3Lz -:2A LSp:LSp'],
    ['the combination moved later', '2A+2T 2A', '2A 2A+2T', '2A+2T:2A 2A:2A+2T'],
    ['another spin', 'CCoSp 2A', 'FSSp 2A', 'CCoSp:FSSp 2A:2A'],
    ['a code that cannot be read keeps its place', '3Lz 2A LSp', '3Lz ? LSp', '3Lz:3Lz 2A:? LSp:LSp'],
  ])('%s', (_what, plan, sheet, expected) => {
    expect(pairs(plan, sheet)).toEqual(expected.split(' '));
  });
});
