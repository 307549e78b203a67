import { describe, expect, it } from 'vitest';
import { formatElement, parseCode, type Element } from '../../notation/index.ts';
import { shippedLibrary, type RepeatRules } from '../../rulebook/index.ts';
import { callNext, startProgram, type ProgramState } from '../../scoring/index.ts';
import { rulesFor } from '../chosen.ts';
import { segmentRules } from '../segment-rules.ts';
import { inventoryOf, pick, seeded } from '../testing/random-inventory.ts';
import { forget, namesAhead } from './forget.ts';
import type { PoolItem } from './pool.ts';

const CODES = ['3T', '3S', '4T', '4S', '2A', '3A', '2T', '2S', '1A', '1T', '3T+2T', '2A+1Eu+3S', '3S+3T', '4T+3T'];

const elementOf = (code: string): Element => {
  const parsed = parseCode(code);
  if (!parsed.ok) throw new Error(code);
  return parsed.value.element;
};

const randomRepeats = (random: () => number): RepeatRules => ({
  highTurnsFrom: pick([3, 2.5], random),
  highKindsTwice: pick([null, 0, 1, 2], random),
  quadKindsTwice: pick([null, 0, 1], random),
  lowKindsTwice: pick([null, 0, 1], random),
  maxSame: pick([null, 1, 2], random),
  familiesTwice: pick([null, null, 1, 2], random),
  maxPerFamily: pick([null, null, 2], random),
  repFromTurns: pick([null, 2, 3], random),
  singleKindsTwice: pick([null, 1], random),
  freeBelowTurns: pick([1, 2], random),
});

/** An element of two outcomes, as a pool holds it. */
const itemOf = (id: number, codes: readonly string[]): PoolItem => ({
  id,
  code: codes[0] ?? '',
  element: elementOf(codes[0] ?? ''),
  outcomes: codes.map((code, k) => ({ id: id * 2 + k, p: 0.5, element: elementOf(code), grades: [], fall: false })),
  uses: [id],
  source: null,
});

describe('a state that forgets what nothing still to come can ask', () => {
  it('calls everything as the whole state does, and is seldom the whole state', () => {
    const inventory = inventoryOf([], { season: '2025/26', category: 'senior women', segment: 'free' });
    const chosen = rulesFor(shippedLibrary(), inventory);
    if (!chosen.ok) throw new Error('no rules');
    const rules = segmentRules(chosen.value);
    let shorter = 0;
    for (let seed = 1; seed <= 3000; seed++) {
      const random = seeded(seed);
      const content = { ...rules.content, repeats: randomRepeats(random), jumpElements: { min: 0, max: 7 } };
      const items = Array.from({ length: 7 }, (_, id) => itemOf(id, [pick(CODES, random), pick(CODES, random)]));
      let whole: ProgramState = startProgram(content, rules.chosen.values.values, 'free');
      let brief = whole;
      items.forEach((item, i) => {
        const outcome = pick(item.outcomes, random);
        const context = { bonus: false };
        const [wanted, found] = [callNext(whole, outcome.element, context), callNext(brief, outcome.element, context)];
        expect(formatElement(found.element), `seed ${seed}, element ${i + 1}`).toBe(formatElement(wanted.element));
        expect(found.reasons.map((r) => r.path)).toEqual(wanted.reasons.map((r) => r.path));
        whole = wanted.state;
        brief = forget(found.state, { id: 0, ...namesAhead(items.slice(i + 1)) });
        if (Object.keys(brief.tries).length < Object.keys(whole.tries).length) shorter++;
      });
    }
    expect(shorter).toBeGreaterThan(10_000);
  });
});
