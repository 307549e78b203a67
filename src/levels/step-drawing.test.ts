import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planOf } from './step-assess.ts';
import { PATTERNS, RINKS, drawSteps, type Rink } from './step-drawing.ts';
import type { Move } from './step-sequence.ts';
import { fiveTypes } from './testing/rules.ts';
import { TWELVE, anySequence, line, withLetters } from './testing/sequences.ts';

const rinks = Object.keys(RINKS).filter((name): name is Rink => name in RINKS);

/** Lengths of the arcs in the drawing, measured from the path data alone. */
function measured(svg: string): number[] {
  return [...svg.matchAll(/d="M(\S+) (\S+) A(\S+) \S+ 0 0 [01] (\S+) (\S+)"/g)].map((match) => {
    const [x1 = 0, y1 = 0, radius = 0, x2 = 0, y2 = 0] = match.slice(1).map(Number);
    return 2 * radius * Math.asin(Math.min(1, Math.hypot(x2 - x1, y2 - y1) / 2 / radius));
  });
}

const plain = (svg: string): number =>
  [...svg.matchAll(/d="M(\S+) (\S+) L(\S+) (\S+)"/g)].reduce((sum, match) => {
    const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = match.slice(1).map(Number);
    return sum + Math.hypot(x2 - x1, y2 - y1);
  }, 0);

const anyShares: fc.Arbitrary<Move[]> = fc
  .tuple(
    anySequence,
    fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 20, maxLength: 20 }),
    fc.constantFrom(0.7, 1),
  )
  .map(([moves, weights, whole]) => {
    const total = moves.reduce((sum, _, n) => sum + (weights[n] ?? 1), 0);
    return moves.map((move, n) => ({ ...move, share: ((weights[n] ?? 1) / total) * whole }));
  });

describe('the drawing of a sequence', () => {
  it('has lengths, measured on the drawing, in proportion to the shares', () => {
    fc.assert(
      fc.property(anyShares, fc.constantFrom(...rinks), fc.constantFrom(...PATTERNS), (moves, rink, pattern) => {
        const drawing = drawSteps(moves, fiveTypes, { rink, pattern });
        const arcs = measured(drawing.svg);
        const whole = arcs.reduce((sum, one) => sum + one, 0) + plain(drawing.svg);
        expect(arcs).toHaveLength(moves.length);
        moves.forEach((move, n) => expect((arcs[n] ?? 0) / whole).toBeCloseTo(move.share, 4));
        const { shares } = planOf(moves, fiveTypes);
        expect(drawing.left).toBeCloseTo(shares.left, 6);
        expect(drawing.right).toBeCloseTo(shares.right, 6);
        expect(drawing.body).toBeCloseTo(shares.body, 6);
      }),
      { numRuns: 40 },
    );
  });

  it('stays on the ice of every rink', () => {
    for (const rink of rinks)
      for (const pattern of PATTERNS) {
        const { svg } = drawSteps(withLetters(line(TWELVE), 'YY'), fiveTypes, { rink, pattern });
        const [width, height] = RINKS[rink];
        const ends = [...svg.matchAll(/ d="M(\S+) (\S+) .*?(\S+) (\S+)"/g)].flatMap(([, a, b, c, d]) => [
          [a, b],
          [c, d],
        ]);
        expect(ends.length).toBeGreaterThan(20);
        for (const [x, y] of ends) {
          expect(Math.abs(Number(x) - width / 2)).toBeLessThan(width / 2 - 4);
          expect(Math.abs(Number(y) - height / 2)).toBeLessThan(height / 2 - 4);
        }
      }
  });

  it('takes no markup from a title, draws nothing for no moves, and leaves out moves without length', () => {
    expect(drawSteps([], fiveTypes, { title: '<script>&' }).svg).toContain('<title>&#60;script&#62;&#38;</title>');
    expect(drawSteps([], fiveTypes)).toMatchObject({ lengths: [], length: 0 });
    const [first, ...rest] = line('LFO Ro Co');
    const still = first === undefined ? rest : [{ ...first, share: 0 }, ...rest];
    expect(measured(drawSteps(still, fiveTypes).svg)).toHaveLength(1);
  });
});
