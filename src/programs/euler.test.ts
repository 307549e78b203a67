import { describe, expect, it } from 'vitest';
import { storedPriors } from '../forecast/index.ts';
import { shippedLibrary } from '../rulebook/index.ts';
import type { Inventory } from '../scoring/index.ts';
import { bestLayouts } from './best/best.ts';
import { rulesFor } from './chosen.ts';
import { mend } from './mend/mend.ts';
import { rescue } from './rescue/rescue.ts';
import { entry, inventoryOf } from './testing/random-inventory.ts';

const HEAD = { season: '2025/26', category: 'senior women', segment: 'free' } as const;

const programOf = (codes: readonly string[]): Inventory =>
  inventoryOf(
    codes.map((code) => entry(code, [{ p: 1, code, grades: [{ grade: 0, p: 1 }], fall: false }])),
    HEAD,
  );

function rules(form: Inventory) {
  const chosen = rulesFor(shippedLibrary(), form);
  if (!chosen.ok) throw new Error(chosen.error.advice);
  return chosen.value;
}

/** An Euler that is first, last or alone in its element; told by its letters, without the product's own reading. */
const stray = (code: string): boolean => {
  const jumps = code.split('+').filter((part) => /^\d/.test(part));
  return jumps.some((jump, i) => jump.includes('Eu') && (i === 0 || i === jumps.length - 1));
};

/** Programs with an Euler and every later jump that a lost partner could go to. */
const PROGRAMS = [
  '3Lz+1Eu+3S, 2A, 3F, 3Lo, 3T',
  '2F+1Eu+2S, 2A+1Eu, 2Lz, 2F, 1A',
  '1Eu+3S, 2A, 3F+2T, 3Lz',
  '2A+1Eu+2S, 3F+2T, 3Lz, 3T+2T, 3S',
];

describe('an Euler counts only between two listed jumps', () => {
  it.each(PROGRAMS)('no plan B asks for another one: %s', (codes) => {
    const layout = programOf(codes.split(', '));
    const result = rescue(layout, rules(layout));
    if (!result.ok) throw new Error(result.error.advice);
    const { cases, card } = result.value;
    expect(cases.length).toBeGreaterThan(0);
    for (const { instead } of cases.flatMap((one) => one.changes)) expect(stray(instead), instead).toBe(false);
    for (const sentence of card) expect(sentence).not.toMatch(/\+1Eu(?!\+\d)|(^|[^+])1Eu\+/);
  });

  it.each(['2A+1Eu', '1Eu+3S', '3F+1Eu'])('mending %s leaves no Euler at an end', (wrong) => {
    const layout = programOf([wrong, '3Lz', '3Lo+2T']);
    const found = mend(layout, rules(layout), 'euler', { repertoire: ['2A+1Eu', '1Eu+2S', '2A+1Eu+2S'], top: 5 });
    if (!found.ok) throw new Error(found.error.advice);
    expect(found.value.length).toBeGreaterThan(0);
    for (const { codes } of found.value) expect(codes.filter(stray)).toEqual([]);
  });

  it('no layout built from single jumps holds one, even where an Euler is entered alone', () => {
    const inventory: Inventory = {
      ...programOf(['2A', '3F', '3S', '3T', '2T', '2Lo', '1Eu', '2A+1Eu', '1Eu+3S', '3Lz+1Eu+3S']),
      combine: 'auto',
    };
    const found = bestLayouts(
      inventory,
      rules(inventory),
      { kind: 'expected' },
      {
        top: 5,
        date: null,
        evidence: { history: [], rulesOf: () => null, priors: storedPriors() },
        shouldStop: () => false,
      },
    );
    if (!found.ok) throw new Error(found.error.advice);
    expect(found.value.layouts).toHaveLength(5);
    expect(found.value.layouts[0]?.codes).toContain('3Lz+1Eu+3S');
    for (const { codes } of found.value.layouts) expect(codes.filter(stray)).toEqual([]);
  });
});
