import { describe, expect, it } from 'vitest';
import type { Category, Segment } from '../notation/index.ts';
import { shippedLibrary, type CitationStatus, type Rulebook } from './index.ts';
import { lookUp, parsePath } from './tree.ts';

/** Facts of the sport as they must come out of the rulebooks: value and mark beside each other. */

const library = shippedLibrary();
const rulebook = (id: string): Rulebook => {
  const found = library.rulebook(id);
  if (!found) throw new Error(`no rulebook ${id}`);
  return found;
};

type Fact = readonly [
  id: string,
  category: Category,
  segment: Segment,
  path: string,
  value: unknown,
  mark: CitationStatus,
];

/** P: page read; M, m: from memory; D: derived. Only P gives `published`. */
const CONTENT: readonly Fact[] = [
  ['isu/2016-17', 'senior men', 'free', 'jumpElements.max', 8, 'published'],
  ['isu/2016-17', 'senior men', 'free', 'duration.seconds', 270, 'published'],
  ['isu/2016-17', 'senior men', 'free', 'bonusLast', 'all', 'published'],
  ['isu/2018-19', 'senior men', 'free', 'jumpElements.max', 7, 'published'],
  ['isu/2018-19', 'senior men', 'free', 'duration.seconds', 240, 'published'],
  ['isu/2018-19', 'senior women', 'short', 'bonusLast', 1, 'published'],
  ['isu/2018-19', 'senior women', 'free', 'repeats.quadKindsTwice', 1, 'published'],
  ['isu/2023-24', 'senior women', 'short', 'jumpElements.max', 3, 'published'],
  ['isu/2023-24', 'senior women', 'short', 'duration.seconds', 160, 'published'],
  ['isu/2023-24', 'senior women', 'short', 'maxTurns', 3, 'published'],
  ['isu/2023-24', 'senior men', 'short', 'maxTurns', 4, 'published'],
  ['isu/2023-24', 'senior women', 'free', 'jumpElements.max', 7, 'published'],
  ['isu/2023-24', 'senior women', 'free', 'maxUnits', 3, 'published'],
  ['isu/2023-24', 'senior women', 'free', 'jumpsPerUnit', [3, 2, 2], 'memory'],
  ['isu/2023-24', 'senior women', 'free', 'repeats.highKindsTwice', 2, 'memory'],
  ['isu/2024-25', 'senior women', 'free', 'repeats.highKindsTwice', 2, 'published'],
  ['isu/2023-24', 'senior women', 'free', 'bonusLast', 3, 'published'],
  ['isu/2023-24', 'senior women', 'free', 'spins.kinds[0].kind', 'combination', 'published'],
  ['isu/2023-24', 'senior women', 'free', 'spins.kinds[0].revolutions', 10, 'memory'],
  ['isu/2023-24', 'junior women', 'free', 'spins.kinds[0].kind', 'combination', 'memory'],
  ['isu/2024-25', 'advanced novice women', 'short', 'eulerAllowed', true, 'published'],
  ['isu/2026-27', 'junior women', 'free', 'jumpElements.max', 6, 'memory'],
  ['isu/2023-24', 'junior women', 'free', 'steps.max', 0, 'published'],
  ['isu/2023-24', 'junior women', 'free', 'choreo.max', 1, 'published'],
  ['isu/2021-22', 'junior women', 'free', 'steps.max', 1, 'memory'],
  ['isu/2023-24', 'junior women', 'free', 'duration.seconds', 210, 'memory'],
  ['isu/2022-23', 'junior men', 'short', 'slots[1].names', ['Lo'], 'memory'],
  ['isu/2023-24', 'junior men', 'short', 'slots[1].names', ['Lz'], 'memory'],
  ['isu/2024-25', 'junior men', 'short', 'slots[1].names', ['F'], 'memory'],
  ['isu/2025-26', 'junior men', 'short', 'slots[1].names', ['Lo'], 'memory'],
  ['isu/2024-25', 'advanced novice women', 'short', 'duration.seconds', 140, 'published'],
  ['isu/2024-25', 'advanced novice women', 'short', 'slots[2].secondNames', ['T'], 'published'],
  ['isu/2024-25', 'advanced novice women', 'free', 'jumpElements.max', 6, 'published'],
  ['isu/2024-25', 'advanced novice women', 'free', 'eulerExcludesSequence', true, 'published'],
  ['isu/2024-25', 'advanced novice women', 'free', 'bonusPoints', true, 'published'],
  ['isu/2024-25', 'advanced novice women', 'free', 'bonusLast', 0, 'memory'],
  ['isu/2022-23', 'intermediate novice women', 'free', 'jumpElements.max', 5, 'published'],
  ['isu/2022-23', 'intermediate novice women', 'free', 'jumpsPerUnit', [2, 2], 'published'],
  ['isu/2023-24', 'intermediate novice women', 'free', 'jumpsPerUnit', [2, 2], 'memory'],
  ['isu/2024-25', 'intermediate novice women', 'free', 'jumpsPerUnit', [3, 2], 'published'],
  ['isu/2022-23', 'intermediate novice women', 'free', 'maxTurns', 2, 'published'],
  ['isu/2022-23', 'intermediate novice women', 'free', 'repeats.lowKindsTwice', 1, 'published'],
  ['isu/2022-23', 'basic novice men', 'free', 'jumpElements.max', 4, 'published'],
  ['isu/2022-23', 'basic novice men', 'free', 'duration.seconds', 150, 'memory'],
  ['isu/2026-27', 'senior women', 'free', 'jumpElements.max', 6, 'published'],
  ['isu/2026-27', 'senior women', 'free', 'maxUnits', 2, 'published'],
  ['isu/2026-27', 'senior women', 'free', 'bonusLast', null, 'memory'],
  ['us/2023-24', 'novice women', 'free', 'jumpElements.max', 6, 'memory'],
  ['us/2023-24', 'novice women', 'free', 'maxTurns', 4, 'published'],
  ['us/2023-24', 'novice women', 'free', 'bonusLast', null, 'memory'],
  ['us/2023-24', 'juvenile women', 'free', 'steps.max', null, 'memory'],
  ['us/2023-24', 'senior women', 'free', 'jumpElements.max', 7, 'memory'],
  ['us/2023-24', 'senior women', 'free', 'duration.maximumOnly', true, 'memory'],
  ['us/2023-24', 'junior women', 'free', 'steps.max', 0, 'published'],
  ['us/2018-19', 'novice women', 'free', 'bonusPoints', true, 'published'],
  ['us/2023-24', 'novice women', 'free', 'bonusPoints', null, 'memory'],
  ['canada/2022-23', 'juvenile women', 'free', 'maxSequences', 0, 'published'],
  ['canada/2022-23', 'juvenile women', 'free', 'repeats.familiesTwice', 1, 'published'],
];

