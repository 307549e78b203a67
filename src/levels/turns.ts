import type { TurnType } from '../rulebook/index.ts';

export const FEET = ['L', 'R'] as const;
export type Foot = (typeof FEET)[number];
export const TRAVELS = ['F', 'B'] as const;
export type Travel = (typeof TRAVELS)[number];
export const SIDES = ['O', 'I'] as const;
export type Side = (typeof SIDES)[number];

/** Foot, direction of travel, side of the blade: `LFO` is left forward outside. */
export type Edge = `${Foot}${Travel}${Side}`;

/** Rotational direction of the body as seen from above. */
export const DIRECTIONS = ['cw', 'ccw'] as const;
export type Direction = (typeof DIRECTIONS)[number];

export const EDGES: readonly Edge[] = FEET.flatMap((foot) =>
  TRAVELS.flatMap((travel) => SIDES.map((side): Edge => `${foot}${travel}${side}`)),
);
export const isEdge = (text: string): text is Edge => EDGES.some((edge) => edge === text);

/** Turns in the order in which the notation lists them. */
export const TURNS = ['rocker', 'counter', 'bracket', 'loop', 'twizzle', 'choctaw', 'three', 'mohawk'] as const;

/** The parts of an edge. */
export function partsOf(edge: Edge): { readonly foot: Foot; readonly travel: Travel; readonly side: Side } {
  return {
    foot: edge.startsWith('L') ? 'L' : 'R',
    travel: edge[1] === 'F' ? 'F' : 'B',
    side: edge[2] === 'O' ? 'O' : 'I',
  };
}

export const footOf = (edge: Edge): Foot => (edge.startsWith('L') ? 'L' : 'R');

/** The same edge on the other foot: the mirror image. */
export function otherFoot(edge: Edge): Edge {
  const { foot, travel, side } = partsOf(edge);
  return `${foot === 'L' ? 'R' : 'L'}${travel}${side}`;
}

export const otherDirection = (direction: Direction): Direction => (direction === 'cw' ? 'ccw' : 'cw');

/**
 * Which way the lobe of an edge curves: LFO is counter-clockwise, and each swap of foot, of travel or
 * of side turns it round (inferred geometry; agrees with the published examples of turns from RFI).
 */
export function lobeOf(edge: Edge): Direction {
  const { foot, travel, side } = partsOf(edge);
  const swaps = Number(foot === 'R') + Number(travel === 'B') + Number(side === 'I');
  return swaps % 2 === 0 ? 'ccw' : 'cw';
}

/** How a turn changes the edge and whether it rotates with the lobe of its entry edge. */
interface TurnShape {
  readonly foot: 'keeps' | 'changes';
  readonly travel: 'keeps' | 'changes';
  readonly side: 'keeps' | 'changes';
  /** `step`: the rotation of stepping from one foot to the other, left to right is clockwise. */
  readonly rotates: 'with' | 'against' | 'step';
}

/** What the names mean; everything else about turns follows from these rows. */
const SHAPES: Readonly<Record<TurnType, TurnShape>> = {
  three: { foot: 'keeps', travel: 'changes', side: 'changes', rotates: 'with' },
  bracket: { foot: 'keeps', travel: 'changes', side: 'changes', rotates: 'against' },
  rocker: { foot: 'keeps', travel: 'changes', side: 'keeps', rotates: 'with' },
  counter: { foot: 'keeps', travel: 'changes', side: 'keeps', rotates: 'against' },
  loop: { foot: 'keeps', travel: 'keeps', side: 'keeps', rotates: 'with' },
  // The exit of a twizzle is free (see `exitsOf`); usually it is entered like a three turn.
  twizzle: { foot: 'keeps', travel: 'keeps', side: 'keeps', rotates: 'with' },
  choctaw: { foot: 'changes', travel: 'changes', side: 'changes', rotates: 'step' },
  mohawk: { foot: 'changes', travel: 'changes', side: 'keeps', rotates: 'step' },
};

