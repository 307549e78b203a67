import { describe, expect, it } from 'vitest';
import type { SpinElement } from '../notation/index.ts';
import { explainSpin } from './feedback-spin.ts';
import { spins2023 } from './testing/rules.ts';

const combination: SpinElement = {
  kind: 'spin',
  flying: false,
  changeFoot: true,
  position: 'Co',
  level: 3,
  v: 1,
  noValue: false,
};
const rules = spins2023;

describe('letters beside a spin (common practice, no source)', () => {
  it.each([
    ['camel', 'NC'],
    ['sit', 'NS'],
    ['upright', 'NU'],
  ] as const)('a missing %s is %s', (position, letters) => {
    const reading = explainSpin({ element: combination, positions: [position], rules });
    expect(reading).toMatchObject({
      letters,
      consistent: true,
      missingPosition: position,
      turns: null,
      complexity: null,
    });
  });

  it('holds for flying and for one foot', () => {
    const element = { ...combination, flying: true, changeFoot: false };
    expect(explainSpin({ element, positions: ['sit'], rules }).consistent).toBe(true);
  });

  it('a V without letters has no named cause', () => {
    const reading = explainSpin({ element: combination, positions: null, rules });
    expect(reading).toMatchObject({ letters: null, consistent: true, missingPosition: null });
    expect(reading.notes).toEqual(['The sheet does not say why the V was given.']);
  });

  it('no V and no letters: nothing to say', () => {
    const reading = explainSpin({ element: { ...combination, v: 0 }, positions: [], rules });
    expect(reading).toMatchObject({ letters: null, consistent: true, missingPosition: null, notes: [] });
  });
});

describe('letters that cannot be', () => {
  it.each([
    ['without V', { ...combination, v: 0 as const }, ['camel' as const]],
    ['on a spin in one position', { ...combination, position: 'S' as const }, ['camel' as const]],
    ['two positions at once', combination, ['camel' as const, 'sit' as const]],
  ])('%s', (_what, element, positions) => {
    expect(explainSpin({ element, positions, rules })).toMatchObject({ consistent: false, missingPosition: null });
  });
});
