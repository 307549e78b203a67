import { describe, expect, it } from 'vitest';
import { shippedLibrary, type ChosenRules } from '../../rulebook/index.ts';
import type { Inventory, Layout } from '../../scoring/index.ts';
import { rulesFor } from '../chosen.ts';
import { entry, inventoryOf, pick, seeded } from '../testing/random-inventory.ts';
import { intermediateNovice, seniorFree, seniorShort } from '../testing/rule-text.ts';
import { layoutChanges } from './changes.ts';
import { checkLayout } from './check.ts';
import { changesText, checkText } from './show.ts';
import type { CheckResult } from './types.ts';

type Head = Pick<Inventory, 'season' | 'category' | 'segment'>;
const SENIOR: Head = { season: '2025/26', category: 'senior women', segment: 'free' };
const SHORT: Head = { season: '2025/26', category: 'senior women', segment: 'short' };
const NOVICE: Head = { season: '2025/26', category: 'intermediate novice women', segment: 'free' };

const layoutOf = (codes: readonly string[], head: Head): Layout =>
  inventoryOf(
    codes.map((code) => entry(code, null)),
    head,
  );

function rules(layout: Layout): ChosenRules {
  const chosen = rulesFor(shippedLibrary(), layout);
  if (!chosen.ok) throw new Error(chosen.error.advice);
  return chosen.value;
}

function check(codes: readonly string[], head: Head): CheckResult {
  const layout = layoutOf(codes, head);
  const result = checkLayout(layout, rules(layout));
  if (!result.ok) throw new Error(result.error.advice);
  return result.value;
}

const statusOf = (result: CheckResult, rule: string) => result.verdicts.find((v) => v.rule === rule);

const shuffled = <T>(list: readonly T[], random: () => number): readonly T[] =>
  list
    .map((one) => ({ one, at: random() }))
    .sort((a, b) => a.at - b.at)
    .map(({ one }) => one);

/** A program made of a pool, sizes near the limits, in any order. */
function randomProgram(parts: readonly (readonly [readonly string[], readonly number[]])[], random: () => number) {
  const codes = parts.flatMap(([pool, sizes]) => Array.from({ length: pick(sizes, random) }, () => pick(pool, random)));
  return shuffled(codes, random);
}

function agreement(
  head: Head,
  text: (codes: readonly string[]) => boolean,
  make: (random: () => number) => readonly string[],
  programs: number,
) {
  let legal = 0;
  for (let seed = 1; seed <= programs; seed++) {
    const codes = make(seeded(seed));
    const wanted = text(codes);
    if (wanted) legal++;
    const found = check(codes, head);
    const broken = found.verdicts.filter((v) => v.status === 'broken').map((v) => v.rule);
    expect(found.legal, `${codes.join(', ')}: ${broken.join(' ')}`).toBe(wanted);
  }
  return legal / programs;
}

