import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EDGES, TURNS, isFreeDirection, lobeOf, otherDirection, otherFoot, turnGeometry, type Edge } from './turns.ts';

const written = (turn: (typeof TURNS)[number], entry: Edge): string => {
  const { exits, direction } = turnGeometry(turn, entry);
  return `${exits.length === 1 ? (exits[0] ?? '') : 'any'} ${direction}`;
};

describe('table of turns', () => {
  // Full table: rows inferred from published descriptions of each turn (levels facts A3).
  const columns = ['three', 'bracket', 'rocker', 'counter', 'loop', 'twizzle', 'choctaw', 'mohawk'] as const;
  const table = `
    LFO ccw | LBI ccw | LBI cw  | LBO ccw | LBO cw  | LFO ccw | any ccw | RBI cw  | RBO cw
    LFI cw  | LBO cw  | LBO ccw | LBI cw  | LBI ccw | LFI cw  | any cw  | RBO cw  | RBI cw
    LBO cw  | LFI cw  | LFI ccw | LFO cw  | LFO ccw | LBO cw  | any cw  | RFI cw  | RFO cw
    LBI ccw | LFO ccw | LFO cw  | LFI ccw | LFI cw  | LBI ccw | any ccw | RFO cw  | RFI cw
    RFO cw  | RBI cw  | RBI ccw | RBO cw  | RBO ccw | RFO cw  | any cw  | LBI ccw | LBO ccw
    RFI ccw | RBO ccw | RBO cw  | RBI ccw | RBI cw  | RFI ccw | any ccw | LBO ccw | LBI ccw
    RBO ccw | RFI ccw | RFI cw  | RFO ccw | RFO cw  | RBO ccw | any ccw | LFI ccw | LFO ccw
    RBI cw  | RFO cw  | RFO ccw | RFI cw  | RFI ccw | RBI cw  | any cw  | LFO ccw | LFI ccw`;
  const rows = table
    .trim()
    .split('\n')
    .map((line) => line.split('|').map((cell) => cell.trim().replace(/\s+/g, ' ')));

  it.each(rows)('%s', (head, ...cells) => {
    const entry = EDGES.find((edge) => head.startsWith(edge));
    expect(entry).toBeDefined();
    if (entry === undefined) return;
    expect(`${entry} ${lobeOf(entry)}`).toBe(head);
    expect(columns.map((turn) => written(turn, entry))).toEqual(cells);
  });

  // Published: forum example of the four turns from a right forward inside edge.
  it.each([
    ['three', 'RBO ccw'],
    ['bracket', 'RBO cw'],
    ['rocker', 'RBI ccw'],
    ['counter', 'RBI cw'],
  ] as const)('%s from RFI leaves on %s (published)', (turn, expected) => {
    expect(written(turn, 'RFI')).toBe(expected);
  });
});

describe('laws of the turns', () => {
  const anyTurn = fc.constantFrom(...TURNS);
  const anyEdge = fc.constantFrom(...EDGES);

  it('a mirror image swaps the feet and the directions', () => {
    fc.assert(
      fc.property(anyTurn, anyEdge, (turn, edge) => {
        const here = turnGeometry(turn, edge);
        const mirrored = turnGeometry(turn, otherFoot(edge));
        expect(mirrored.direction).toBe(otherDirection(here.direction));
        expect([...mirrored.exits].sort()).toEqual(here.exits.map(otherFoot).sort());
      }),
    );
  });

  it('every turn but the twizzle is a permutation of the edges, and all but the loop change the travel', () => {
    for (const turn of TURNS.filter((one) => one !== 'twizzle')) {
      const exits = EDGES.map((edge) => turnGeometry(turn, edge).exits[0]);
      expect(new Set(exits).size).toBe(EDGES.length);
      const changes = EDGES.every((edge) => turnGeometry(turn, edge).exits[0]?.[1] !== edge[1]);
      expect(changes).toBe(turn !== 'loop');
    }
  });

  it('a turn that keeps the lobe rotates with it; a new lobe goes with a rocker or a counter', () => {
    for (const edge of EDGES) {
      const lobeAfter = (turn: 'three' | 'bracket' | 'rocker' | 'counter') =>
        turnGeometry(turn, edge).exits.map(lobeOf)[0];
      expect(lobeAfter('three')).toBe(lobeOf(edge));
      expect(lobeAfter('bracket')).toBe(lobeOf(edge));
      expect(lobeAfter('rocker')).toBe(otherDirection(lobeOf(edge)));
      expect(lobeAfter('counter')).toBe(otherDirection(lobeOf(edge)));
    }
  });

  it('only a twizzle or a choctaw can be turned the other way', () => {
    fc.assert(
      fc.property(anyTurn, anyEdge, (turn, edge) => {
        const usual = turnGeometry(turn, edge);
        const other = turnGeometry(turn, edge, otherDirection(usual.direction));
        expect(other.direction !== usual.direction).toBe(isFreeDirection(turn));
        expect(other.usual).toBe(!isFreeDirection(turn));
      }),
    );
  });
});
