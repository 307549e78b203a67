import { describe, expect, it } from 'vitest';
import { shippedLibrary } from '../../rulebook/index.ts';
import type { Layout } from '../../scoring/index.ts';
import { rulesFor } from '../chosen.ts';
import { segmentRules } from '../segment-rules.ts';
import { readPlannedElements } from '../planned.ts';
import { entry, inventoryOf } from '../testing/random-inventory.ts';
import { optionsAfter, skate } from './continuations.ts';
import { rescue, type RescueResult } from './rescue.ts';

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
    expect(pop?.voids).toEqual([{ no: 4, planned: '3S+2T', called: '3S+2T*' }]);
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
