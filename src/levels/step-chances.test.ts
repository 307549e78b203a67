import fc from 'fast-check';
import library from 'jstat';
import { describe, expect, it } from 'vitest';
import type { StepRules } from '../rulebook/index.ts';
import { levelWhen, planOf, rankOf, type CalledLevel } from './step-assess.ts';
import { expectedOver, levelChances } from './step-chances.ts';
import { clusterMoves } from './step-clusters.ts';
import { stepLevel } from './step-level.ts';
import { directionOf, type Move } from './step-sequence.ts';
import { advancedNovice, anyTypes, fiveTypes } from './testing/rules.ts';
import { TWELVE, anySequence, line, withLetters } from './testing/sequences.ts';

const RULES = [fiveTypes, anyTypes, { ...fiveTypes, cap: 3 }, { ...advancedNovice, prescribed: [] }];
const anyRules = fc.constantFrom(...RULES);

/** The level of a credit pattern, written down once more from the rule text: sets and plain loops. */
function levelByHand(moves: readonly Move[], credited: readonly boolean[], rules: StepRules): CalledLevel {
  const seen = new Set<string>();
  const perType = new Map<string, number>();
  moves.forEach((move, index) => {
    if (credited[index] !== true || move.turn === 'three' || move.turn === 'mohawk') return;
    seen.add(`${move.turn} ${directionOf(move)}`);
    perType.set(move.turn, Math.min(2, (perType.get(move.turn) ?? 0) + 1));
  });
  const sum = [...perType.values()].reduce((a, b) => a + b, 0);
  if (rules.minimumForBasic !== null && sum < rules.minimumForBasic) return 'none';
  const turnLevel = seen.size >= 11 ? 4 : sum >= 9 ? 3 : sum >= 7 ? 2 : sum >= 5 ? 1 : 0;
  const share = (test: (move: Move) => boolean) => moves.filter(test).reduce((all, move) => all + move.share, 0);
  const third = 1 / 3 - 1e-9;
  const rotation = share((m) => m.rotation === 'left') >= third && share((m) => m.rotation === 'right') >= third;
  const plan = planOf(moves, rules);
  const clusters = plan.clusters.valid && [...clusterMoves(plan.clusters)].every((index) => credited[index]);
  const yes = Number(rotation) + Number(share((m) => m.body) >= third) + Number(clusters);
  const level = turnLevel === 0 ? 0 : Math.min(turnLevel, 1 + yes, rules.cap ?? 4);
  return level === 0 ? 'B' : (([1, 2, 3, 4] as const)[level - 1] ?? 'B');
}

/** Every one of the 2^n credit patterns with its chance. */
function bruteForce(moves: readonly Move[], rules: StepRules): Record<CalledLevel, number> {
  const sum = { none: 0, B: 0, 1: 0, 2: 0, 3: 0, 4: 0 };
  for (let bits = 0; bits < 2 ** moves.length; bits += 1) {
    const credited = moves.map((_, index) => ((bits >> index) & 1) === 1);
    const p = moves.reduce((all, move, index) => all * (credited[index] ? move.credit : 1 - move.credit), 1);
    if (p > 0) sum[levelByHand(moves, credited, rules)] += p;
  }
  return sum;
}

