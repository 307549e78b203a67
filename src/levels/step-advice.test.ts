import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { levelNumber } from './feedback-steps.ts';
import { planOf, rankOf, type CalledLevel } from './step-assess.ts';
import { expectedOver, levelChances } from './step-chances.ts';
import { stepLevel } from './step-level.ts';
import { improveSteps } from './step-search.ts';
import { moveWeights } from './step-weakest.ts';
import { connects } from './step-sequence.ts';
import { DIRECTIONS, EDGES, footOf, isFreeDirection } from './turns.ts';
import { fiveTypes } from './testing/rules.ts';
import { TWELVE, anySequence, line, withLetters } from './testing/sequences.ts';

/** Values of a step sequence by level in hundredths, 2023/24. */
const worth = (level: CalledLevel): number =>
  level === 'none' ? 0 : ([150, 180, 260, 330, 390][levelNumber(level)] ?? 0);
const eleven = withLetters(line(TWELVE), 'YY')
  .slice(0, 11)
  .map((move) => ({ ...move, credit: 0.9 }));

describe('the weakest turn', () => {
  it('is the slope of the expected value, and that is exact', () => {
    fc.assert(
      fc.property(anySequence, (moves) => {
        const expected = (changed: typeof moves) => expectedOver(levelChances(planOf(changed, fiveTypes)), worth) ?? 0;
        const weights = moveWeights(planOf(moves, fiveTypes), worth) ?? [];
        for (const { index, slope, gain } of weights) {
          const at = (credit: number) => expected(moves.map((move, i) => (i === index ? { ...move, credit } : move)));
          expect(slope).toBeCloseTo((at(0.75) - at(0.25)) * 2, 8);
          expect(gain).toBeCloseTo(at(1) - expected(moves), 8);
        }
        weights.slice(1).forEach((one, n) => expect(one.slope).toBeLessThanOrEqual((weights[n]?.slope ?? 0) + 1e-9));
      }),
      { numRuns: 30 },
    );
  });

  it('is a cluster turn where the level hangs on the clusters', () => {
    // With twelve cells one turn elsewhere may go, but none of the six in the combinations.
    const twelve = withLetters(line(TWELVE), 'YY').map((move) => ({ ...move, credit: 0.9 }));
    const heaviest = (moveWeights(planOf(twelve, fiveTypes), worth) ?? []).slice(0, 6).map((one) => one.index);
    expect(heaviest.sort()).toEqual([0, 1, 2, 3, 4, 5]);
  });

  it('is not said where a value is not known', () => {
    expect(moveWeights(planOf(eleven, fiveTypes), () => null)).toBeNull();
  });
});

describe('the best change of one turn', () => {
  it('gives a sequence at level 4 with spare 0 one turn to spare', () => {
    expect(stepLevel(eleven, fiveTypes)).toMatchObject({ level: 4, spare: 0 });
    const { found, proven } = improveSteps(eleven, fiveTypes, worth);
    expect(proven).toBe(true);
    expect(found[0]).toMatchObject({ level: 4, spare: 1 });
    expect(stepLevel(found[0]?.moves ?? [], fiveTypes)).toMatchObject({ level: 4, spare: 1 });
    // The twelfth cell: the other choctaw.
    expect(found[0]?.edits.map((edit) => [edit.kind, edit.turn])).toEqual([['add', 'choctaw']]);
  });

  it('is not beaten by any single change that can be skated, tried one by one', () => {
    fc.assert(
      fc.property(anySequence, (moves) => {
        fc.pre(moves.length <= 9);
        const { found } = improveSteps(moves, fiveTypes, worth, { credit: 0.9 }, { top: 1 });
        const best = found[0];
        expect(best).toBeDefined();
        if (best === undefined) return;
        const score = (some: typeof moves) => {
          const { level, spare, chances } = stepLevel(some, fiveTypes);
          return [rankOf(level), spare ?? 99, expectedOver(chances, worth) ?? 0] as const;
        };
        const mine = score([...best.moves]);
        for (let at = 0; at <= moves.length; at += 1)
          for (const turn of fiveTypes.countable)
            for (const edge of EDGES)
              for (const direction of isFreeDirection(turn) ? [null, ...DIRECTIONS] : [null])
                for (const drop of [0, 1]) {
                  const old = drop === 1 ? moves[at] : undefined;
                  if (drop === 1 && old === undefined) continue;
                  const fresh = {
                    share: 0,
                    body: false,
                    rotation: null,
                    change: null,
                    ...old,
                    turn,
                    edge,
                    direction,
                    credit: 0.9,
                  };
                  const [before, after] = [moves[at - 1], moves[at + drop]];
                  // Only what follows on straight is tried here; steps to the other foot are a choice of the search.
                  if (fresh.change !== null || (before !== undefined && !connects(before, fresh))) continue;
                  if (after !== undefined && !connects(fresh, after)) continue;
                  const theirs = score([...moves.slice(0, at), fresh, ...moves.slice(at + drop)]);
                  const order = mine
                    .map((value, n) => value - (theirs[n] ?? 0))
                    .find((difference) => Math.abs(difference) > 1e-9);
                  expect(order ?? 0).toBeGreaterThanOrEqual(0);
                }
      }),
      { numRuns: 5 },
    );
  });

  it('keeps what the coach keeps, avoids what she avoids, and prefers her foot', () => {
    const keep = eleven.map((_, index) => index);
    const kept = improveSteps(eleven, fiveTypes, worth, { keep }, { top: 5 });
    expect(kept.found.flatMap((one) => one.edits).every((edit) => edit.kind === 'add')).toBe(true);
    const avoided = improveSteps(eleven, fiveTypes, worth, { avoid: ['choctaw', 'RBI', 'LFO rocker'] }, { top: 5 });
    for (const edit of avoided.found.flatMap((one) => one.edits)) {
      expect(edit.turn).not.toBe('choctaw');
      expect(edit.edge).not.toBe('RBI');
      expect(`${edit.edge} ${edit.turn}`).not.toBe('LFO rocker');
    }
    for (const prefer of ['L', 'R'] as const) {
      const [best] = improveSteps(eleven, fiveTypes, worth, { prefer }).found;
      expect(best?.edits.map((edit) => footOf(edit.edge))).toEqual([prefer]);
    }
  });

  it('stops when asked, and then proves nothing', () => {
    let asked = 0;
    const stopped = improveSteps(eleven, fiveTypes, worth, { maxEdits: 2 }, { shouldStop: () => (asked += 1) > 50 });
    expect(stopped.proven).toBe(false);
    expect(stopped.found.length).toBeGreaterThan(0);
  });

  it('looks at pairs of changes too: two missing cells, two added turns', () => {
    const ten = withLetters(line(TWELVE).slice(0, 10), 'YY');
    const barred = ['rocker', 'counter', 'bracket', 'loop', 'twizzle', 'LFI', 'LBO', 'LBI', 'RFI', 'RBO', 'RBI'];
    const [best] = improveSteps(ten, fiveTypes, worth, {
      maxEdits: 2,
      avoid: barred,
      keep: ten.map((_, n) => n),
    }).found;
    expect(stepLevel(ten, fiveTypes).level).toBe(3);
    expect(best).toMatchObject({ level: 4, spare: 1 });
    expect(best?.edits).toHaveLength(2);
  });
});
