import type { Move } from './step-sequence.ts';
import { findClusters } from './step-clusters.ts';
import type { StepRules } from '../rulebook/index.ts';
import { lobeOf } from './turns.ts';

/** Rinks by length and width in metres. */
export const RINKS = { '60x30': [60, 30], '60x26': [60, 26], '56x26': [56, 26] } as const;
export type Rink = keyof typeof RINKS;
export const PATTERNS = ['serpentine', 'circle', 'straight'] as const;
export type Pattern = (typeof PATTERNS)[number];

export interface Drawing {
  /** A whole SVG document, in metres. */
  readonly svg: string;
  /** Length of the drawn path of each move, in metres. */
  readonly lengths: readonly number[];
  /** Length of the whole drawn path, in metres. */
  readonly length: number;
  /** Parts of the drawn path: each move's, and what is done to the left, to the right and with the body. */
  readonly shares: readonly number[];
  readonly left: number;
  readonly right: number;
  readonly body: number;
}

interface Point {
  readonly x: number;
  readonly y: number;
}

/** A stretch of the path: an edge of a move, drawn as an arc, or plain skating between moves. */
interface Stretch {
  readonly move: number | null;
  /** Part of the pattern that it shall have. */
  readonly share: number;
}

/** Half the angle of every drawn arc, in radians: lobes as deep as they can be told apart in print. */
const HALF_ANGLE = 0.6;
const ARC_PER_CHORD = HALF_ANGLE / Math.sin(HALF_ANGLE);
/** Distance of the pattern from the boards, in metres. */
const MARGIN = 5;

/**
 * Draws a sequence on a rink. Every move is an arc on its lobe's side of the pattern; the drawn
 * lengths are in proportion to the shares, so what can be measured on the print is what was entered.
 * What the shares leave over is plain skating, spread evenly between the moves.
 */
export function drawSteps(
  moves: readonly Move[],
  rules: StepRules,
  options: { readonly rink?: Rink; readonly pattern?: Pattern; readonly title?: string } = {},
): Drawing {
  const rink = options.rink ?? '60x30';
  const curve = curveFor(RINKS[rink], options.pattern ?? 'serpentine');
  const stretches = stretchesOf(moves);
  const points = placed(stretches, curve);
  const drawn = stretches.map((stretch, at) => lengthOf(stretch, points[at], points[at + 1]));
  const length = drawn.reduce((sum, one) => sum + one, 0);
  const lengths = moves.map((_, index) => drawn[stretches.findIndex(({ move }) => move === index)] ?? 0);
  const shares = lengths.map((one) => (length === 0 ? 0 : one / length));
  const sumOf = (has: (move: Move) => boolean) =>
    moves.reduce((sum, move, n) => sum + (has(move) ? (shares[n] ?? 0) : 0), 0);
  return {
    svg: svgOf(moves, rules, stretches, points, RINKS[rink], options.title ?? 'Step plan'),
    lengths,
    length,
    shares,
    left: sumOf((move) => move.rotation === 'left'),
    right: sumOf((move) => move.rotation === 'right'),
    body: sumOf((move) => move.body),
  };
}

/** Moves in order, with equal stretches of plain skating between them for what the shares leave over. */
function stretchesOf(moves: readonly Move[]): Stretch[] {
  const given = moves.reduce((sum, move) => sum + move.share, 0);
  const scale = given > 1 ? 1 / given : 1;
  const gap = moves.length === 0 ? 0 : Math.max(0, 1 - given) / moves.length;
  return moves.flatMap((move, index): Stretch[] => [
    { move: null, share: gap < 1e-9 ? 0 : gap },
    { move: index, share: move.share * scale },
  ]);
}

