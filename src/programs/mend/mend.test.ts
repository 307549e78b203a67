import { describe, expect, it } from 'vitest';
import { shippedLibrary } from '../../rulebook/index.ts';
import type { Inventory } from '../../scoring/index.ts';
import { checkLayout } from '../check/check.ts';
import { rulesFor } from '../chosen.ts';
import { entry, inventoryOf, pick, seeded } from '../testing/random-inventory.ts';
import { seniorFree } from '../testing/rule-text.ts';
import { mend } from './mend.ts';
import { mendText } from './show.ts';

type Head = Pick<Inventory, 'season' | 'category' | 'segment'>;
const FREE: Head = { season: '2025/26', category: 'senior women', segment: 'free' };
const LEGAL = ['3Lz+3T', '3F', '2A', 'FCSp4', 'StSq3', '3Lo+2T', '3Lz', 'ChSq1', '3S', 'CSSp4', '3F+2T+2Lo', 'CCoSp4'];

const layoutOf = (codes: readonly string[]) =>
  inventoryOf(
    codes.map((code) => entry(code, null)),
    FREE,
  );

function rules() {
  const chosen = rulesFor(shippedLibrary(), layoutOf(LEGAL));
  if (!chosen.ok) throw new Error(chosen.error.advice);
  return chosen.value;
}

function brokenOf(codes: readonly string[]): readonly string[] {
  const check = checkLayout(layoutOf(codes), rules());
  if (!check.ok) throw new Error(check.error.advice);
  return check.value.verdicts.flatMap((v) => (v.status === 'broken' ? [v.rule] : []));
}

function ways(codes: readonly string[], rule: string, repertoire: readonly string[] = []) {
  const found = mend(layoutOf(codes), rules(), rule, { repertoire, top: 5 });
  if (!found.ok) throw new Error(found.error.advice);
  return found.value;
}

describe('mending a broken rule', () => {
  it('offers nothing where nothing is broken', () => {
    expect(brokenOf(LEGAL)).toEqual([]);
    expect(ways(LEGAL, 'repeats')).toEqual([]);
  });

  it('is one change where one element is too many, and what scored nothing costs nothing to take out', () => {
    const codes = [...LEGAL, '2Lo'];
    expect(brokenOf(codes)).toEqual(['jump-elements']);
    const found = ways(codes, 'jump-elements');
    expect(found.length).toBeGreaterThan(0);
    expect(found.map((w) => w.steps.length)).toEqual(found.map(() => 1));
    const out = found.find((w) => w.steps[0]?.kind === 'take-out' && w.steps[0].code === '2Lo');
    // It scored nothing; the places of the second half may move up.
    expect(out?.change).toBeGreaterThanOrEqual(0);
    expect(mendText(out ?? { steps: [] })).toBe('Take out the 2Lo (element 13)');
  });

  it('lets come in what is hers alone, easier forms, and what a rule asks for without a jump', () => {
    const codes = LEGAL.map((code) => (code === '3S' ? '3Lo' : code));
    const jumps = (code: string) => code.split('+').filter((part) => /^\d/.test(part));
    const hers = ['3S'];
    for (const rule of brokenOf(codes)) {
      for (const { steps, addsJump } of ways(codes, rule, hers)) {
        expect(addsJump).toBe(false);
        for (const step of steps) {
          if (step.kind !== 'change' || hers.includes(step.to)) continue;
          expect(jumps(step.to).length).toBeLessThanOrEqual(jumps(step.code).length);
        }
      }
    }
  });

  it('says so where a way adds a jump: a tail that she has elsewhere', () => {
    // A solo repeat: 3S a second time without a combination.
    const codes = LEGAL.map((code) =>
      code === '2A' ? '3S' : code === '3Lo+2T' ? '2A+3T' : code === '3Lz+3T' ? '3Lz+2T' : code,
    );
    const broken = brokenOf(codes);
    const found = broken.flatMap((rule) => ways(codes, rule, ['2A+3T', '3Lz+2T']));
    for (const way of found) {
      const more = way.codes
        .join('+')
        .split('+')
        .filter((p) => /^\d/.test(p)).length;
      const before = codes
        .join('+')
        .split('+')
        .filter((p) => /^\d/.test(p)).length;
      if (more > before) expect(way.addsJump).toBe(true);
    }
  });

  it('mends by the rule text written down independently, in the fewest steps, and breaks nothing new', () => {
    const pool = [
      '2A',
      '3T',
      '3S',
      '3Lo',
      '3F',
      '3Lz',
      '3Lz+3T',
      '3F+2T',
      '2A+3T',
      '3S+2T+2Lo',
      'LSp4',
      'StSq2',
      'ChSq1',
    ];
    let mended = 0;
    for (let seed = 1; seed <= 14; seed += 1) {
      const random = seeded(seed);
      const codes = [...LEGAL];
      for (let k = 0; k < 2; k += 1) {
        const at = Math.floor(random() * codes.length);
        if (random() < 0.5) codes.splice(at, 1, pick(pool, random));
        else codes.splice(at, 0, pick(pool, random));
      }
      const before = brokenOf(codes);
      for (const rule of new Set(before)) {
        for (const way of ways(codes, rule, LEGAL)) {
          const after = brokenOf(way.codes);
          expect(after.every((r) => before.includes(r) && r !== rule)).toBe(true);
          expect([...new Set(after)]).toEqual(way.stillBroken);
          if (way.stillBroken.length > 0) continue;
          mended += 1;
          expect(seniorFree(way.codes), way.codes.join(' ')).toBe(true);
          const oneLess = codes.some((_, i) => seniorFree(codes.filter((__, k) => k !== i)));
          if (oneLess) expect(way.steps).toHaveLength(1);
        }
      }
    }
    expect(mended).toBeGreaterThan(15);
  });
});