describe('contents', () => {
  it.each(CONTENT)('%s, %s, %s: %s is %j (%s)', (id, category, segment, path, value, mark) => {
    const book = rulebook(id);
    expect(lookUp(book.content(category, segment), parsePath(path)).value).toEqual(value);
    expect(book.citation(`content.${category}.${segment}.${path}`).status).toBe(mark);
  });

  it('intermediate and basic novice have no short program', () => {
    for (const id of library.list().filter((one) => one.startsWith('isu/'))) {
      expect(rulebook(id).content('intermediate novice women', 'short')).toBeUndefined();
      expect(rulebook(id).content('basic novice men', 'short')).toBeUndefined();
    }
  });
});

const FACTORS: readonly [id: string, category: Category, short: number | null, free: number | null][] = [
  ['isu/2016-17', 'senior men', 100, 200],
  ['isu/2021-22', 'junior women', 80, 160],
  ['isu/2022-23', 'senior men', 167, 333],
  ['isu/2023-24', 'senior women', 133, 267],
  ['isu/2023-24', 'junior women', 133, 267],
  ['isu/2024-25', 'advanced novice women', 107, 213],
  ['isu/2024-25', 'advanced novice men', 120, 240],
  ['isu/2023-24', 'basic novice women', null, 167],
  ['us/2023-24', 'novice women', null, null],
  ['us/2023-24', 'senior women', 133, 267],
];

describe('components', () => {
  it.each(FACTORS)('%s, %s: short %s, free %s', (id, category, short, free) => {
    expect(rulebook(id).components(category, 'short').factor).toBe(short);
    expect(rulebook(id).components(category, 'free').factor).toBe(free);
  });
});

const FALLS: readonly [id: string, category: Category, falls: readonly number[] | null, mark: CitationStatus][] = [
  ['isu/2016-17', 'senior men', [-100, -100, -200, -200, -300], 'published'],
  ['isu/2023-24', 'junior men', [-100], 'memory'],
  ['isu/2018-19', 'basic novice men', [-50], 'published'],
  ['isu/2016-17', 'basic novice men', [-50], 'memory'],
  ['us/2023-24', 'novice women', [-50], 'memory'],
];

