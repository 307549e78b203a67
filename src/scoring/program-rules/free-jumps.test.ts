import { describe, expect, it } from 'vitest';
import type { ContentRules } from '../../rulebook/index.ts';
import { callAll, noRepeatLimits, nothingKnown, sequenceValues } from './testing/rules.ts';

/** Skate Canada notice of 28 Oct 2022, juvenile (published): two combinations, no sequence, one repeated family. */
const canadaJuvenile: ContentRules = {
  ...nothingKnown,
  maxUnits: 2,
  maxCombinations: 2,
  maxSequences: 0,
  jumpsPerUnit: [2, 2],
  repeats: { ...noRepeatLimits, maxSame: 2, familiesTwice: 1, repFromTurns: 1 },
};

/** ISU senior and junior free skate to 2025/26: repeats from memory, three units published. */
const isuFree: ContentRules = {
  ...nothingKnown,
  jumpElements: { min: 0, max: 7 },
  axelRequired: true,
  maxUnits: 3,
  jumpsPerUnit: [3, 2, 2],
  repeats: { ...noRepeatLimits, highKindsTwice: 2, quadKindsTwice: 1, maxSame: 2, repFromTurns: 3 },
};

const list = (text: string): string[] => text.split(', ');

describe('repeats counted by family (Skate Canada notice of 28 Oct 2022, published cases)', () => {
  it.each(['2T+1Lo, 2S, 1F, 1Lz, 1A+2T', '2Lz+1T, 2Lz, 2F, 2S+2Lo, 1A', '1A+2T, 2S, 2Lo, 2Lo+1Lo, 2F'])(
    'lets %s stand',
    (program) => {
      expect(callAll(list(program), canadaJuvenile).codes).toEqual(list(program));
    },
  );

  it.each([
    ['2F+1T, 2Lz, 1A, 2F, 2T', '2F+1T, 2Lz, 1A, 2F, 2T*'],
    ['2S+1T, 2F, 1A, 2S+1Lo, 2T', '2S+1T, 2F, 1A, 2S+1Lo, 2T*'],
  ])('takes the value of the second repeated family: %s', (program, called) => {
    expect(callAll(list(program), canadaJuvenile).codes).toEqual(list(called));
  });

  it('counts only the first jump of a forbidden sequence, marked +REP', () => {
    expect(callAll(['2T+1A+SEQ', '2S'], canadaJuvenile).codes).toEqual(['2T+1A*+SEQ+REP', '2S']);
  });
});

describe('repeats in junior and senior free skates', () => {
  it.each([
    ['one of two in a combination', '3Lz+2T, 3Lz, 2A', '3Lz+2T, 3Lz, 2A'],
    ['both alone: the second is reduced', '3Lz, 3Lz, 2A', '3Lz, 3Lz+REP, 2A'],
    ['doubles alone twice are not reduced', '2A, 2A', '2A, 2A'],
    ['the third execution alone', '3T, 3T+2T, 3T', '3T, 3T+2T, 3T*'],
    ['the third execution inside a combination takes only itself', '2T, 2T, 3S+2T', '2T, 2T, 3S+2T*'],
    ['a third kind of triple repeated', '3T, 3S, 3Lo, 3T+2T, 3S+2T, 3Lo+2Lo', '3T, 3S, 3Lo, 3T+2T, 3S+2T, 3Lo*+2Lo'],
    ['a second kind of quad repeated', '4T, 4S, 4T+2T, 4S+2T', '4T, 4S, 4T+2T, 4S*+2T'],
    [
      'a voided quad repeat leaves room for a triple',
      '4T, 4S, 4T+2T, 4S, 3F, 3F+2Lo',
      '4T, 4S, 4T+2T, 4S*, 3F, 3F+2Lo',
    ],
    ['a downgraded jump counts as tried', '3T<<, 3T, 3T+2T', '3T<<, 3T+REP, 3T*+2T'],
    ['a popped jump counts as rotated and voids the later one', '2T, 2T+2Lo, 3S+2T', '2T, 2T+2Lo, 3S+2T*'],
    ['same name with other turns is another kind', '3T, 4T, 3T+2T, 4T+2T', '3T, 4T, 3T+2T, 4T+2T'],
  ])('%s', (_, program, called) => {
    expect(callAll(list(program), { ...isuFree, axelRequired: null }).codes).toEqual(list(called));
  });
});

