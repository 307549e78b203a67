import fc from 'fast-check';
import { parseSteps } from '../step-text.ts';
import type { Move } from '../step-sequence.ts';
import { DIRECTIONS, EDGES, TURNS, isFreeDirection } from '../turns.ts';

/** Moves of a line of text; every move gets an equal share, so that all settings are visible in the line. */
export function line(text: string): Move[] {
  const parsed = parseSteps(text);
  if (!parsed.ok) throw new Error(`${parsed.error.at}: ${parsed.error.expected}`);
  return parsed.value.map((move) => ({ ...move, share: move.share ?? 1 / parsed.value.length }));
}

/**
 * Rotation left and right and body movement on enough of the pattern, or not, by letter: `YYN` meets
 * rotation and body. The third letter is the business of the moves themselves.
 */
export function withLetters(moves: readonly Move[], letters: string): Move[] {
  const third = Math.ceil(moves.length / 3);
  return moves.map((move, index) => ({
    ...move,
    rotation: letters.startsWith('Y') ? (index < third ? 'left' : index < 2 * third ? 'right' : null) : null,
    body: letters[1] === 'Y',
  }));
}

/** All six types once in each direction, both clusters first: left Br-Co-Lo, right Ro-Lo-Tw. */
export const TWELVE = `LFO bracket, LBI counter, LFI loop, / RFO rocker, RBO loop, RBO twizzle,
  / LFO rocker, / RFO counter, / RFO bracket, / LFI twizzle, / LFO choctaw, / RFO choctaw`;

/** The same turns with the left combination taken apart. */
export const TWELVE_WITHOUT_CLUSTER = TWELVE.replace('LBI counter, LFI loop', '/ LFI loop, / LBI counter');

const chances = fc.constantFrom(0, 0.25, 0.5, 0.8, 0.9, 1);

/** Any move; edges need not connect. */
export const anyMove: fc.Arbitrary<Move> = fc
  .record({
    turn: fc.constantFrom(...TURNS),
    edge: fc.constantFrom(...EDGES),
    share: fc.constant(1 / 14),
    body: fc.boolean(),
    rotation: fc.constantFrom('left' as const, 'right' as const, null),
    direction: fc.constantFrom(...DIRECTIONS, null),
    credit: chances,
    change: fc.constantFrom(null, null, null, 'foot' as const, 'edge' as const),
  })
  .map((move) => ({ ...move, direction: isFreeDirection(move.turn) ? move.direction : null }));

/** Sequences that often carry clusters: two chains of three, then anything. */
export const anySequence: fc.Arbitrary<Move[]> = fc
  .tuple(
    fc.constantFrom(
      'LFO Ro Co Lo',
      'LFI Br Lo Co',
      'LFO Br Co Lo',
      'LBO Lo Lo Lo',
      'LFO Co Tw LFO Br',
      'LBI Co Lo Ro',
      'LFO Ro Co',
    ),
    fc.constantFrom('RFO Ro Lo Tw', 'RFI Br Ro Tw', 'RBO Co Lo Ro', 'RFO Ro Ro Ro', 'RBI Lo Br Ro'),
    fc.array(anyMove, { maxLength: 6 }),
    fc.array(chances, { minLength: 6, maxLength: 8 }),
    fc.boolean(),
  )
  .map(([left, right, rest, credits, clustersLast]) => {
    const first = line(`${left}, / ${right}`).map((move, index) => ({ ...move, credit: credits[index] ?? 1 }));
    const all = clustersLast ? [...rest, ...first] : [...first, ...rest];
    return all.map((move, index) => ({
      ...move,
      rotation: move.rotation ?? (index % 2 === 0 ? ('left' as const) : ('right' as const)),
      share: 1 / all.length,
    }));
  });