describe('deductions', () => {
  it.each(FALLS)('%s, %s: falls %j (%s)', (id, category, falls, mark) => {
    expect(rulebook(id).deductions(category, 'free').falls).toEqual(falls);
    expect(rulebook(id).citation(`deductions.${category}.falls`).status).toBe(mark);
  });

  it('time, interruption and the single amounts', () => {
    const senior = rulebook('isu/2023-24').deductions('senior women', 'free');
    expect(senior.time).toEqual({ points: -100, perSeconds: 5 });
    expect(senior.amounts).toEqual({ costume: -100, illegal: -200, 'late-start': -100 });
    expect(senior.interruption?.steps.map((step) => step.points)).toEqual([-100, -200, -300]);
    expect(senior.interruption?.withAllowance).toBe(-500);
    const novice = rulebook('isu/2023-24').deductions('advanced novice women', 'free');
    expect(novice.interruption?.steps.map((step) => step.points)).toEqual([-50, -100, -150, -200]);
    expect(novice.interruption?.withAllowance).toBe(-250);
    expect(rulebook('us/2023-24').deductions('juvenile women', 'free').time?.points).toBe(-50);
    expect(rulebook('us/2023-24').deductions('novice women', 'free').time?.points).toBe(-100);
  });
});

describe('values', () => {
  it.each([
    ['isu/2017-18', { percent: 80, count: 'two-highest' }],
    ['isu/2021-22', { percent: 80, count: 'all', maxJumps: 2, axelAfterFirst: true }],
    ['isu/2022-23', { percent: 100, count: 'all', maxJumps: 3, axelAfterFirst: true }],
  ])('%s: sequences %j', (id, sequence) => expect(rulebook(id).values.sequence).toMatchObject(sequence));

  it('averaging is established for the seasons of the open data only', () => {
    for (const id of library.list())
      expect([id, rulebook(id).values.averagingEstablished]).toEqual([
        id,
        (id < 'isu/2018' && id.startsWith('isu')) || /us\/201[67]/.test(id),
      ]);
  });

  // A season that changes one of these figures gets a table of its own; the list ends with what was checked.
  it('repeat 70 %, second half 110 %, panel of five trimmed, marks from 0.25 to 10, to 2026/27', () => {
    for (const id of library.list().filter((one) => rulebook(one).season <= '2026/27')) {
      const { values } = rulebook(id);
      expect([values.repeatPercent, values.secondHalfPercent]).toEqual([70, 110]);
      expect(values.panel).toEqual({ trimFrom: 5, drop: 1 });
      expect(values.componentMarks).toEqual({ min: 25, max: 1000, step: 25 });
      expect(rulebook(id).citation('values.panel.trimFrom').status).toBe('memory');
    }
  });
});

