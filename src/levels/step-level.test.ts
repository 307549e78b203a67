import { describe, expect, it } from 'vitest';
import { shippedLibrary, type StepRules } from '../rulebook/index.ts';
import { stepLevel, type StepLevel } from './step-level.ts';
import { advancedNovice, anyTypes, differentTriples, fiveTypes } from './testing/rules.ts';
import { TWELVE, TWELVE_WITHOUT_CLUSTER, line, withLetters } from './testing/sequences.ts';
import type { Move } from './step-sequence.ts';

const without = (moves: readonly Move[], ...lost: number[]): Move[] =>
  moves.filter((_, index) => !lost.includes(index));
const twelve = line(TWELVE);

/** Clusters left Br-Co-Lo, right Ro-Lo-Tw (five types), then the rest as given. */
const valid = 'LFO Br Co Lo, / RFO Ro Lo Tw';
/** Same three types on both feet. */
const sameTypes = 'LFO Ro Co Tw, / RFO Ro Co Tw';

interface Row {
  readonly no: string;
  readonly rules: StepRules;
  readonly moves: readonly Move[];
  readonly letters: string;
  readonly turnLevel: number;
  readonly level: StepLevel['level'];
  readonly clusters?: boolean;
  readonly kind: string;
}

describe('worked examples of step sequences', () => {
  // Levels facts D1. Kinds: published / follows from stated rules / from memory.
  const rows: readonly Row[] = [
    { no: 'S1', rules: fiveTypes, moves: twelve, letters: 'YY', turnLevel: 4, level: 4, kind: 'follows' },
    { no: 'S2', rules: anyTypes, moves: without(twelve, 9), letters: 'YY', turnLevel: 4, level: 4, kind: 'published' },
    {
      no: 'S3',
      rules: anyTypes,
      moves: without(twelve, 9, 10),
      letters: 'YY',
      turnLevel: 3,
      level: 3,
      kind: 'follows',
    },
    {
      no: 'S4',
      rules: fiveTypes,
      // Both choctaws counter-clockwise and both twizzles counter-clockwise.
      moves: line(`${valid}, / LFO Ro, / RFO Co, / RFO Br, / LFO Tw, / RFO Ch, / RFI Ch`),
      letters: 'YY',
      turnLevel: 3,
      level: 3,
      kind: 'follows',
    },
    {
      no: 'S5',
      rules: fiveTypes,
      moves: without(twelve, 10, 11),
      letters: 'YY',
      turnLevel: 3,
      level: 3,
      kind: 'follows',
    },
    {
      no: 'S6',
      rules: fiveTypes,
      moves: line(TWELVE_WITHOUT_CLUSTER),
      letters: 'YY',
      turnLevel: 4,
      level: 3,
      clusters: false,
      kind: 'follows',
    },
    {
      no: 'S9',
      rules: anyTypes,
      moves: line('LFO Ro Co Br, / RFO Ro Co Br, / LFO Lo'),
      letters: 'YY',
      turnLevel: 2,
      level: 2,
      kind: 'from memory',
    },
    {
      no: 'S10',
      rules: anyTypes,
      // Four brackets, three rockers, two counters, a twizzle and a loop: 8 of 11 count.
      moves: line('LFO Ro Co Br, / RFO Ro Co Br, / LFO Br, / RFO Br, / LFI Ro, / LFO Tw, / RFO Lo'),
      letters: 'YY',
      turnLevel: 2,
      level: 2,
      kind: 'from memory',
    },
    {
      no: 'S11',
      rules: anyTypes,
      moves: line('LFO Br Ro Co, / RFO Br Ro'),
      letters: 'YY',
      turnLevel: 1,
      level: 1,
      kind: 'from memory',
    },
    {
      no: 'S12',
      rules: anyTypes,
      moves: line('LFO Br Ro, / RFO Br Ro'),
      letters: 'YY',
      turnLevel: 0,
      level: 'B',
      kind: 'from memory',
    },
    {
      no: 'S13',
      rules: fiveTypes,
      moves: line(`${sameTypes}, / LFO Br, / RFO Br, / LFO Lo, / RFO Lo, / LFO Ch, / RFO Ch`),
      letters: 'YY',
      turnLevel: 4,
      level: 3,
      clusters: false,
      kind: 'published (cluster), follows (level)',
    },
    {
      no: 'S14',
      rules: anyTypes,
      moves: line(`${sameTypes}, / LFO Br, / RFO Br, / LFO Lo, / RFO Lo, / LFO Ch, / RFO Ch`),
      letters: 'YY',
      turnLevel: 4,
      level: 4,
      kind: 'follows',
    },
    {
      no: 'S15',
      rules: fiveTypes,
      moves: line('LFO Br Co Lo, / RFO Ro Co Tw, / RFO Br, / LFO Lo, / LFO Ro, / LFO Tw, / LFO Ch, / RFO Ch, / RFO Co'),
      letters: 'YY',
      turnLevel: 4,
      level: 4,
      clusters: true,
      kind: 'published (cluster)',
    },
    {
      no: 'S17',
      rules: advancedNovice,
      // Prescribed: forward outside rocker and backward inside loop; here the loop is on a forward edge.
      moves: twelve,
      letters: 'YY',
      turnLevel: 4,
      level: 3,
      clusters: false,
      kind: 'published (rule), from memory (cap)',
    },
    {
      no: 'S18',
      rules: { ...advancedNovice, prescribed: [] },
      moves: twelve,
      letters: 'YY',
      turnLevel: 4,
      level: 3,
      kind: 'from memory',
    },
    {
      no: 'S19',
      rules: advancedNovice,
      moves: line('LFO rocker'),
      letters: 'YY',
      turnLevel: 0,
      level: 'none',
      kind: 'published',
    },
  ];
  it.each(rows)('$no: level $level ($kind)', ({ rules, moves, letters, turnLevel, level, clusters }) => {
    const answer = stepLevel(withLetters(moves, letters), rules);
    expect(answer.turns.level).toBe(turnLevel);
    expect(answer.level).toBe(level);
    if (clusters !== undefined) expect(answer.clusters.met).toBe(clusters);
  });

  it.each([
    ['S7', 'YN', 2, ['body', 'clusters']],
    ['S8', 'NN', 1, ['rotation', 'body', 'clusters']],
  ] as const)('%s: without clusters and letters %s it is level %i (follows)', (_no, letters, level, limits) => {
    const loose = line(TWELVE_WITHOUT_CLUSTER);
    const answer = stepLevel(withLetters(loose, letters), fiveTypes);
    expect(answer.level).toBe(level);
    expect(answer.limitedBy).toEqual(limits);
  });

  it('S16: only the first attempt on a foot can count; a lost turn in it leaves level 3 (follows)', () => {
    const moves = line(
      `LFO Br Co Lo, / RFO Ro Lo Tw, / LBI Co Lo Br, / LFO Ro, / RFO Co, / RFO Br, / LFI Tw, / LFO Ch, / RFO Ch`,
    );
    const answer = stepLevel(withLetters(moves, 'YY'), fiveTypes);
    expect(answer.level).toBe(4);
    expect(answer.clusters.attempts.map((one) => one.moves)).toEqual([
      [0, 1, 2],
      [3, 4, 5],
    ]);
    expect(answer.critical).toContain(1);
    const lost = moves.map((move, index) => (index === 1 ? { ...move, credit: 0 } : move));
    expect(stepLevel(withLetters(lost, 'YY'), fiveTypes).chances).toMatchObject({ 3: 1, 4: 0 });
  });

  it('S22: LFO rocker, LBO bracket, LFI counter is one chain of three types (follows)', () => {
    const answer = stepLevel(line('LFO rocker, bracket, counter'), anyTypes);
    expect(answer.clusters.attempts.map((one) => one.moves)).toEqual([[0, 1, 2]]);
    expect(answer.notes).toEqual([]);
  });
});

