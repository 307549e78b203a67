import { describe, expect, it } from 'vitest';
import { shippedLibrary } from '../../rulebook/index.ts';
import type { Layout } from '../../scoring/index.ts';
import { rulesFor } from '../chosen.ts';
import { segmentRules } from '../segment-rules.ts';
import { readPlannedElements } from '../planned.ts';
import { entry, inventoryOf, seeded } from '../testing/random-inventory.ts';
import { optionsAfter, skate } from './continuations.ts';
import { checkLayout } from '../check/check.ts';
import { rescue, type RescueResult } from './rescue.ts';
import { rescueText } from './show.ts';

const HEAD = { season: '2025/26', category: 'senior women', segment: 'free' } as const;

const layoutOf = (codes: readonly string[]): Layout =>
  inventoryOf(
    codes.map((code) => entry(code, null)),
    HEAD,
  );

function chosen(layout: Layout) {
  const rules = rulesFor(shippedLibrary(), layout);
  if (!rules.ok) throw new Error(rules.error.advice);
  return rules.value;
}

function rescued(codes: readonly string[]): RescueResult {
  const layout = layoutOf(codes);
  const result = rescue(layout, chosen(layout));
  if (!result.ok) throw new Error(result.error.advice);
  return result.value;
}

describe('plan B', () => {
  it('says that a popped triple voids the later double (a popped jump counts as what was rotated)', () => {
    const { cases } = rescued(['3T', '2T', '2A', '3S+2T']);
    const pop = cases.find((c) => c.no === 1 && c.kind === 'popped');
    // 2T 1.30 as the second jump of the last element: x 1.1, of 5.60 x 1.1 = 6.16 then 4.73 remain.
    expect(pop?.voids).toEqual([{ no: 4, planned: '3S+2T', called: '3S+2T*', words: 'loses its 2T', lost: 143 }]);
  });

  it('names the later element that loses, never one that gains because a place has become free', () => {
    // Only one unit may have three jumps: once 3F+2T+2Lo is none, the 2S of 2F+1Eu+2S counts, which loses nothing.
    const { cases } = rescued(['3F+2T+2Lo', '2A', '2F+1Eu+2S', '3Lo', '2S', '3T', '3S+2T']);
    const alone = cases.find((c) => c.no === 1 && c.kind === 'alone');
    expect(alone?.voids).toEqual([]);
    const { cases: more } = rescued(['3Lz+2T', '2A', '2Lz+2T', '3Lo', '3S', '2T', '3F+3T']);
    const pop = more.find((c) => c.planned === '2Lz+2T' && c.kind === 'popped');
    expect(pop?.voids).toEqual([]);
    const { cases: third } = rescued(['3T', '2Lz+2T', '2T', '2A', '3F']);
    const popped = third.find((c) => c.no === 1 && c.kind === 'popped');
    expect(popped?.voids.map(({ no, words }) => `${no} ${words}`)).toEqual(['3 scores nothing']);
    expect(rescueText(rescued(['3T', '2Lz+2T', '2T', '2A', '3F']))).toContain(
      'going on as planned, element 3 (2T) scores nothing',
    );
  });

  it('puts a lost second jump on a later jump', () => {
    const result = rescued(['3Lz+3T', '2A', '3F', '3S']);
    const lost = result.cases.find((c) => c.no === 1 && c.kind === 'alone');
    expect(lost?.changes).toHaveLength(1);
    expect(lost?.changes[0]?.instead).toMatch(/\+3T$/);
    expect(result.card.length).toBeLessThanOrEqual(3);
    expect(result.fragile).toBe(false);
  });

  it('goes on as planned where nothing can be won back', () => {
    const { cases, card } = rescued(['2A', '3F', '3S']);
    expect(cases.every((c) => c.changes.length === 0)).toBe(true);
    expect(card).toEqual([]);
  });

  it('leaves no single change that would be better by more than a sentence is worth', () => {
    const codes = ['3Lz+3T', '2A', '3F', '3Lo', '3Lz+2T+2Lo', '2A+3T', '3S'];
    const layout = layoutOf(codes);
    const rules = segmentRules(chosen(layout));
    const planned = readPlannedElements(layout, rules);
    if (!planned.ok) throw new Error('not read');
    const parsed = planned.value;
    for (const one of rescued(codes).cases.filter((c) => c.kind === 'alone')) {
      const element = parsed[one.no - 1]?.element;
      if (element?.kind !== 'jump') continue;
      const done = { kind: 'jump' as const, jumps: element.jumps.slice(0, 1), markers: [] };
      const plain = skate(parsed, new Map([[one.no, done]]), rules).points;
      const lost = new Set(element.jumps.slice(1).map((jump) => `${jump.turns}${jump.name}`));
      for (const option of optionsAfter(parsed, one.no)) {
        if (option.element.jumps.slice(1).some((jump) => !lost.has(`${jump.turns}${jump.name}`))) continue;
        const tried = skate(
          parsed,
          new Map([
            [one.no, done],
            [option.no, option.element],
          ]),
          rules,
        ).points;
        expect(tried - plain).toBeLessThanOrEqual(one.gain + 20);
      }
    }
  });
});