/** Points on the curve between which the stretches are drawn, so that drawn lengths follow the shares. */
function placed(stretches: readonly Stretch[], curve: (t: number) => Point): Point[] {
  let steps = stretches.map(({ share }) => share);
  let points: Point[] = [];
  for (let round = 0; round < 200; round += 1) {
    const total = steps.reduce((sum, step) => sum + step, 0);
    let t = 0;
    points = [curve(0), ...steps.map((step) => curve((t += total === 0 ? 0 : step / total)))];
    const lengths = stretches.map((stretch, at) => lengthOf(stretch, points[at], points[at + 1]));
    const whole = lengths.reduce((sum, one) => sum + one, 0);
    const wanted = stretches.reduce((sum, { share }) => sum + share, 0);
    const ratios = stretches.map(({ share }, at) => {
      const now = whole === 0 ? 0 : (lengths[at] ?? 0) / whole;
      return share === 0 || now === 0 ? 1 : share / wanted / now;
    });
    if (ratios.every((ratio) => Math.abs(ratio - 1) < 1e-10)) break;
    steps = steps.map((step, at) => step * (ratios[at] ?? 1));
  }
  return points;
}

function lengthOf({ move }: Stretch, from: Point | undefined, to: Point | undefined): number {
  if (from === undefined || to === undefined) return 0;
  const chord = Math.hypot(to.x - from.x, to.y - from.y);
  return move === null ? chord : chord * ARC_PER_CHORD;
}

/** The middle line of a pattern, from t = 0 to 1, inside the boards. */
function curveFor([width, height]: readonly [number, number], pattern: Pattern): (t: number) => Point {
  const [rx, ry] = [width / 2 - MARGIN, height / 2 - MARGIN];
  const middle = { x: width / 2, y: height / 2 };
  if (pattern === 'straight') return (t) => ({ x: middle.x - rx + 2 * rx * t, y: middle.y });
  if (pattern === 'circle')
    // Not quite closed: the end is told from the beginning.
    return (t) => ({ x: middle.x - rx * Math.cos(1.9 * Math.PI * t), y: middle.y - ry * Math.sin(1.9 * Math.PI * t) });
  return (t) => ({ x: middle.x - rx + 2 * rx * t, y: middle.y - ry * Math.sin(3 * Math.PI * t) });
}

const LEGEND = [
  'Thick: combinations. Dashed: rotation to the left. Dotted: rotation to the right.',
  'Underlined: body movement. Thin grey: plain skating.',
  'Lengths are in proportion to the shares of the pattern; the shape is a sketch.',
];

function svgOf(
  moves: readonly Move[],
  rules: StepRules,
  stretches: readonly Stretch[],
  points: readonly Point[],
  [width, height]: readonly [number, number],
  title: string,
): string {
  const inside = new Set(findClusters(moves, rules).attempts.flatMap((one) => one.moves));
  const paths = stretches.map((stretch, at) => pathOf(moves, stretch, points[at], points[at + 1], inside));
  const labels = labelsOf(moves, stretches, points, width);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height + 7}" role="img" font-family="sans-serif">`,
    `<title>${escaped(title)}</title>`,
    `<rect x="0.2" y="0.2" width="${width - 0.4}" height="${height - 0.4}" rx="8" fill="none" stroke="#000" stroke-width="0.2"/>`,
    ...paths.filter((path) => path !== ''),
    ...labels,
    ...LEGEND.map((text, row) => `<text x="1" y="${height + 2 + row * 1.8}" font-size="1.2">${text}</text>`),
    '</svg>',
  ].join('\n');
}

function pathOf(
  moves: readonly Move[],
  { move: index }: Stretch,
  from: Point | undefined,
  to: Point | undefined,
  inside: ReadonlySet<number>,
): string {
  if (from === undefined || to === undefined || Math.hypot(to.x - from.x, to.y - from.y) === 0) return '';
  const move = index === null ? undefined : moves[index];
  if (index === null || move === undefined)
    return `<path d="M${at(from)} L${at(to)}" fill="none" stroke="#999" stroke-width="0.1"/>`;
  const radius = Math.hypot(to.x - from.x, to.y - from.y) / 2 / Math.sin(HALF_ANGLE);
  // On the page y grows downwards: a sweep of 0 curves counter-clockwise as seen from above.
  const sweep = lobeOf(move.edge) === 'cw' ? 1 : 0;
  const dash = move.rotation === null ? '' : ` stroke-dasharray="${move.rotation === 'left' ? '0.9 0.4' : '0.2 0.4'}"`;
  const thick = inside.has(index) ? 0.45 : 0.22;
  return `<path d="M${at(from)} A${fine(radius)} ${fine(radius)} 0 0 ${sweep} ${at(to)}" fill="none" stroke="#000" stroke-width="${thick}"${dash}/>`;
}

