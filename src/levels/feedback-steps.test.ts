import { describe, expect, it } from 'vitest';
import type { KeyPoint, Level } from '../notation/index.ts';
import type { StepRules } from '../rulebook/index.ts';
import { explainSteps, levelFrom, turnRange } from './feedback-steps.ts';
import { anyTypes, fiveTypes, oneLetter } from './testing/rules.ts';

const letters = (text: string): KeyPoint[] | null =>
  text === '' ? null : text.split('').map((c) => (c === 'Y' || c === 'T' ? c : 'N'));
const explain = (level: Level | null, text: string, rules: StepRules = fiveTypes) =>
  explainSteps({ level, letters: letters(text), rules });

describe('level from turn level and further features', () => {
  // Table of levels facts A8; kind: inferred arithmetic.
  const table: readonly (readonly Level[])[] = [
    ['B', 'B', 'B', 'B'],
    [1, 1, 1, 1],
    [1, 2, 2, 2],
    [1, 2, 3, 3],
    [1, 2, 3, 4],
  ];
  it.each([0, 1, 2, 3, 4] as const)('turn level %i', (turnLevel) => {
    expect([0, 1, 2, 3].map((k) => levelFrom(turnLevel, k, 4))).toEqual(table[turnLevel]);
  });
  it('is lowered by the cap of the category', () => {
    expect(levelFrom(4, 3, 3)).toBe(3);
    expect(levelFrom(0, 3, 2)).toBe('B');
  });
});

describe('turns that each turn level allows', () => {
  it('matches the counts 5, 7, 9 and eleven of twelve', () => {
    const ranges = ([0, 1, 2, 3, 4] as const).map((turnLevel) => turnRange(turnLevel, fiveTypes));
    expect(ranges.map(({ min, max }) => `${min}-${max}`)).toEqual(['0-4', '5-6', '7-8', '9-12', '11-12']);
  });
});

describe('worked examples', () => {
  interface Row {
    readonly what: string;
    readonly kind: string;
    readonly level: Level;
    readonly letters: string;
    readonly rules?: StepRules;
    readonly turns: string;
    readonly complexity: string;
  }
  const rows: readonly Row[] = [
    { what: 'S20', kind: 'inferred', level: 2, letters: 'YYY', turns: '7-8', complexity: 'missing' },
    { what: 'S21', kind: 'inferred', level: 3, letters: 'YYN', turns: '9-12', complexity: 'unknown' },
    {
      what: 'novice, YYN on a level 2',
      kind: 'common practice, no source',
      level: 2,
      letters: 'YYN',
      turns: '7-8',
      complexity: 'missing',
    },
    {
      what: 'intermediate: base + Y',
      kind: 'common practice, no source',
      level: 'B',
      letters: 'Y',
      rules: oneLetter,
      turns: '0-4',
      complexity: 'missing',
    },
    {
      what: 'intermediate: level 1 + N (two more letters unknown)',
      kind: 'common practice, no source',
      level: 1,
      letters: 'N',
      rules: oneLetter,
      turns: '5-12',
      complexity: 'unknown',
    },
    {
      what: 'intermediate: level 1 + Y (fewer than 7 turns)',
      kind: 'common practice, no source',
      level: 1,
      letters: 'Y',
      rules: oneLetter,
      turns: '5-6',
      complexity: 'missing',
    },
    {
      what: 'intermediate: level 2 + Y is the maximum',
      kind: 'common practice, no source',
      level: 2,
      letters: 'Y',
      rules: oneLetter,
      turns: '7-12',
      complexity: 'unknown',
    },
    {
      what: 'novice',
      kind: 'common practice, no source',
      level: 2,
      letters: 'YNN',
      turns: '7-12',
      complexity: 'unknown',
    },
    {
      what: 'novice',
      kind: 'common practice, no source',
      level: 3,
      letters: 'YYN',
      turns: '9-12',
      complexity: 'unknown',
    },
    {
      what: 'novice',
      kind: 'common practice, no source',
      level: 3,
      letters: 'YNY',
      turns: '9-12',
      complexity: 'unknown',
    },
    { what: 'novice', kind: 'common practice, no source', level: 4, letters: 'YYY', turns: '11-12', complexity: 'met' },
    {
      what: 'three Y with level 3: complexity or turns missing',
      kind: 'common practice, no source',
      level: 3,
      letters: 'YYY',
      turns: '9-12',
      complexity: 'missing',
    },
  ];
  it.each(rows)('$what: level $level with $letters ($kind)', (row) => {
    const reading = explain(row.level, row.letters, row.rules);
    expect(reading.consistent).toBe(true);
    expect(`${String(reading.turns?.min)}-${String(reading.turns?.max)}`).toBe(row.turns);
    expect(reading.complexity).toBe(row.complexity);
  });

  it('S20 and S21 leave exactly the turn levels that the facts name', () => {
    expect([...new Set(explain(2, 'YYY').explanations.map((one) => one.turnLevel))]).toEqual([2]);
    expect([...new Set(explain(3, 'YYN').explanations.map((one) => one.turnLevel))]).toEqual([3, 4]);
  });
});