describe('number of jump elements and units', () => {
  it('takes the value of the eighth jump element', () => {
    const program = list('2A, 3T, 3S, 3Lo, 3F, 3Lz, 2F, 2Lz');
    expect(callAll(program, isuFree).codes).toEqual([...program.slice(0, 7), '2Lz*']);
  });

  it('keeps the last place for an Axel-type jump', () => {
    const program = list('3T, 3S, 3Lo, 3F, 3Lz, 2F, 2Lz, 2A');
    expect(callAll(program, isuFree).codes).toEqual([...program.slice(0, 6), '2Lz*', '2A']);
  });

  it('takes the added jumps of a fourth unit', () => {
    const program = list('3T+2T, 3S+2T, 3Lo+2Lo, 2A+2Lo');
    expect(callAll(program, isuFree).codes).toEqual(list('3T+2T, 3S+2T, 3Lo+2Lo, 2A+2Lo*'));
  });

  it('takes the third jump of a second three-jump unit, the Euler counting as a jump', () => {
    const program = list('2A+1Eu+3S, 3F+2T+2Lo');
    expect(callAll(program, isuFree).codes).toEqual(list('2A+1Eu+3S, 3F+2T+2Lo*'));
  });

  it('gives an Euler no value where it stands between no two listed jumps', () => {
    const values = { ...sequenceValues, euler: { ...sequenceValues.euler, maxPerProgram: 3 } };
    const program = ['2A+1Eu', '1Eu+3S', '3F+1Eu+2S', '1Eu'];
    expect(
      callAll(program, { ...isuFree, jumpElements: { min: 0, max: 7 } }, 'free', values).codes.slice(0, 3),
    ).toEqual(['2A+1Eu*', '1Eu*+3S', '3F+1Eu+2S']);
    expect(callAll(['1Eu'], isuFree, 'free', values).codes).toEqual(['1Eu*']);
  });

  it('does not count an Euler that the season does not count', () => {
    const values = { ...sequenceValues, euler: { ...sequenceValues.euler, counts: false } };
    const content = { ...isuFree, jumpsPerUnit: [2, 2] };
    expect(callAll(['2A+1Eu+3S'], content, 'free', values).codes).toEqual(['2A+1Eu+3S']);
  });

  it('allows one Euler where the season says one', () => {
    const values = { ...sequenceValues, euler: { ...sequenceValues.euler, maxPerProgram: 1 } };
    const content = { ...isuFree, jumpsPerUnit: [3, 3, 3] };
    const program = ['2A+1Eu+3S', '3F+1Eu+2S'];
    expect(callAll(program, content, 'free', values).codes).toEqual(['2A+1Eu+3S', '3F+1Eu*+2S']);
  });

  it('excludes a sequence beside a combination with Euler in the novice groups', () => {
    const novice = { ...isuFree, eulerExcludesSequence: true, jumpsPerUnit: [3, 2] };
    expect(callAll(['2A+1Eu+2S', '2F+2A+SEQ'], novice).codes).toEqual(['2A+1Eu+2S', '2F+2A*+SEQ']);
  });
});

describe('sequences', () => {
  it.each([
    ['2F+2A+SEQ', '2F+2A+SEQ'],
    ['3S+3T+2A+SEQ', '3S+3T+2A+SEQ'],
    ['3F+3T+SEQ', '3F+3T*+SEQ'],
    ['3F+SEQ+3T+2A', '3F+SEQ+3T*+2A*'],
  ])('from 2022/23 an Axel follows the step: %s', (program, called) => {
    expect(callAll([program], isuFree).codes).toEqual([called]);
  });

  it('of 2016/17 needs no Axel', () => {
    const values = { ...sequenceValues, sequence: { ...sequenceValues.sequence, axelAfterFirst: false } };
    expect(callAll(['3F+3T+SEQ'], isuFree, 'free', values).codes).toEqual(['3F+3T+SEQ']);
  });
});