/** A label where it may stand: left lower corner, width and height in metres. */
interface Place {
  readonly x: number;
  readonly y: number;
  readonly wide: number;
  readonly high: number;
}

const LETTER = 0.66;
const HIGH = 1.1;
/** Distances from the chord at which a label is tried, on the hollow side of the arc and on the other. */
const TRIED = [1.4, -2.4, 2.8, -3.8] as const;

const meet = (a: Place, b: Place): boolean =>
  a.x < b.x + b.wide && b.x < a.x + a.wide && a.y - a.high < b.y && b.y - b.high < a.y;

/** Labels beside their arcs; one that would stand on another is tried further out and on the other side. */
function labelsOf(
  moves: readonly Move[],
  stretches: readonly Stretch[],
  points: readonly Point[],
  width: number,
): string[] {
  const taken: Place[] = stretches.flatMap((stretch, at) => alongArc(moves, stretch, points[at], points[at + 1]));
  return stretches.flatMap(({ move: index }, at) => {
    const move = index === null ? undefined : moves[index];
    const [from, to] = [points[at], points[at + 1]];
    if (index === null || move === undefined || from === undefined || to === undefined) return [];
    const text = `${index + 1} ${move.edge} ${SHORT[move.turn]}`;
    const places = TRIED.map((away) => placeOf(text, move, from, to, away, width));
    const place = places.find((one) => !taken.some((other) => meet(one, other))) ?? places[0];
    if (place === undefined) return [];
    taken.push(place);
    const under = move.body ? ' text-decoration="underline"' : '';
    return [`<text x="${fine(place.x)}" y="${fine(place.y)}" font-size="${HIGH}"${under}>${text}</text>`];
  });
}

/** Parts of an arc at which it is looked whether a label would stand on it. */
const SAMPLES = [0, 0.15, 0.3, 0.5, 0.7, 0.85, 1] as const;
const STROKE = 0.5;

/** Small places along a drawn arc, which labels keep off. */
function alongArc(
  moves: readonly Move[],
  { move: index }: Stretch,
  from: Point | undefined,
  to: Point | undefined,
): Place[] {
  const move = index === null ? undefined : moves[index];
  if (move === undefined || from === undefined || to === undefined) return [];
  const side = lobeOf(move.edge) === 'cw' ? 1 : -1;
  const depth = Math.tan(HALF_ANGLE / 2) / 2;
  const [nx, ny] = [(to.y - from.y) * side * depth, -(to.x - from.x) * side * depth];
  return SAMPLES.map((t) => {
    const bulge = 4 * t * (1 - t);
    const x = from.x + (to.x - from.x) * t + nx * bulge;
    const y = from.y + (to.y - from.y) * t + ny * bulge;
    return { x: x - STROKE / 2, y: y + STROKE / 2, wide: STROKE, high: STROKE };
  });
}

function placeOf(text: string, move: Move, from: Point, to: Point, away: number, width: number): Place {
  const wide = text.length * LETTER;
  const side = lobeOf(move.edge) === 'cw' ? 1 : -1;
  const chord = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  const [dx, dy] = [(-(to.y - from.y) / chord) * side, ((to.x - from.x) / chord) * side];
  // The end of the label that is nearer to the arc stands at the distance; beside it where the arc is steep.
  const toTheSide = dx * away;
  const x = (from.x + to.x) / 2 + toTheSide + (Math.abs(toTheSide) < 0.5 ? -wide / 2 : toTheSide < 0 ? -wide : 0);
  const y = (from.y + to.y) / 2 + dy * away + HIGH / 3;
  return { x: Math.min(Math.max(x, 0.6), width - wide - 0.6), y, wide, high: HIGH };
}

const SHORT = {
  rocker: 'Ro',
  counter: 'Co',
  bracket: 'Br',
  loop: 'Lo',
  twizzle: 'Tw',
  choctaw: 'Ch',
  three: '3',
  mohawk: 'Mo',
} as const;

const fine = (n: number): string => String(Number(n.toFixed(6)));
const at = (point: Point): string => `${fine(point.x)} ${fine(point.y)}`;
const escaped = (text: string): string => text.replace(/[&<>"']/g, (mark) => `&#${mark.charCodeAt(0)};`);
