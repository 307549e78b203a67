import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  BASIC_POSITIONS,
  EDGE_CALLS,
  formatCode,
  formatElement,
  JUMP_MARKERS,
  JUMP_NAMES,
  KEY_POINTS,
  LEVELS,
  parseCode,
  parseFeedback,
  parseInfo,
  ROTATION_CALLS,
  sameElement,
  SPIN_POSITIONS,
  withoutCalls,
  type Element,
  type Feedback,
  type Jump,
  type ParsedCode,
} from './index.ts';

const orNull = <T>(values: readonly T[]) => fc.constantFrom<T | null>(null, ...values);

const jump: fc.Arbitrary<Jump> = fc
  .record({
    name: fc.constantFrom(...JUMP_NAMES),
    turns: fc.integer({ min: 0, max: 5 }),
    rotation: orNull(ROTATION_CALLS),
    edge: orNull(EDGE_CALLS),
    noValue: fc.boolean(),
  })
  .map((one) => (one.name === 'F' || one.name === 'Lz' ? one : { ...one, edge: null }));

const jumps: fc.Arbitrary<Element> = fc.array(jump, { minLength: 1, maxLength: 4 }).chain((list) =>
  fc
    .subarray([...JUMP_MARKERS])
    .chain((names) =>
      fc.tuple(...names.map((marker) => fc.integer({ min: 1, max: list.length }).map((after) => ({ marker, after })))),
    )
    .map((markers) => ({
      kind: 'jump' as const,
      jumps: list,
      markers: [...markers].sort((a, b) => a.after - b.after),
    })),
);

const level = orNull(LEVELS);
const spin: fc.Arbitrary<Element> = fc.record({
  kind: fc.constant('spin' as const),
  flying: fc.boolean(),
  changeFoot: fc.boolean(),
  position: fc.constantFrom(...SPIN_POSITIONS),
  level,
  v: fc.constantFrom<0 | 1 | 2>(0, 1, 2),
  noValue: fc.boolean(),
});
const steps: fc.Arbitrary<Element> = fc.record({ kind: fc.constant('steps' as const), level, noValue: fc.boolean() });
const choreo: fc.Arbitrary<Element> = fc.record({
  kind: fc.constant('choreo' as const),
  form: fc.constantFrom('ChSq' as const, 'ChSp' as const, 'ChSt' as const),
  level: orNull([1] as const),
  noValue: fc.boolean(),
});
const element = fc.oneof(jumps, spin, steps, choreo);

const keyPoints: fc.Arbitrary<Feedback> = fc.record({
  kind: fc.constant('key-points' as const),
  letters: fc.array(fc.constantFrom(...KEY_POINTS), { minLength: 1, maxLength: 3 }),
});
const missing: fc.Arbitrary<Feedback> = fc
  .subarray([...BASIC_POSITIONS], { minLength: 1 })
  .map((positions) => ({ kind: 'missing-position' as const, positions }));

const parsed: fc.Arbitrary<ParsedCode> = element.chain((one) =>
  fc.record({
    element: fc.constant(one),
    half: fc.boolean(),
    fall: fc.boolean(),
    feedback:
      one.kind === 'steps' ? fc.option(keyPoints) : one.kind === 'spin' ? fc.option(missing) : fc.constant(null),
  }),
);

const read = (text: string): ParsedCode => {
  const result = parseCode(text);
  if (!result.ok) throw new Error(`${text}: ${JSON.stringify(result.error)}`);
  return result.value;
};

describe('laws of the notation', () => {
  it('reads back every element that it prints', () => {
    fc.assert(
      fc.property(element, (one) => {
        expect(read(formatElement(one)).element).toEqual(one);
      }),
      { numRuns: 2000 },
    );
  });

  it('reads back falls, second half and letters', () => {
    fc.assert(
      fc.property(parsed, (one) => {
        expect(read(formatCode(one))).toEqual(one);
      }),
      { numRuns: 2000 },
    );
  });

  it('prints a canonical code as it was', () => {
    fc.assert(
      fc.property(element, (one) => {
        expect(formatElement(read(formatElement(one)).element)).toBe(formatElement(one));
      }),
    );
  });

  it('reads its own spelling in capitals, in small letters and in full-width signs', () => {
    const wide = (text: string) => text.replace(/[!-~]/g, (sign) => String.fromCharCode(sign.charCodeAt(0) + 0xfee0));
    fc.assert(
      fc.property(element, (one) => {
        const code = formatElement(one);
        for (const text of [
          code.toUpperCase(),
          code.toLowerCase(),
          wide(code),
          ` ${code}\u00a0`,
          code.replaceAll('<', '&lt;'),
        ]) {
          expect(read(text).element).toEqual(one);
        }
      }),
    );
  });

  it('never throws, and what it could read it reads again', () => {
    const near = fc.string({
      unit: fc.constantFrom(...Array.from('0123456789TSLoEuFLzACpqe!<*+xVBYNkhS ×＜')),
      maxLength: 14,
    });
    fc.assert(
      fc.property(fc.oneof(near, fc.string(), fc.string({ unit: 'binary' })), (text) => {
        parseFeedback(text);
        parseInfo(text);
        const result = parseCode(text);
        if (result.ok) expect(read(formatCode(result.value))).toEqual(result.value);
        else expect(result.error.at).toMatch(/^column \d+$/);
      }),
      { numRuns: 5000 },
    );
  });

  it('reads megabytes of one letter without a fault of its own', () => {
    const text = 'Y'.repeat(5_000_000);
    for (const result of [parseFeedback(text), parseCode(`StSq2 ${text}`), parseFeedback('N'.repeat(5_000_000))]) {
      expect(result.ok).toBe(false);
      expect(JSON.stringify(result).length).toBeLessThan(2000);
    }
    expect(parseFeedback('YYNNYYN')).toMatchObject({ ok: false, error: { code: 'feedback.too-many' } });
  });

  it('answers a long repeat of any sign without growing its message', () => {
    for (const unit of ['3', '3T+', '<', 'F', 'C', 'y ', 'n s ', '+SEQ', ' ', '+', '３', 'СЅ']) {
      for (const head of ['', 'StSq2 ', 'CCoSp3V ', '3T']) {
        const result = parseCode(head + unit.repeat(100_000));
        expect(JSON.stringify(result).length).toBeLessThan(2000);
      }
    }
  });

  it('takes off calls once and for all, and keeps the element', () => {
    fc.assert(
      fc.property(element, (one) => {
        const bare = withoutCalls(one);
        expect(withoutCalls(bare)).toEqual(bare);
        expect(sameElement(one, bare)).toBe(true);
        expect(formatElement(bare)).not.toMatch(/[<!*]|REP|V|(?<!S)q/);
      }),
    );
  });
});

describe('the open data', () => {
  it('gives every printed code back as it was printed', () => {
    const lines = readFileSync('test/data/protocols-2016-2018.jsonl', 'utf8').match(/"code":"[^"]+"/g) ?? [];
    const codes = new Set(lines.map((line) => line.slice(8, -1)));
    expect(codes.size).toBe(364);
    for (const code of codes) expect(formatCode(read(code))).toBe(code);
  });
});