export interface TurnGeometry {
  readonly turn: TurnType;
  readonly entry: Edge;
  /** Curve of the entry edge. */
  readonly lobe: Direction;
  /** Edges on which the turn may leave: one, but for a twizzle any edge of the same foot. */
  readonly exits: readonly Edge[];
  /** Rotational direction; for twizzle and choctaw the usual one unless overridden. */
  readonly direction: Direction;
  /** False only where a twizzle or choctaw was turned the unusual way. */
  readonly usual: boolean;
}

/** Turns whose rotation does not follow from the entry edge alone. */
export const isFreeDirection = (turn: TurnType): boolean => turn === 'twizzle' || turn === 'choctaw';

/**
 * Exit edges and rotational direction of a turn from an entry edge. `direction` overrides the usual
 * way of a twizzle or choctaw and is ignored for the others, whose rotation their name fixes.
 * Source: published descriptions of the turns; loop, twizzle and choctaw columns inferred.
 */
export function turnGeometry(turn: TurnType, entry: Edge, direction: Direction | null = null): TurnGeometry {
  const row = TABLE[turn][entry];
  return row[direction ?? 'usual'];
}

function computed(turn: TurnType, entry: Edge, direction: Direction | null): TurnGeometry {
  const usual = usualDirection(turn, entry);
  const turned = direction !== null && isFreeDirection(turn) ? direction : usual;
  return { turn, entry, lobe: lobeOf(entry), exits: exitsOf(turn, entry), direction: turned, usual: turned === usual };
}

function usualDirection(turn: TurnType, entry: Edge): Direction {
  const { rotates } = SHAPES[turn];
  if (rotates === 'step') return footOf(entry) === 'L' ? 'cw' : 'ccw';
  return rotates === 'with' ? lobeOf(entry) : otherDirection(lobeOf(entry));
}

function exitsOf(turn: TurnType, entry: Edge): readonly Edge[] {
  const shape = SHAPES[turn];
  const from = partsOf(entry);
  if (turn === 'twizzle') return EDGES.filter((edge) => footOf(edge) === from.foot);
  const foot = shape.foot === 'changes' ? (from.foot === 'L' ? 'R' : 'L') : from.foot;
  const travel = shape.travel === 'changes' ? (from.travel === 'F' ? 'B' : 'F') : from.travel;
  const side = shape.side === 'changes' ? (from.side === 'O' ? 'I' : 'O') : from.side;
  return [`${foot}${travel}${side}`];
}

type Row = Readonly<Record<Direction | 'usual', TurnGeometry>>;

const rowOf = (turn: TurnType, entry: Edge): Row => ({
  usual: computed(turn, entry, null),
  cw: computed(turn, entry, 'cw'),
  ccw: computed(turn, entry, 'ccw'),
});

const rowsOf = (turn: TurnType): Readonly<Record<Edge, Row>> => ({
  LFO: rowOf(turn, 'LFO'),
  LFI: rowOf(turn, 'LFI'),
  LBO: rowOf(turn, 'LBO'),
  LBI: rowOf(turn, 'LBI'),
  RFO: rowOf(turn, 'RFO'),
  RFI: rowOf(turn, 'RFI'),
  RBO: rowOf(turn, 'RBO'),
  RBI: rowOf(turn, 'RBI'),
});

/** The table of all turns, made once from the rules above; searches look it up very often. */
const TABLE: Readonly<Record<TurnType, Readonly<Record<Edge, Row>>>> = {
  rocker: rowsOf('rocker'),
  counter: rowsOf('counter'),
  bracket: rowsOf('bracket'),
  loop: rowsOf('loop'),
  twizzle: rowsOf('twizzle'),
  choctaw: rowsOf('choctaw'),
  three: rowsOf('three'),
  mohawk: rowsOf('mohawk'),
};
