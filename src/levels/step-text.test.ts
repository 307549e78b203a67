import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatSteps, parseSteps, type WrittenMove } from './step-text.ts';
import { DIRECTIONS, EDGES, TURNS, isFreeDirection, turnGeometry } from './turns.ts';

const words = (text: string): string => {
  const parsed = parseSteps(text);
  return parsed.ok ? formatSteps(parsed.value) : `${parsed.error.at}: ${parsed.error.expected}`;
};

const anyWritten: fc.Arbitrary<WrittenMove> = fc
  .record({
    turn: fc.constantFrom(...TURNS),
    edge: fc.constantFrom(...EDGES),
    share: fc.option(fc.integer({ min: 0, max: 10_000 }).map((n) => n / 10_000)),
    body: fc.boolean(),
    rotation: fc.constantFrom('left' as const, 'right' as const, null),
    direction: fc.option(fc.constantFrom(...DIRECTIONS)),
    credit: fc.integer({ min: 0, max: 1000 }).map((n) => n / 1000),
    change: fc.constantFrom('foot' as const, 'edge' as const, null),
  })
  .map((move) => ({
    ...move,
    direction:
      isFreeDirection(move.turn) || move.direction === null
        ? move.direction
        : turnGeometry(move.turn, move.edge).direction,
  }));

describe('the typed line', () => {
  it('is read with words or abbreviations, in any case, with or without commas', () => {
    const canonical =
      'LFO rocker, LBO counter, LFO twizzle, / RBI bracket, RFO loop, / LFO choctaw, / RFO three, / LFO mohawk';
    expect(words(canonical)).toBe(canonical);
    expect(words('lfo ro lbo CO lfo Tw / rbi Br, RFO Lo; step LFO Ch / RFO 3\n/ LFO Mo')).toBe(canonical);
  });

  it('lets an edge be left out that the move before leads to', () => {
    expect(words('LFO rocker counter loop')).toBe('LFO rocker, LBO counter, LFO loop');
  });

  it('carries share, body, rotation, direction, chance and written changes', () => {
    const line = '/ LFI twizzle cw 7.5% body left @0.85, ~ LBO loop 12% right';
    expect(words(line)).toBe(line);
    expect(words('LFI Tw 7,5% b @0,9')).toBe('LFI twizzle 7.5% body @0.9');
  });

  it('print after parse is the identity, and so is parse after print', () => {
    fc.assert(
      fc.property(fc.array(anyWritten, { maxLength: 12 }), (moves) => {
        const text = formatSteps(moves);
        const parsed = parseSteps(text);
        expect(parsed.ok && parsed.value).toEqual(moves);
        expect(words(text)).toBe(text);
      }),
    );
  });

  it('never throws, whatever is typed, and locates what it cannot read', () => {
    const pieces = fc.constantFrom(
      'LFO',
      'rocker',
      'Tw',
      '5%',
      '/',
      '~',
      'body',
      '@2',
      'x',
      '\n',
      ',',
      '900%',
      'ccw',
      '🙂',
      '',
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.array(pieces).map((some) => some.join(' ')),
        ),
        (text) => {
          const parsed = parseSteps(text);
          if (!parsed.ok) expect(parsed.error.at).toMatch(/^line \d+, column \d+$/);
        },
      ),
    );
  });

  it.each([
    ['LFO rocker,\n  LFX bracket', 'line 2, column 3', 'an edge, a turn'],
    ['rocker', 'line 1, column 1', 'before the first turn'],
    ['LFO twizzle counter', 'line 1, column 13', 'may leave on any'],
    ['LFO rocker cw', 'line 1, column 12', 'ccw, because a rocker from LFO'],
    ['LFO rocker 101%', 'line 1, column 12', 'a share (5%)'],
    ['LFO rocker @1.5', 'line 1, column 12', 'a chance'],
    ['LFO body', 'line 1, column 5', 'a turn after'],
    ['LFO rocker /', 'line 1, column 12', 'a turn after this'],
    ['LFO rocker / counter', 'line 1, column 14', 'an edge after the change'],
  ])('%j is refused at %s', (text, at, expected) => {
    const parsed = parseSteps(text);
    expect(parsed.ok ? null : parsed.error.at).toBe(at);
    expect(parsed.ok ? null : parsed.error.expected).toContain(expected);
  });

  it('refuses 200 turns and a very long text at once', () => {
    expect(parseSteps('LFO rocker '.repeat(200)).ok).toBe(false);
    expect(parseSteps(' '.repeat(100_000)).ok).toBe(false);
  });
});