describe('chances', () => {
  it('equal the sum over all 2^n credit patterns, clusters included', () => {
    fc.assert(
      fc.property(anySequence, anyRules, (moves, rules) => {
        const exact = levelChances(planOf(moves, rules));
        const brute = bruteForce(moves, rules);
        for (const level of ['none', 'B', 1, 2, 3, 4] as const) expect(exact[level] ?? 0).toBeCloseTo(brute[level], 12);
      }),
      { numRuns: 60 },
    );
  });

  it('equal the sum over 2^14 patterns for a full sequence of fourteen turns', () => {
    const moves = withLetters(line(`${TWELVE}, / LBO rocker, / RBI bracket`), 'YY').map((move, index) => ({
      ...move,
      credit: 0.7 + 0.02 * index,
    }));
    const exact = levelChances(planOf(moves, fiveTypes));
    const brute = bruteForce(moves, fiveTypes);
    for (const level of ['B', 1, 2, 3, 4] as const) expect(exact[level]).toBeCloseTo(brute[level], 12);
  });

  it('reduce to a binomial table: twelve different cells, no clusters, level 2 needs seven of twelve', () => {
    // Every move its own cell of the grid, one further feature: level 2 or more is "seven or more credited".
    const loose = line(TWELVE);
    const cells = new Set(loose.map((move) => `${move.turn} ${directionOf(move)}`));
    expect(cells.size).toBe(loose.length);
    // The library rounds its table to ten decimals.
    for (const p of [0.3, 0.5, 0.9]) {
      const moves = withLetters(loose, 'YN').map((move) => ({ ...move, credit: p }));
      const chances = levelChances(planOf(moves, { ...fiveTypes, clusterTypes: [] }));
      expect(chances.B).toBeCloseTo(library.jStat.binomial.cdf(4, cells.size, p), 9);
      expect(chances[1]).toBeCloseTo(
        library.jStat.binomial.cdf(6, cells.size, p) - library.jStat.binomial.cdf(4, cells.size, p),
        9,
      );
    }
  });

  it('sum to 1, are all sure when every turn is, and a surer turn never makes a level and more less likely', () => {
    fc.assert(
      fc.property(anySequence, anyRules, fc.nat(), (moves, rules, pick) => {
        const chances = levelChances(planOf(moves, rules));
        const total = expectedOver(chances, () => 1);
        expect(total).toBeCloseTo(1, 12);
        const surer = moves.map((move, index) => (index === pick % moves.length ? { ...move, credit: 1 } : move));
        const better = levelChances(planOf(surer, rules));
        const atLeast = (c: typeof chances, from: number) =>
          ([4, 3, 2, 1] as const).filter((level) => level >= from).reduce((all, level) => all + c[level], 0);
        for (const from of [1, 2, 3, 4])
          expect(atLeast(better, from)).toBeGreaterThanOrEqual(atLeast(chances, from) - 1e-12);
      }),
    );
    const sure = planOf(withLetters(line(TWELVE), 'YY'), fiveTypes);
    expect(levelChances(sure)).toEqual({ B: 0, 1: 0, 2: 0, 3: 0, 4: 1 });
  });

  it('know none only where the rules know a minimum for Basic', () => {
    expect(levelChances(planOf(line('LFO Ro'), fiveTypes))).not.toHaveProperty('none');
    expect(levelChances(planOf(line('LFO Ro'), advancedNovice)).none).toBe(1);
  });
});

describe('spare and critical moves', () => {
  it('equal the search over all subsets of losses', () => {
    fc.assert(
      fc.property(anySequence, anyRules, (moves, rules) => {
        const answer = stepLevel(moves, rules);
        const plan = planOf(moves, rules);
        const inside = clusterMoves(plan.clusters);
        const rank = rankOf(answer.level);
        let fewest = Infinity;
        for (let bits = 1; bits < 2 ** moves.length; bits += 1) {
          const lost = moves.map((_, index) => ((bits >> index) & 1) === 1);
          const size = lost.filter(Boolean).length;
          if (size >= fewest || moves.some((_, index) => lost[index] === true && inside.has(index))) continue;
          if (
            rankOf(
              levelByHand(
                moves,
                lost.map((one) => !one),
                rules,
              ),
            ) < rank
          )
            fewest = size;
        }
        expect(answer.spare).toBe(fewest === Infinity ? null : fewest - 1);
        const critical = moves.flatMap((_, lost) =>
          rankOf(
            levelByHand(
              moves,
              moves.map((__, index) => index !== lost),
              rules,
            ),
          ) < rank
            ? [lost]
            : [],
        );
        expect(answer.critical).toEqual(critical);
      }),
      { numRuns: 60 },
    );
  });

  it('a sequence exactly at level 4 has nothing to spare', () => {
    // Eleven cells: one loss outside the clusters is already too much.
    const eleven = withLetters(line(TWELVE).slice(0, 11), 'YY');
    expect(stepLevel(eleven, fiveTypes)).toMatchObject({ level: 4, spare: 0 });
    expect(stepLevel(withLetters(line(TWELVE), 'YY'), fiveTypes)).toMatchObject({ level: 4, spare: 1 });
  });

  it('the plan with every turn credited has the level that the rule text gives', () => {
    fc.assert(
      fc.property(anySequence, anyRules, (moves, rules) => {
        expect(levelWhen(planOf(moves, rules), () => true)).toBe(
          levelByHand(
            moves,
            moves.map(() => true),
            rules,
          ),
        );
      }),
    );
  });

  it('equal shares, mirror image: the same level, spare and chances', () => {
    fc.assert(
      fc.property(anySequence, (moves) => {
        const mirrored = moves.map((move): Move => ({
          ...move,
          edge: `${move.edge.startsWith('L') ? 'R' : 'L'}${move.edge[1] === 'F' ? 'F' : 'B'}${move.edge[2] === 'O' ? 'O' : 'I'}`,
          direction: move.direction === null ? null : move.direction === 'cw' ? 'ccw' : 'cw',
          rotation: move.rotation === null ? null : move.rotation === 'left' ? 'right' : 'left',
        }));
        const [a, b] = [stepLevel(moves, fiveTypes), stepLevel(mirrored, fiveTypes)];
        expect([b.level, b.spare, b.critical, b.turns]).toEqual([a.level, a.spare, a.critical, a.turns]);
        for (const level of ['B', 1, 2, 3, 4] as const) expect(b.chances[level]).toBeCloseTo(a.chances[level], 12);
      }),
    );
  });
});