describe('check against the rule text written down independently', () => {
  it('senior women, short program', () => {
    const jumps = ['2A', '3A', '3F', '3Lz', '3Lo', '2Lz', '1A', '3T'];
    const units = ['3Lz+3T', '3F+2T', '2A+3T', '3T+3T', '2Lz+2T', '3Lz+1Eu+3S', '3F+2A+SEQ', '3A+2T', '2S+3T'];
    const share = agreement(
      SHORT,
      seniorShort,
      (random) =>
        random() < 0.5
          ? shuffled(
              [
                pick(['2A', '3A'], random),
                pick(jumps, random),
                pick(units, random),
                pick(['FCSp4', 'FSSp3'], random),
                pick(['LSp4', 'SSp4', 'CCSp4'], random),
                'CCoSp4',
                'StSq3',
              ],
              random,
            )
          : randomProgram(
              [
                [jumps, [1, 2, 2, 2, 3]],
                [units, [0, 1, 1, 1, 2]],
                [
                  ['FCSp4', 'LSp4', 'CCoSp4', 'CSSp4', 'FCCoSp4'],
                  [2, 3, 3],
                ],
                [['StSq4', 'StSq3', 'ChSq1'], [1]],
              ],
              random,
            ),
      1500,
    );
    expect(share).toBeGreaterThan(0.05);
  });

  it('senior women, free skate', () => {
    const solos = ['2A', '3A', '3T', '3S', '3Lo', '3F', '3Lz', '4T', '4S', '2F', '2Lz', '5T', '3Lz', '2A'];
    const units = [
      '3Lz+3T',
      '3F+2T',
      '2A+3T',
      '3T+2T',
      '3Lz+2T+2Lo',
      '3F+1Eu+3S',
      '3Lz+1Eu',
      '1Eu+3S',
      '2A+1Eu+3S',
      '3S+2A+SEQ',
      '4T+3T',
      '2A+2T',
      '3Lo+2Lo',
      '5T+2T',
      '3F+3T+SEQ',
      '3S+2T+2A+SEQ',
    ];
    const share = agreement(
      SENIOR,
      seniorFree,
      (random) =>
        randomProgram(
          [
            [solos, [2, 3, 4, 4, 5]],
            [units, [1, 2, 3, 3, 4]],
            [
              ['CCoSp4', 'FCSp4', 'LSp3', 'FCCoSp4', 'CSSp4', 'FSSp2', 'CoSp3'],
              [1, 2, 3, 3, 4],
            ],
            [['StSq4'], [0, 1, 1, 1, 2]],
            [['ChSq1'], [0, 1, 1, 1, 2]],
          ],
          random,
        ),
      3000,
    );
    expect(share).toBeGreaterThan(0.03);
  });

  it('intermediate novice women, free skate', () => {
    const solos = ['1A', '2A', '2T', '2S', '2Lo', '2F', '2Lz', '1Lz', '1F', '3T', '2A'];
    const units = [
      '2S+2T',
      '2Lo+1T',
      '1A+2T',
      '2F+1Lo',
      '2T+1T',
      '2A+1Eu+2S',
      '2F+1Eu',
      '2S+1A+SEQ',
      '2Lo+2Lo',
      '2F+2T+1Lo',
      '2S+2T+SEQ',
    ];
    const share = agreement(
      NOVICE,
      intermediateNovice,
      (random) =>
        randomProgram(
          [
            [solos, [2, 3, 3, 4]],
            [units, [0, 1, 2, 2, 3]],
            [
              ['CCoSp2', 'CSSp2', 'LSp1', 'FSSp2', 'CoSp2', 'CCoSp3'],
              [1, 2, 2, 3],
            ],
            [
              ['StSq2', 'StSq3', 'StSqB'],
              [0, 1, 1],
            ],
            [['ChSq1'], [0, 0, 0, 1]],
          ],
          random,
        ),
      3000,
    );
    expect(share).toBeGreaterThan(0.03);
  });
});

describe('what a broken rule costs on the day', () => {
  const seven = ['3Lz+3T', '2A', '3F', '3Lo', '3Lz+2T+2Lo', '2A+3T', '3S'];

  it('names the element beyond the limit and its points', () => {
    const result = check([...seven, '2F'], SENIOR);
    const verdict = statusOf(result, 'jump-elements');
    expect(verdict?.status).toBe('broken');
    expect(verdict?.elements).toEqual([8]);
    // 2F 1.80 (from memory), in the second half as one of the last three: x 1.1.
    expect(verdict?.cost).toBe(198);
    expect(verdict?.citation.path).toContain('jumpElements');
  });

  it.each(['3F+1Eu', '2A+1Eu', '1Eu+3S', '1Eu'])('counts no points for the Euler of %s', (code) => {
    const result = check([code, '2A+1Eu+2S'], SENIOR);
    const verdict = statusOf(result, 'euler');
    expect(verdict).toMatchObject({ status: 'broken', elements: [1], cost: null });
    expect(verdict?.message).toContain('counts only between two listed jumps');
    expect(verdict?.message).toContain('not established');
    // 3F 5.30, 2A 3.30, 3S 4.30; 2A+1Eu+2S 3.30 + 0.50 + 1.30 (scale of values).
    const alone = { '3F+1Eu': 530, '2A+1Eu': 330, '1Eu+3S': 430, '1Eu': 0 }[code];
    expect(result.base).toBe((alone ?? 0) + 510);
  });

  it('takes 30 % of a triple repeated alone', () => {
    const result = check(['2A', '3Lz', '3Lz', 'StSq4', 'CCoSp4', 'LSp4', 'FCSp4'], SENIOR);
    // 3Lz 5.90, +REP 4.13 (facts on scoring, worked numbers): 1.77 lost.
    expect(statusOf(result, 'repeat-alone')?.cost).toBe(177);
    expect(result.base).toBe(330 + 590 + 413 + 390 + 350 + 270 + 320);
  });

  it('counts the second half by start times, then by order', () => {
    const timed = inventoryOf(
      [
        { ...entry('3Lz', null), start: 119 },
        { ...entry('2A', null), start: 120 },
      ],
      SENIOR,
    );
    const result = checkLayout(timed, rules(timed));
    expect(result.ok && result.value.withBonus).toBe(590 + 363);
  });

  it('charges every started five seconds beyond the tolerance', () => {
    const layout = { ...layoutOf(['2A'], SENIOR), duration: 256 };
    const result = checkLayout(layout, rules(layout));
    if (!result.ok) throw new Error('not read');
    expect(statusOf(result.value, 'duration')?.status).toBe('broken');
    expect(statusOf(result.value, 'duration')?.cost).toBe(200);
  });
});