describe('contradictory letters claim nothing', () => {
  // Level 4 always shows three Y; two Y in all cannot be more than level 3 (common practice, no source).
  it.each([
    [4, 'YYN'],
    [4, 'NNN'],
    [3, 'YNN'],
    [2, 'NNN'],
  ] as const)('level %s with %s', (level, text) => {
    expect(explain(level, text)).toMatchObject({
      letters: text,
      consistent: false,
      explanations: [],
      turns: null,
      complexity: null,
    });
  });
  it('a level above the cap of the category', () => {
    expect(explain(3, 'Y', oneLetter).consistent).toBe(false);
  });
});

describe('what is not printed stays unknown', () => {
  it('no letters: every feature set that allows the level remains', () => {
    const reading = explain(3, '');
    expect(reading.letters).toBeNull();
    // T = 3 with two or three features (3 + 1 ways), T = 4 with two (3 ways).
    expect(reading.explanations).toHaveLength(7);
    expect(reading.turns).toEqual({ min: 9, max: 12 });
  });
  it('no level: nothing is claimed about the turns', () => {
    expect(explain(null, 'YYN')).toMatchObject({ consistent: true, explanations: [], turns: null, complexity: null });
  });
  it('a cap that is not known may have held the level down', () => {
    const reading = explain(2, 'YYY', { ...fiveTypes, cap: null });
    expect(reading.turns).toEqual({ min: 7, max: 12 });
    expect(reading.notes.join(' ')).toContain('not known');
  });
  it('a cap equal to the level hides everything above it', () => {
    expect(explain(3, 'YYY', { ...anyTypes, cap: 3 }).turns).toEqual({ min: 9, max: 12 });
    expect(explain(3, 'YYY', { ...anyTypes, cap: 3 }).complexity).toBe('unknown');
  });
});

it('a T is read as met, and said', () => {
  const reading = explain(4, 'YTY');
  expect(reading.consistent).toBe(true);
  expect(reading.letters).toBe('YTY');
  expect(reading.notes.join(' ')).toContain('ice dance');
});

it('is the same set as filtering the forty cases by hand, for every level, cap and letter word', () => {
  const words = ['', ...[1, 2, 3].flatMap((n) => Array.from({ length: 2 ** n }, (_, bits) => word(n, bits)))];
  for (const cap of [1, 2, 3, 4])
    for (const level of ['B', 1, 2, 3, 4] as const)
      for (const text of words) {
        const found = explain(level, text, { ...fiveTypes, cap }).explanations.map(
          (one) => `${one.turnLevel}${one.rotation ? 'Y' : 'N'}${one.body ? 'Y' : 'N'}${one.clusters ? 'Y' : 'N'}`,
        );
        expect(found.sort()).toEqual(byHand(level, text, cap).sort());
      }
});

const word = (n: number, bits: number): string =>
  Array.from({ length: n }, (_, place) => ((bits >> place) & 1 ? 'Y' : 'N')).join('');

/** The forty cases as strings `TRBC`, filtered with plain string operations. */
function byHand(level: Level, text: string, cap: number): string[] {
  const kept: string[] = [];
  for (let turnLevel = 0; turnLevel <= 4; turnLevel += 1)
    for (let bits = 0; bits < 8; bits += 1) {
      const features = word(3, bits);
      const yes = features.replaceAll('N', '').length;
      const got = turnLevel === 0 ? 0 : Math.min(turnLevel, 1 + yes, cap);
      if (features.startsWith(text) && got === (level === 'B' ? 0 : level)) kept.push(`${turnLevel}${features}`);
    }
  return kept;
}