/** What a card tells a skater who reads nothing else: sentences from the top, the first that fits decides. */
function followed(card: readonly string[], codes: readonly string[], done: { no: number; code: string }) {
  const jumps = codes.filter((code) => /^\d/.test(code));
  const ordinals = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh'];
  const nameOf = (no: number): string => {
    const code = codes[no - 1] ?? '';
    if (codes.filter((one) => one === code).length === 1) return `the ${code}`;
    return `the ${ordinals[jumps.slice(0, no).length - 1] ?? ''} jump, the ${code}`;
  };
  const parts = (code: string): readonly string[] => code.split('+');
  const [own, now] = [parts(codes[done.no - 1] ?? ''), parts(done.code)];
  const lost = own.length > 1 && now.length === 1;
  const holds = (condition: string): boolean => {
    const before = /^a combination(?: before (.+))? loses its second jump$/.exec(condition);
    if (before !== null) {
      const target = codes.findIndex((_, i) => nameOf(i + 1) === before[1]) + 1;
      return lost && (before[1] === undefined || done.no < target);
    }
    const name = nameOf(done.no);
    return (
      (lost && condition === `${name} loses its other jump${own.length > 2 ? 's' : ''}`) ||
      condition === `${name} becomes ${done.code}${lost ? ' alone' : ''}`
    );
  };
  const fitting = card.filter((sentence) => holds(/[Ii]f (.+), (?:put|do) /.exec(sentence)?.[1] ?? ''));
  const then = [...codes.slice(0, done.no - 1), done.code, ...codes.slice(done.no)];
  const action = /, ((?:put|do) .+)\.$/.exec(fitting[0] ?? '')?.[1];
  for (const one of action?.split(/ and (?=put |do )/) ?? []) {
    const put = /^put (\+\S+) on (.+)$/.exec(one);
    const only = /^do only the (\S+) of (.+)$/.exec(one);
    const other = /^do (\S+) in place of (.+)$/.exec(one);
    const name = put?.[2] ?? only?.[2] ?? other?.[2];
    const at = codes.findIndex((_, i) => nameOf(i + 1) === name);
    if (at < 0) throw new Error(`no such element: ${one}`);
    then[at] = put === null ? (only?.[1] ?? other?.[1] ?? '') : `${codes[at] ?? ''}${put[1] ?? ''}`;
  }
  return { fitting, then };
}

/** Points of codes, each at grade 0: its base as called with the second-half factor, lowest grades left out. */
function pointsOf(codes: readonly string[]): number {
  const layout = layoutOf(codes);
  const result = checkLayout(layout, chosen(layout));
  if (!result.ok || result.value.withBonus === null) throw new Error('no points');
  return result.value.withBonus;
}

describe('the card read from the top', () => {
  const pool = ['3Lz+3T', '3Lo+2T', '3F+2T', '2A', '3F', '3Lo', '3S', '2A+2T', '2F+1Eu+2S', '2S', '3T', '3Lz', '2A+3T'];
  const random = seeded(11);
  const programs = Array.from({ length: 12 }, () => {
    const units = pool.filter((code) => code.includes('+')).sort(() => random() - 0.5);
    const alone = pool.filter((code) => !code.includes('+')).sort(() => random() - 0.5);
    return [...units.slice(0, 3), ...alone.slice(0, 4)].sort(() => random() - 0.5);
  });

  it('decides every case: a second sentence that fits too says “Otherwise”, and the first brings what is promised', () => {
    let otherwise = 0;
    for (const codes of programs) {
      const result = rescued(codes);
      for (const one of result.cases) {
        const { fitting, then } = followed(result.card, codes, { no: one.no, code: one.done });
        const [, ...later] = fitting;
        for (const sentence of later) expect(sentence, result.card.join(' ')).toMatch(/^Otherwise, if /);
        otherwise += later.length;
        const best = [...codes];
        best[one.no - 1] = one.done;
        for (const change of one.changes) best[change.no - 1] = change.instead;
        expect(pointsOf(best) - pointsOf(then), `${codes.join(', ')}: ${result.card.join(' ')}`).toBeLessThanOrEqual(
          result.leftBehind,
        );
      }
    }
    expect(otherwise).toBeGreaterThan(0);
  });

  it('leaves “Otherwise” away where no earlier sentence can fit', () => {
    for (const codes of programs) {
      const { card, cases } = rescued(codes);
      const needed = new Set(
        cases.flatMap((one) => followed(card, codes, { no: one.no, code: one.done }).fitting.slice(1)),
      );
      expect(card.filter((sentence) => sentence.startsWith('Otherwise'))).toEqual(
        card.filter((sentence) => needed.has(sentence)),
      );
    }
  });
});
