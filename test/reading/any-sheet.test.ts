import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { printReading, readingForm, VOICES } from '../../src/reading/index.ts';
import { layoutOf, protocolOf, readForm, sumOf } from '../../src/reading/testing/readings.ts';

const jump = fc
  .tuple(
    fc.constantFrom('', '1', '2', '3', '4'),
    fc.constantFrom('T', 'S', 'Lo', 'F', 'Lz', 'A', 'Eu'),
    fc.constantFrom('', '', '<', '<<', 'q', 'e', '!', 'e<'),
    fc.constantFrom('', '', '', '*'),
  )
  .map((parts) => parts.join(''));
const jumps = fc
  .tuple(fc.array(jump, { minLength: 1, maxLength: 3 }), fc.constantFrom('', '', '+SEQ', '+COMBO', '+REP'))
  .map(([list, marker]) => list.join('+') + marker);
const level = fc.constantFrom('', 'B', '1', '2', '3', '4');
const spin = fc
  .tuple(fc.constantFrom('USp', 'LSp', 'FCSp', 'CSSp', 'CoSp', 'CCoSp', 'FCCoSp'), level, fc.constantFrom('', 'V'))
  .map((parts) => parts.join(''));
const sequence = fc.tuple(fc.constantFrom('StSq', 'ChSq', 'ChSt', 'ChSp'), level).map((parts) => parts.join(''));
const code = fc.oneof(
  { weight: 5, arbitrary: jumps },
  { weight: 3, arbitrary: spin },
  { weight: 2, arbitrary: sequence },
  { weight: 1, arbitrary: fc.string({ maxLength: 12 }) },
);

const element = fc.record({
  code,
  info: fc.constantFrom('', '', '<', 'F', 'e', '*', 'x', 'zz'),
  feedback: fc.constantFrom(null, null, 'YYN', 'NU', 'nnn', '?'),
  half: fc.boolean(),
  base: fc.constantFrom(null, 3.3, 5.9),
  marks: fc.array(fc.option(fc.integer({ min: -6, max: 6 })), { maxLength: 9 }),
});
const component = fc.record({
  name: fc.constantFrom('Composition', 'Presentation', 'Skating Skills', 'Transitions', 'Other'),
  factor: fc.constantFrom(null, 1.33, 2.67),
  marks: fc.array(fc.option(fc.integer({ min: 1, max: 40 }).map((n) => n / 4)), { maxLength: 9 }),
});
const heading = {
  season: fc.constantFrom('2016/17', '2018/19', '2023/24', '2026/27'),
  category: fc.constantFrom('senior women', 'junior men', 'novice women', 'juvenile men', 'basic novice women'),
  segment: fc.constantFrom('short', 'free'),
};
const protocol = fc.record({
  ...heading,
  elements: fc.array(element, { maxLength: 8 }),
  components: fc.array(component, { maxLength: 4 }),
  deductions: fc.constantFrom(null, 0, -1, -2.5),
  bonus: fc.constantFrom(null, 2),
});
const planned = fc.record({
  code: fc.oneof(jumps, spin, sequence),
  start: fc.option(fc.integer({ min: 0, max: 250 })),
  half: fc.option(fc.boolean()),
  grade: fc.option(fc.constantFrom(-1.5, 0, 0.333, 2, 5)),
});

describe('any sheet, however odd', () => {
  it('is read without a fault, the account sums exactly and the text fits', () => {
    fc.assert(
      fc.property(
        protocol,
        fc.option(fc.array(planned, { maxLength: 8 })),
        fc.option(fc.array(protocol, { maxLength: 2 })),
        (form, plan, earlier) => {
          const layout = plan === null ? null : layoutOf({ elements: plan.filter(({ code }) => isReadable(code)) });
          const reading = readForm(form, { layout, history: earlier?.map(protocolOf) });
          expect(sumOf(reading)).toBe(reading.difference);
          expect(reading.awarded.total - reading.reference.total).toBe(reading.difference);
          const { tes, pcs, deductions, total } = reading.awarded;
          expect((tes ?? 0) + (pcs ?? 0) + (deductions ?? 0) + (form.bonus ?? 0) * 100).toBe(total);
          for (const voice of VOICES) {
            JSON.stringify(readingForm(reading, voice));
            for (const line of printReading(reading, { voice }).split('\n'))
              expect(Array.from(line).length, line).toBeLessThanOrEqual(80);
          }
        },
      ),
      { numRuns: 200 },
    );
  });
});

/** A layout with a code that cannot be read is refused when its form is read. */
function isReadable(text: string): boolean {
  try {
    layoutOf({ elements: [{ code: text }] });
    return true;
  } catch {
    return false;
  }
}