describe('combinations by season', () => {
  const same = withLetters(line(`${sameTypes}, / LFO Br, / RFO Br, / LFO Lo, / RFO Lo, / LFO Ch, / RFO Ch`), 'YY');
  // Published texts of the seasons: different or any pattern until 2021/22, five types from 2022/23.
  it.each([
    ['2018-19', 4],
    ['2019-20', 4],
    ['2021-22', 4],
    ['2022-23', 3],
    ['2023-24', 3],
    ['2024-25', 3],
  ] as const)('the same three types on both feet in %s: level %i', (id, level) => {
    const rules = shippedLibrary().rulebook(`isu/${id}`)?.steps('senior women');
    expect(rules).toBeDefined();
    if (rules !== undefined) expect(stepLevel(same, rules).level).toBe(level);
  });

  it('one on each foot always differ, but three turns of one type are no combination', () => {
    expect(stepLevel(same, differentTriples).clusters.met).toBe(true);
    const dull = stepLevel(line('LFO Ro Ro Ro, / RFO Ro Co Tw'), differentTriples);
    expect(dull.clusters).toMatchObject({ met: false, reason: 'The three turns on the left foot are of one type.' });
  });
});

describe('what holds the level', () => {
  it('names every part that holds it', () => {
    expect(stepLevel(withLetters(twelve, 'YY'), fiveTypes).limitedBy).toEqual([]);
    expect(stepLevel(withLetters(twelve, 'YY'), { ...fiveTypes, cap: 3 }).limitedBy).toEqual(['cap']);
    expect(stepLevel(withLetters(without(twelve, 9, 10), 'YY'), fiveTypes).limitedBy).toEqual(['turns']);
    expect(stepLevel(withLetters(without(twelve, 9, 10), 'NY'), { ...fiveTypes, cap: 3 }).limitedBy).toEqual([
      'turns',
      'rotation',
      'cap',
    ]);
    expect(stepLevel([], fiveTypes).limitedBy).toEqual(['turns']);
  });

  it('gives the reason for every turn that does not count', () => {
    const answer = stepLevel(line('LFO Ro, / RFO Ro, / LBO Ro, / LFO 3, / RFO Mo'), fiveTypes);
    expect(answer.counted).toEqual([0, 1]);
    expect(answer.uncounted).toEqual([
      { index: 2, reason: 'rocker: no type counts more than twice' },
      { index: 3, reason: 'a three turn never counts' },
      { index: 4, reason: 'a mohawk never counts' },
    ]);
  });

  it('counts one execution in each direction before a second in the same', () => {
    // LFO and RFI rockers turn counter-clockwise, RFO clockwise.
    expect(stepLevel(line('LFO Ro, / RFI Ro, / RFO Ro'), fiveTypes).counted).toEqual([0, 2]);
  });

  it('flags a type that stands twice in one combination, where five types are asked for', () => {
    // Left rocker-counter-rocker, right bracket-loop-twizzle: five types, but the texts do not settle it.
    const answer = stepLevel(line('LFO Ro Co Ro, / RFO Br Lo Tw'), fiveTypes);
    expect(answer.clusters.met).toBe(true);
    expect(answer.warnings.join(' ')).toContain('left foot one type stands twice');
    expect(stepLevel(line('LFO Ro Co Ro, / RFO Br Lo Tw'), anyTypes).warnings).toEqual([]);
  });
});