describe('what is not established', () => {
  it('is unknown, never met or broken, where a national chart is a weak recollection', () => {
    const result = check(['2A', '2F', '2Lz+2T', 'CCoSp3', 'CSSp3'], {
      season: '2024/25',
      category: 'novice women',
      segment: 'free',
    });
    expect(result.legal).toBeNull();
    for (const verdict of result.verdicts) {
      if (verdict.citation.weak === true) expect(verdict.status).toBe('unknown');
      if (verdict.status === 'unknown') expect(verdict.message).toContain('check your chart');
    }
  });
});

describe('the text of a check', () => {
  it('says once, and in one line, what is met as far as known', () => {
    const result = check(['2A', '2F', '2Lz+2T', 'CCoSp3', 'FCSp3', 'StSq3'], {
      season: '2025/26',
      category: 'advanced novice women',
      segment: 'free',
    });
    const text = checkText(result);
    const met = result.verdicts.filter((v) => v.asFarAsKnown === 'met').map((v) => v.rule);
    expect(met).toContain('spins');
    expect(text).toContain(`Met as far as known, check your chart: ${met.join(', ')}.`);
    expect(text).not.toContain('unknown:');
    // What would be met stands under no heading that says it is not established.
    for (const v of result.verdicts.filter((one) => one.asFarAsKnown === 'met')) {
      expect(text).not.toContain(v.message.split('As far as known: ')[1]);
    }
  });

  it('keeps what may be broken line by line', () => {
    const layout = layoutOf(['2A', '3F', '3T', 'CCoSp4', 'FCSp4', 'LSp4'], SENIOR);
    const next = rulesFor(shippedLibrary(), layout, { season: '2025/26', as: 'isu/advanced novice women' });
    if (!next.ok) throw new Error('no rules');
    const result = layoutChanges(layout, rules(layout), next.value);
    if (!result.ok) throw new Error('not read');
    const spins = result.value.changes.find((c) => c.rule === 'spins')?.after;
    expect(spins).toMatchObject({ status: 'unknown', asFarAsKnown: 'broken' });
    expect(changesText(result.value)).toContain('Not established, check your chart. As far as known:');
    expect(changesText(result.value)).toContain('- At most two spins; planned: 3.');
  });

  it('counts a level above the cap of the category as the cap', () => {
    const head: Head = { season: '2025/26', category: 'advanced novice women', segment: 'free' };
    const [above, at] = [check(['2A', 'CCoSp4'], head), check(['2A', 'CCoSp3'], head)];
    // 2A 3.30, CCoSp3 3.00; CCoSp4 would be 3.50, levels count up to 3 (advanced novice, from memory).
    expect(above.base).toBe(630);
    expect(above.base).toBe(at.base);
    expect(above.withBonus).toBe(at.withBonus);
    expect(statusOf(above, 'spin-level')).toMatchObject({ status: 'broken', cost: 50 });
    expect(statusOf(check(['2A', 'CCoSp4'], SENIOR), 'spin-level')?.status).toBe('met');
    expect(check(['2A', 'CCoSp4'], SENIOR).base).toBe(680);
  });
});

describe('the next season', () => {
  it('finds the seventh jump element and the third unit of 2026/27 (reports on the 59th Congress)', () => {
    const layout = layoutOf(['3Lz+3T', '2A', '3F', '3Lo', '3Lz+2T', '2A+3T', '3S', 'CCoSp4', 'StSq4'], SENIOR);
    const next = rulesFor(shippedLibrary(), layout, { season: '2026/27' });
    if (!next.ok) throw new Error('no rules');
    const result = layoutChanges(layout, rules(layout), next.value);
    if (!result.ok) throw new Error('not read');
    const broken = result.value.changes.filter((c) => c.after?.status === 'broken').map((c) => c.rule);
    expect(broken).toContain('jump-elements');
    expect(broken).toContain('units');
    expect(result.value.before.legal).toBe(true);
    expect(result.value.after.legal).toBe(false);
  });

  it('of 2022/23 takes the step sequence out of the junior free skate (season letter of July 2022)', () => {
    const head: Head = { season: '2021/22', category: 'junior women', segment: 'free' };
    const layout = layoutOf(['2A', '3T', 'StSq3'], head);
    const next = rulesFor(shippedLibrary(), layout, { season: '2022/23' });
    if (!next.ok) throw new Error('no rules');
    const result = layoutChanges(layout, rules(layout), next.value);
    if (!result.ok) throw new Error('not read');
    expect(result.value.changes.find((c) => c.rule === 'steps')?.after?.status).toBe('broken');
  });
});