describe('levels', () => {
  it.each([
    ['isu/2019-20', 'different'],
    ['isu/2021-22', 'any'],
    ['isu/2022-23', 'five-types'],
    ['isu/2025-26', 'five-types'],
  ])('%s: clusters %s', (id, rule) => expect(rulebook(id).steps('senior women').clusterRule).toBe(rule));

  it.each<[string, Category, number | null, number | null, number]>([
    ['isu/2023-24', 'senior women', 4, 4, 3],
    ['isu/2023-24', 'advanced novice women', 3, 3, 3],
    ['isu/2023-24', 'basic novice women', 2, 2, 3],
    ['us/2023-24', 'novice women', 4, 4, 3],
    ['us/2023-24', 'intermediate women', 2, null, 1],
    ['us/2023-24', 'juvenile women', null, 2, 0],
    ['canada/2022-23', 'juvenile women', 1, null, 0],
  ])('%s, %s: steps up to %s, spins up to %s, %d letters', (id, category, steps, spins, letters) => {
    expect(rulebook(id).steps(category).cap).toBe(steps);
    expect(rulebook(id).spins(category).cap).toBe(spins);
    expect(rulebook(id).steps(category).letters).toHaveLength(letters);
  });

  it.each<[string, string, CitationStatus]>([
    ['isu/2017-18', 'steps.all.clusterRule', 'published'],
    ['isu/2018-19', 'steps.all.clusterRule', 'memory'],
    ['isu/2021-22', 'steps.all.clusterRule', 'published'],
    ['isu/2023-24', 'steps.all.clusterRule', 'published'],
    ['isu/2024-25', 'steps.all.clusterRule', 'memory'],
    ['isu/2023-24', 'steps.all.turnCounts', 'memory'],
    ['isu/2023-24', 'steps.all.complexityCells', 'published'],
    ['isu/2023-24', 'steps.all.letters', 'memory'],
    ['isu/2023-24', 'spins.all.gate', 'published'],
    ['isu/2024-25', 'spins.all.maxVariations', 'memory'],
    ['isu/2023-24', 'spins.all.shortFoot.short', 'memory'],
    ['isu/2019-20', 'spins.all.shortFoot.short', 'published'],
    ['isu/2023-24', 'spins.advanced novice.cap', 'memory'],
  ])('%s %s is %s', (id, path, mark) => expect(rulebook(id).citation(path).status).toBe(mark));

  it('prescribed turns and the minimum for Basic: advanced novice 2024/25 only', () => {
    expect(rulebook('isu/2024-25').steps('advanced novice women')).toMatchObject({
      minimumForBasic: 2,
      prescribed: [
        { turn: 'rocker', edge: 'FO' },
        { turn: 'loop', edge: 'BI' },
      ],
    });
    expect(rulebook('isu/2024-25').steps('senior women').prescribed).toEqual([]);
    expect(rulebook('isu/2025-26').steps('advanced novice women').prescribed).toEqual([]);
  });

  it('spin features, gate and variations by season', () => {
    const names = (id: string): string[] =>
      rulebook(id)
        .spins('senior women')
        .features.map((one) => one.name);
    expect(names('isu/2021-22')).toContain('all-positions-second-foot');
    expect(names('isu/2021-22')).not.toContain('difficult-exit');
    expect(names('isu/2022-23')).toContain('difficult-exit');
    expect(names('isu/2022-23')).not.toContain('all-positions-second-foot');
    expect(names('isu/2023-24')).not.toContain('difficult-blade');
    expect(names('isu/2024-25')).toContain('difficult-blade');
    expect(
      ['2021-22', '2022-23', '2023-24', '2024-25'].map(
        (year) => rulebook(`isu/${year}`).spins('senior women').gate.length,
      ),
    ).toEqual([0, 6, 6, 0]);
    expect(rulebook('isu/2023-24').spins('senior women')).toMatchObject({
      maxVariations: null,
      usedVariationVoidsFeature: false,
      biellmannAfter: 8,
    });
    expect(rulebook('isu/2024-25').spins('advanced novice women')).toMatchObject({
      maxVariations: 2,
      usedVariationVoidsFeature: true,
      biellmannAfter: 6,
    });
  });
});

describe('grades that a call obliges', () => {
  const range = (id: string, call: string): [number, number] | null => {
    const found = rulebook(id)
      .reductions()
      .find((one) => one.call === call);
    return found ? [found.min, found.max] : null;
  };
  it.each<[string, string, [number, number] | null]>([
    ['isu/2016-17', 'fall', [3, 3]],
    ['isu/2016-17', '<', null],
    ['isu/2018-19', 'fall', [5, 5]],
    ['isu/2018-19', 'e', [3, 4]],
    ['isu/2018-19', 'q', null],
    ['isu/2023-24', 'q', [2, 2]],
    ['isu/2023-24', '<', [2, 3]],
    ['isu/2023-24', '<<', [3, 4]],
    ['isu/2023-24', 'e', [2, 4]],
    ['isu/2023-24', '!', [1, 3]],
    ['isu/2025-26', '<', null],
  ])('%s: %s %j', (id, call, wanted) => expect(range(id, call)).toEqual(wanted));
});

describe('ages', () => {
  it.each<[string, Category, number | null, number | null]>([
    ['isu/2022-23', 'senior women', 15, null],
    ['isu/2023-24', 'senior women', 16, null],
    ['isu/2024-25', 'senior women', 17, null],
    ['isu/2023-24', 'junior men', 13, 19],
    ['isu/2023-24', 'advanced novice women', 10, 15],
    ['isu/2024-25', 'advanced novice women', 10, 16],
    ['isu/2024-25', 'basic novice women', null, 14],
  ])('%s, %s: from %s, under %s', (id, category, min, under) => {
    expect(rulebook(id).ages(category)).toMatchObject({ min, under });
  });

  it('those of a national ladder are not known', () => {
    for (const category of ['senior women', 'juvenile men'] as const) {
      expect(rulebook('us/2024-25').ages(category)).toBeUndefined();
    }
  });
});