describe('thirds of the pattern', () => {
  const shared = (left: number, right: number, body: number) =>
    twelve.map((move, index): Move => ({
      ...move,
      share: [left, right, body][index] ?? 0,
      rotation: index === 0 ? 'left' : index === 1 ? 'right' : null,
      body: index === 2,
    }));
  it('are met at a third less one thousand-millionth and not below', () => {
    const third = 1 / 3;
    expect(stepLevel(shared(third, third, third), fiveTypes).level).toBe(4);
    expect(stepLevel(shared(third - 9e-10, third, third), fiveTypes).rotation.met).toBe(true);
    expect(stepLevel(shared(third - 2e-9, third, third), fiveTypes).rotation.met).toBe(false);
    expect(stepLevel(shared(third, third, third - 2e-9), fiveTypes).limitedBy).toEqual(['body']);
  });
});

describe('edges that do not connect', () => {
  it('are noted at the break, and computed all the same', () => {
    const answer = stepLevel(line('LFO rocker, LBI counter, RFI loop, / LFO three, ~ LBO loop'), fiveTypes);
    expect(answer.notes).toEqual([
      { index: 1, note: 'rocker leaves on LBO, counter begins on LBI: a change of edge is needed here.' },
      { index: 2, note: 'counter leaves on LFI, loop begins on RFI: a step to the other foot is needed here.' },
    ]);
    expect(answer.counted).toEqual([0, 1, 2, 4]);
  });
  it('break a cluster, and so does a written change', () => {
    const cluster = (text: string) => stepLevel(line(text), anyTypes).clusters.attempts.length;
    expect(cluster('LFO Ro, LBO Co, LFO Lo')).toBe(1);
    expect(cluster('LFO Ro, LBI Co, LFI Lo')).toBe(0);
    expect(cluster('LFO Tw, ~ LBI Co, LFI Lo')).toBe(0);
    expect(cluster('LFO Tw, LBI Co, LFI Lo')).toBe(1);
    expect(cluster('LFO Ro, LBO 3, LFI Lo')).toBe(0);
  });
});
