import { describe, expect, it } from 'vitest';
import { shippedLibrary } from '../rulebook/index.ts';
import { readKept, type KeptLayout, type KeptSheet } from './index.ts';

const library = shippedLibrary();
const marks = [0, 0, 0, 0, 0];

const sheet = (id: string, date: string | null, code: string, more = {}): KeptSheet => ({
  id,
  date,
  season: '2023/24',
  category: 'junior women',
  segment: 'free',
  form: { elements: [{ no: 1, code, marks }], ...more },
});
const layout = (version: number, savedAt: string, code: string, current = false): KeptLayout => ({
  version,
  savedAt: `${savedAt}T18:00:00.000Z`,
  current,
  season: '2023/24',
  segment: 'free',
  form: { season: '2023/24', category: 'junior women', segment: 'free', elements: [{ code, grade: 0 }] },
});

const pointsOf = (of: KeptSheet, beside: Partial<Parameters<typeof readKept>[1]>) => {
  const made = readKept(of, { library, layouts: [], others: [], ...beside });
  if (!made.ok) throw new Error(made.error.found);
  const { reference, difference } = made.value.reading;
  return { kind: reference.kind, difference };
};

describe('a kept protocol', () => {
  const versions = [layout(1, '2023-08-01', '2S'), layout(2, '2023-10-01', '2T'), layout(3, '2023-12-01', '3S', true)];

  // 2S 1.30, 2T 1.30, 2Lz 2.10, 3S 4.30: scale of values of 2023/24.
  it('is read against the layout that stood on its day, not the one of today', () => {
    const layouts = [layout(1, '2023-08-01', '2Lz'), layout(2, '2023-12-01', '3S', true)];
    expect(pointsOf(sheet('p', '2023-10-14', '2S'), { layouts })).toEqual({ kind: 'layout', difference: -80 });
  });

  it('takes the current layout where its day is not known or no layout is that old', () => {
    expect(pointsOf(sheet('p', null, '2S'), { layouts: versions })).toEqual({ kind: 'layout', difference: -300 });
    expect(pointsOf(sheet('p', '2023-07-14', '2S'), { layouts: versions })).toMatchObject({ difference: -300 });
  });

  it('takes no layout of another season or segment', () => {
    const other = versions.map((v) => ({ ...v, season: '2022/23' }));
    expect(pointsOf(sheet('p', '2023-10-14', '2S'), { layouts: other }).kind).toBe('clean');
  });

  it('has as history the protocols of the segment before its day, itself left out', () => {
    const own = sheet('p', '2023-10-14', '2S');
    const later = sheet('q', '2023-11-14', '2S');
    const short = { ...sheet('r', '2023-09-14', '2S'), segment: 'short' as const };
    expect(pointsOf(own, { others: [own, later, short] }).kind).toBe('clean');
    expect(pointsOf(own, { others: [own, sheet('o', '2023-09-14', '2S')] }).kind).toBe('usual');
  });

  it('that cannot be read is a problem with its place', () => {
    const broken = { ...sheet('p', null, '2S'), form: { elements: 'none' } };
    expect(readKept(broken, { library, layouts: [], others: [] })).toMatchObject({ ok: false });
  });
});
