import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatElement, parseCode, type Element } from '../src/notation/index.ts';
import { segmentRules } from '../src/programs/index.ts';
import { chooseRules, shippedLibrary, type ChosenRules } from '../src/rulebook/index.ts';
import { callNext, futures, startProgram, stateKey, type ProgramState } from '../src/scoring/index.ts';

/*
 * A search and a convolution merge states with equal keys. That is right only if two ways to one key are
 * called alike from there on, whatever still happens.
 */

const CODES = ['3T', '2T', '3T+2T', '2T+2T', '2A', '1A', '3S+2A+SEQ', '3S', '3S+3T', '2S', '2A+1Eu+2S', '3T+2T+2Lo'];
const OTHERS = ['CCoSp4', 'FCSp4', 'CSp3', 'StSq3', 'ChSq1'];

const elementOf = (code: string): Element => {
  const parsed = parseCode(code);
  if (!parsed.ok) throw new Error(code);
  return parsed.value.element;
};

const rulesOf = (season: string, category: 'senior women' | 'intermediate novice women', segment: 'short' | 'free') => {
  const rules = chooseRules(shippedLibrary(), { body: 'isu', season, category, segment });
  if (!rules.ok) throw new Error(rules.error.advice);
  return rules.value;
};

const SEGMENTS: readonly ChosenRules[] = [
  rulesOf('2025/26', 'senior women', 'free'),
  rulesOf('2025/26', 'senior women', 'short'),
  rulesOf('2017/18', 'senior women', 'free'),
  rulesOf('2022/23', 'intermediate novice women', 'free'),
];

const start = (rules: ChosenRules): ProgramState =>
  startProgram(segmentRules(rules).content, rules.values.values, rules.segment);

const after = (elements: readonly Element[], rules: ChosenRules): ProgramState =>
  elements.reduce((state, element) => callNext(state, element, { bonus: false }).state, start(rules));

/** Everything the panel says of a continuation. */
function calls(from: ProgramState, elements: readonly Element[]): readonly string[] {
  let state = from;
  return elements.map((element) => {
    const called = callNext(state, element, { bonus: false });
    state = called.state;
    return `${formatElement(called.element)} ${called.lowestGrade} ${called.reasons.map((r) => `${r.rule} ${r.path}`).join(',')}`;
  });
}

const code = fc.constantFrom(...CODES, ...OTHERS);

describe('merging of program states', () => {
  it('joins only ways that go on alike', () => {
    let joined = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...SEGMENTS),
        fc.array(code, { minLength: 1, maxLength: 5 }),
        fc.array(code, { minLength: 1, maxLength: 5 }),
        fc.array(fc.array(code, { minLength: 1, maxLength: 3 }), { minLength: 1, maxLength: 4 }),
        fc.array(fc.nat(2), { minLength: 4, maxLength: 4 }),
        (rules, one, other, later, picks) => {
          const outcomes = later.map((list) => list.map(elementOf));
          // Before the continuation: what may come is every outcome of every later element.
          const [future] = futures([[elementOf('2T')], ...outcomes]);
          const [a, b] = [after(one.map(elementOf), rules), after(other.map(elementOf), rules)];
          if (future === undefined || stateKey(a, future) !== stateKey(b, future)) return;
          joined++;
          const skated = outcomes.map((list, i) => list[(picks[i] ?? 0) % list.length] ?? elementOf('2T'));
          expect(calls(a, skated)).toEqual(calls(b, skated));
        },
      ),
      { numRuns: 6000 },
    );
    expect(joined).toBeGreaterThan(50);
  });

  it('joins the orders of a program wherever nothing can tell them apart', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...SEGMENTS),
        fc.array(code, { minLength: 2, maxLength: 5 }),
        fc.array(code, { minLength: 1, maxLength: 3 }),
        fc.nat(4),
        (rules, first, later, turn) => {
          const turned = [...first.slice(turn % first.length), ...first.slice(0, turn % first.length)];
          const outcomes = later.map((one) => [elementOf(one)]);
          const [future] = futures([[elementOf('2T')], ...outcomes]);
          const [a, b] = [after(first.map(elementOf), rules), after(turned.map(elementOf), rules)];
          if (future === undefined || stateKey(a, future) !== stateKey(b, future)) return;
          expect(calls(a, later.map(elementOf))).toEqual(calls(b, later.map(elementOf)));
        },
      ),
      { numRuns: 3000 },
    );
  });
});
