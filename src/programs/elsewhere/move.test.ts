import { describe, expect, it } from 'vitest';
import { storedPriors } from '../../forecast/index.ts';
import { shippedLibrary } from '../../rulebook/index.ts';
import { readLayout, type Layout } from '../../scoring/index.ts';
import { rulesFor } from '../chosen.ts';
import { moveTo } from './move.ts';
import { moveLines } from './show.ts';

const OPTIONS = {
  objective: { kind: 'expected' },
  date: null,
  evidence: { history: [], rulesOf: () => null, priors: storedPriors() },
  shouldStop: () => false,
} as const;

/** A layout as a coach enters it: read from its JSON form. */
function layoutOf(category: string, components: readonly object[] | null, body = 'isu'): Layout {
  const elements = ['2A', '3S', 'CCoSp3'].map((code) => ({ code, outcomes: [{ p: 1, code, grade: { '0': 1 } }] }));
  const head = { body, season: '2025/26', category, segment: 'free', form: { sd: 0 } };
  const read = readLayout({ ...head, elements, components });
  if (!read.ok) throw new Error(read.error.advice);
  return read.value;
}

function moved(layout: Layout, as: string) {
  const [own, there] = [rulesFor(shippedLibrary(), layout), rulesFor(shippedLibrary(), layout, { as })];
  if (!own.ok || !there.ok) throw new Error('no rules');
  const result = moveTo(layout, own.value, there.value, OPTIONS);
  if (!result.ok) throw new Error(result.error.advice);
  return result.value;
}

describe('components in another category', () => {
  const marks = ['Composition', 'Presentation', 'Skating Skills'].map((name) => ({
    name,
    mean: 5,
    sd: 0,
  }));

  it.each(['isu/junior women', 'isu/senior women'])('are left out on both sides where none are stated: %s', (as) => {
    for (const [category, body, here] of [
      ['novice women', 'us', 10.6],
      // No triples there, and levels up to 2: 2A 3.30, CCoSp2 2.50.
      ['intermediate novice women', 'isu', 5.8],
    ] as const) {
      const move = moved(layoutOf(category, null, body), as);
      // 2A 3.30, 3S 4.30, both before the middle, CCoSp3 3.00: the elements alone.
      expect(move.range.there?.expected).toBeCloseTo(10.6, 9);
      expect(move.range.here?.expected).toBeCloseTo(here, 9);
      expect(move.components).toContain('both sides are without components');
      expect(moveLines(move).join('\n')).toContain(move.components);
    }
  });

  it('are the stated marks with the factor of each category', () => {
    const move = moved(layoutOf('junior women', marks), 'isu/senior women');
    expect(move.components).toBeNull();
    // 3 x 5.00 x 2.67 on both sides (seniors and juniors since 2022/23).
    expect(move.range.there?.expected).toBeCloseTo(10.6 + 40.05, 1);
    expect(move.range.here?.expected).toBeCloseTo(move.range.there?.expected ?? 0, 9);
  });

  it('are left out on both sides where a factor is not known, and it is said', () => {
    const move = moved(layoutOf('novice women', marks, 'us'), 'isu/junior women');
    expect(move.components).toBe(
      'The factor of the components in novice women is not known: both sides are without components.',
    );
    expect(move.range.there?.expected).toBeCloseTo(10.6, 9);
  });
});
