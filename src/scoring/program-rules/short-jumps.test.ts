import { describe, expect, it } from 'vitest';
import type { ContentRules } from '../../rulebook/index.ts';
import { callAll, nothingKnown } from './testing/rules.ts';

/** ISU senior men's short program as one event page of 2022/23 restates it (published), without spins. */
const seniorMen: ContentRules = {
  ...nothingKnown,
  jumpElements: { min: 3, max: 3 },
  maxUnits: 1,
  maxSequences: 0,
  jumpsPerUnit: [2],
  slots: [
    { slot: 'axel', names: ['A'], turns: [2, 3], pairs: null, secondNames: null },
    { slot: 'solo', names: ['T', 'S', 'Lo', 'F', 'Lz', 'A'], turns: [3, 4], pairs: null, secondNames: null },
    {
      slot: 'combination',
      names: null,
      turns: [2, 3, 4],
      pairs: [
        [2, 3],
        [3, 3],
        [4, 2],
        [4, 3],
      ],
      secondNames: null,
    },
  ],
};

const list = (text: string): string[] => text.split(', ');

describe('short program slots', () => {
  it.each([
    ['2A, 3F, 3Lz+3T'],
    ['3A, 4T, 4S+3T'],
    ['4T, 4S+3T, 3A'],
    ['4A, 3A, 3Lz+2T'],
    ['3A, 3Lo, 3T+3T'],
    ['2A, 3T, 4T+3S'],
    ['3A, 3Lz+3T, 2A'],
  ])('lets %s stand', (program) => {
    const called = callAll(list(program), seniorMen, 'short');
    expect(called.codes).toEqual(list(program));
    expect(called.lowest).toEqual([false, false, false]);
  });

  it.each([
    ['a single Axel has no value', '1A, 3F, 3Lz+3T', '1A*, 3F, 3Lz+3T'],
    ['a double as solo jump has no value', '2A, 2Lz, 3F+3T', '2A, 2Lz*, 3F+3T'],
    ['a jump of another slot repeated alone (Skate Canada, Feb 2019)', '3T+2T, 2A, 3T', '3T+2T, 2A, 3T*'],
    ['repeated inside the combination only it is void (Skate Canada, Feb 2019)', '2A, 3T, 3T+2T', '2A, 3T, 3T*+2T'],
    ['3A of the Axel slot may not come again', '3A, 3A, 3Lz+3T', '3A, 3A*, 3Lz+3T'],
    ['no combination: the second solo jump is marked', '2A, 3F, 3Lz', '2A, 3F, 3Lz+COMBO'],
    ['two doubles: the lower turns, else the later, lose', '2A, 3F, 2Lz+2T', '2A, 3F, 2Lz+2T*'],
    ['a popped second jump', '2A, 3F, 3Lz+1T', '2A, 3F, 3Lz+1T*'],
    ['a popped first jump', '2A, 3F, 1Lz+3T', '2A, 3F, 1Lz*+3T'],
    ['a third jump in the combination', '2A, 3F, 3Lz+2T+2Lo', '2A, 3F, 3Lz+2T+2Lo*'],
    ['an Euler in the combination', '2A, 3F, 3Lz+1Eu+3S', '2A, 3F, 3Lz+1Eu*+3S*'],
    ['a fourth jump element', '2A, 3F, 3Lz+3T, 3S', '2A, 3F, 3Lz+3T, 3S*'],
    ['a second combination counts as the solo jump', '2A, 3Lz+3T, 3F+2T', '2A, 3Lz+3T, 3F+2T*'],
    ['a combination already marked as missing is taken', '2A, 3F+COMBO, 3Lz', '2A, 3F+COMBO, 3Lz'],
  ])('%s', (_, program, called) => {
    expect(callAll(list(program), seniorMen, 'short').codes).toEqual(list(called));
  });

  it('ends at the lowest grade where a unit keeps value beside a void jump', () => {
    expect(callAll(list('2A, 3T, 3T+2T'), seniorMen, 'short').lowest).toEqual([false, false, true]);
    expect(callAll(list('2A, 3F, 3Lz'), seniorMen, 'short').lowest).toEqual([false, false, true]);
  });
});
