import { describe, expect, it } from 'vitest';
import { shippedLibrary } from '../../rulebook/index.ts';
import { rulesFor } from '../chosen.ts';
import { entry, inventoryOf } from '../testing/random-inventory.ts';
import { checkLayout } from './check.ts';
import type { Verdict } from './types.ts';

/** Verdicts on a senior free skate under the rules of 2025/26 with some of them set otherwise. */
function verdicts(codes: readonly string[], free: Readonly<Record<string, unknown>>): readonly Verdict[] {
  const document = { overlay: 'isu/2025-26', title: 'rules of a test', content: { senior: { free } } };
  const library = shippedLibrary().extend([{ path: 'own.yaml', document }]);
  if (!library.ok) throw new Error(JSON.stringify(library.error));
  const layout = inventoryOf(
    codes.map((code) => entry(code, null)),
    { season: '2025/26', category: 'senior women', segment: 'free' },
  );
  const rules = rulesFor(library.value, layout);
  if (!rules.ok) throw new Error(rules.error.advice);
  const result = checkLayout(layout, rules.value);
  if (!result.ok) throw new Error(result.error.advice);
  return result.value.verdicts;
}

const of = (rule: string, all: readonly Verdict[]): Verdict | undefined => all.find((one) => one.rule === rule);

describe('the words of the limits on repeats', () => {
  it('name the limit that is broken: the third jump of one type, though no kind stands twice', () => {
    const verdict = of('repeats', verdicts(['4T', '3T', '3F+2T', '2A'], { repeats: { maxPerFamily: 2 } }));
    expect(verdict?.status).toBe('broken');
    expect(verdict?.citation.path).toContain('repeats.maxPerFamily');
    expect(verdict?.message).toMatch(/^Jumps of one type .* at most two times, whatever the turns\. /);
    expect(verdict?.message).not.toContain('The same jump');
  });

  it('name another limit where another one is broken', () => {
    const verdict = of('repeats', verdicts(['3T', '3T+2T', '3F+3T', '2A'], { repeats: { maxPerFamily: 9 } }));
    expect(verdict?.message).toMatch(/^The same jump at most two times\. /);
  });

  it('say every limit where all are met', () => {
    const { message = '' } = of('repeats', verdicts(['3T', '3F+3T', '2A'], { repeats: { maxPerFamily: 3 } })) ?? {};
    for (const part of ['The same jump', 'of jumps of three turns and more two kinds', 'of quads one kind', 'one type'])
      expect(message).toContain(part);
  });

  it('speak of the double Axel where the limit begins with it', () => {
    const { message } = of('repeats', verdicts(['3T', '3F+3T', '2A'], { repeats: { highTurnsFrom: 2.5 } })) ?? {};
    expect(message).toContain('of the double Axel and jumps of three turns and more two kinds may come twice');
  });

  it('are asked where a type stands twice and types are limited, by either limit, and else not', () => {
    const codes = ['3T', '3F+2T', '2A'];
    expect(of('repeats', verdicts(codes, {}))).toBeUndefined();
    expect(of('repeats', verdicts(codes, { repeats: { maxPerFamily: 3 } }))?.status).toBe('met');
    expect(of('repeats', verdicts(codes, { repeats: { familiesTwice: 1 } }))?.status).toBe('met');
  });

  it('are asked of a kind that stands twice, whatever limits there are on types', () =>
    expect(of('repeats', verdicts(['3T', '3F+3T'], { repeats: { familiesTwice: 2 } }))?.status).toBe('met'));
});

describe('how long combinations may be, in words', () => {
  it.each([
    [[3, 2, 2], 'one of at most three jumps, the others of two.'],
    [[3, 2], 'one of at most three jumps, the other of two.'],
    [[4, 3, 2], 'one of at most four jumps, one of three, the other of two.'],
    [[3, 3, 2], 'two of at most three jumps, the other of two.'],
    [[2, 2], 'Combinations and sequences of at most two jumps.'],
    [[2], 'Combinations and sequences of at most two jumps.'],
  ])('%j', (jumpsPerUnit, words) => {
    const { message } = of('jumps-per-unit', verdicts(['3F+2T', '2A'], { jumpsPerUnit })) ?? {};
    expect(message?.endsWith(words)).toBe(true);
  });
});
