import { describe, expect, it } from 'vitest';

import { chooseRules, shippedLibrary } from '../../rulebook/index.ts';
import { audit, readProtocol, type Finding } from '../index.ts';

const HEAD = { id: 'x', season: '2023/24', body: 'isu', category: 'senior women', segment: 'free' };
const marks = [8, 8, 8, 8, 8];

/** Findings under the rules of 2023/24 with values of a coach's own over them. */
function findings(form: object, own: object): readonly Finding[] {
  const document = { overlay: 'isu/2023-24', title: 'our chart', ...own };
  const library = shippedLibrary().extend([{ path: 'own.yaml', document }]);
  if (!library.ok) throw new Error(JSON.stringify(library.error));
  const { season, body, category, segment } = HEAD;
  const rules = chooseRules(library.value, { season, body, category, segment: segment === 'free' ? 'free' : 'short' });
  const protocol = readProtocol({ ...HEAD, elements: [], ...form });
  if (!rules.ok || !protocol.ok) throw new Error('not read');
  return audit(protocol.value, rules.value).findings;
}

const FACTOR = { components: { 'senior women': { free: { factor: 3 } } } };
const components = ['Composition', 'Presentation', 'Skating Skills'].map((name) => ({ name, marks, score: 8 }));

describe('what differs from a value of the coach alone', () => {
  it('a component sum under her own factor, and the total that adds it', () => {
    const found = findings({ components, pcs: 64, tes: 0, total: 64 }, FACTOR);
    const pcs = found.find((one) => one.at === 'pcs');
    expect(pcs).toMatchObject({ published: 64, expected: 72, ownValue: 'our chart' });
    expect(pcs?.message).toContain('rests on your own value (our chart)');
    expect(pcs).not.toHaveProperty('slip');
    for (const other of found) expect(other.ownValue).toBe('our chart');
  });

  it('not where the sheet prints the factor', () => {
    const printed = components.map((one) => ({ ...one, factor: 2.67 }));
    const found = findings({ components: printed, pcs: 60 }, FACTOR);
    expect(found.find((one) => one.at === 'components[0].factor')?.ownValue).toBe('our chart');
    // 3 x 8 x 2.67 = 64.08: the sum does not agree with the sheet itself.
    expect(found.find((one) => one.at === 'pcs')).toMatchObject({ published: 60, expected: 64.08 });
    expect(found.find((one) => one.at === 'pcs')).not.toHaveProperty('ownValue');
  });

  it('a sum that adds a wrong mean is no matter of the factor', () => {
    const wrong = components.map((one, i) => (i === 2 ? { ...one, score: 7 } : one));
    // 3 x (8 + 8 + 8) = 72; with the wrong mean 69.
    const found = findings({ components: wrong, pcs: 69 }, FACTOR);
    expect(found.map((one) => [one.at, one.ownValue])).toEqual([
      ['components[2].score', undefined],
      ['pcs', undefined],
    ]);
  });

  it('a base value of her own, and the score that adds it', () => {
    const row = { no: 1, code: '3Lz', base: 5.9, marks: [0, 0, 0, 0, 0], goe: 0, score: 5.9 };
    const found = findings({ elements: [row] }, { scale: { rows: { '3Lz': 6 } } });
    expect(found.map((one) => [one.at, one.ownValue])).toEqual([
      ['elements[0].base', 'our chart'],
      ['elements[0].score', 'our chart'],
    ]);
  });

  it('a deduction by her own scale of falls', () => {
    const deductions = [{ reason: 'Falls', count: 1, points: -1 }];
    const [found] = findings({ deductions }, { deductions: { 'senior women': { falls: [-2] } } });
    expect(found).toMatchObject({ at: 'deductions[0].points', expected: -2, ownValue: 'our chart' });
  });

  it('nothing of it under the shipped rules', () => {
    const found = findings({ components, pcs: 60 }, {});
    expect(found).toHaveLength(1);
    expect(found[0]).not.toHaveProperty('ownValue');
  });
});
