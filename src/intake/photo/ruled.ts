import { componentsOf } from './components.ts';
import type { Grey } from './grey.ts';
import { figureHeight } from './segment.ts';

/** Thin rules are grey in a photograph: their ink is spread over the paper beside them. Paper is about 245. */
const FAINT = 220;
/** By how much a stroke is darker than the paper on one side of it at least. */
const MARGIN = 20;
/** Darker than this is the fringe of a stroke. */
const FRINGE = 232;
/** Shortest rules in heights of a figure: longer than anything that print joins in that direction. */
const ACROSS = 4;
const UPRIGHT = 3;
/** Side of a cell between two rules that lie across. */
const CELL_SIDE = 1.3;
/**
 * Share of a rule along which nothing but itself is dark. Small print that runs together in a blurred
 * picture is a long stroke too, but stems stand on it or hang from it all along.
 */
const ALONE = 0.7;

/** One direction of rules in a picture of `width` pixels: pixels along it are `along` apart, beside it `aside`. */
interface Direction {
  readonly along: number;
  readonly aside: number;
  readonly length: number;
  readonly lanes: number;
}

/** A straight piece of a rule: pixels `from` up to `to` (exclusive) of one lane. */
interface Run {
  readonly lane: number;
  readonly from: number;
  readonly to: number;
}

/**
 * Takes ruled lines of tables out: thin straight strokes longer than print is in that direction. Text
 * recognition takes them for letters, and what is left at their ends for signs. Faint rules are found
 * too; print that a rule merely touches is cut from it, print that crosses it is kept.
 */
export function withoutRules(picture: Grey): Grey {
  const { width, height } = picture;
  const size = figureHeight(componentsOf(picture));
  const rows: Direction = { along: 1, aside: width, length: width, lanes: height };
  const columns: Direction = { along: width, aside: 1, length: height, lanes: width };
  const across = runsOf(picture, rows, size, (run) => run.to - run.from >= ACROSS * size);
  const lying = marked(picture, rows, across);
  const upright = runsOf(picture, columns, size, (run) => {
    const long = run.to - run.from;
    return long >= UPRIGHT * size || (long >= CELL_SIDE * size && endsOn(lying, columns, run, size));
  });
  const standing = marked(picture, columns, upright);
  const data = Uint8Array.from(picture.data);
  for (const run of across) erase(picture, data, rows, run, standing, size);
  for (const run of upright) erase(picture, data, columns, run, lying, size);
  return { data, width, height };
}

/** Straight pieces of thin ink; a pixel counts with its neighbours aside, so that a slight slope does not break them. */
function runsOf(picture: Grey, way: Direction, size: number, isRule: (run: Run) => boolean): Run[] {
  const thin = thinInk(picture, way, Math.max(3, Math.round(0.3 * size)));
  const found: Run[] = [];
  for (let lane = 1; lane < way.lanes - 1; lane += 1) {
    let from = -1;
    for (let i = 0; i <= way.length; i += 1) {
      const at = lane * way.aside + i * way.along;
      const isInk = i < way.length && (thin[at] === 1 || thin[at - way.aside] === 1 || thin[at + way.aside] === 1);
      if (isInk && from < 0) from = i;
      if (!isInk && from >= 0) {
        const run = { lane, from, to: i };
        if (isRule(run) && isAlone(picture, way, run, size)) found.push(run);
        from = -1;
      }
    }
  }
  return found;
}

function isAlone(picture: Grey, way: Direction, run: Run, size: number): boolean {
  const most = Math.ceil(0.25 * size);
  let alone = 0;
  for (let i = run.from; i < run.to; i += 1) {
    const { before, after } = extentAt(picture, way, run.lane, i, most + 1);
    if (before <= most && after <= most) alone += 1;
  }
  return alone >= ALONE * (run.to - run.from);
}

/** Ink with paper within reach on one side at least: a stroke, or the edge of a dark patch. */
function thinInk({ data }: Grey, way: Direction, reach: number): Uint8Array {
  const thin = new Uint8Array(data.length);
  for (let lane = 0; lane < way.lanes; lane += 1) {
    const before = lane >= reach ? -reach * way.aside : null;
    const after = lane < way.lanes - reach ? reach * way.aside : null;
    for (let i = 0; i < way.length; i += 1) {
      const at = lane * way.aside + i * way.along;
      const value = data[at] ?? 255;
      if (value >= FAINT) continue;
      const beside = Math.max(
        before === null ? 0 : (data[at + before] ?? 0),
        after === null ? 0 : (data[at + after] ?? 0),
      );
      if (value + MARGIN <= beside) thin[at] = 1;
    }
  }
  return thin;
}

function marked(picture: Grey, way: Direction, runs: readonly Run[]): Uint8Array {
  const mask = new Uint8Array(picture.data.length);
  for (const { lane, from, to } of runs) for (let i = from; i < to; i += 1) mask[lane * way.aside + i * way.along] = 1;
  return mask;
}

/** Whether both ends of a run lie on rules of the other direction, or a little before them. */
function endsOn(rules: Uint8Array, way: Direction, run: Run, size: number): boolean {
  const slack = Math.max(2, Math.round(0.2 * size));
  const meets = (end: number): boolean => {
    for (let i = Math.max(0, end - slack); i <= Math.min(way.length - 1, end + slack); i += 1)
      if (rules[run.lane * way.aside + i * way.along] === 1) return true;
    return false;
  };
  return meets(run.from) && meets(run.to - 1);
}

/** Ink on either side of a place, in pixels. */
interface Extent {
  readonly before: number;
  readonly after: number;
}

/** Whitens a rule with its fringe and its ends, but not the strokes of print that cross it. */
function erase(from: Grey, to: Uint8Array, way: Direction, run: Run, crossing: Uint8Array, size: number): void {
  const most = Math.round(size);
  const extents: Extent[] = [];
  for (let i = run.from; i < run.to; i += 1) extents.push(extentAt(from, way, run.lane, i, most));
  const before = median(extents.map((extent) => extent.before));
  const after = median(extents.map((extent) => extent.after));
  const stroke = Math.max(2, Math.round(0.2 * size));
  const ends = Math.max(2, Math.round(0.12 * size));
  for (let i = Math.max(0, run.from - ends); i < Math.min(way.length, run.to + ends); i += 1) {
    const extent = extents[i - run.from];
    const crosses = extent !== undefined && extent.before > before + stroke && extent.after > after + stroke;
    if (crosses && !isNear(crossing, way, run.lane, i)) continue;
    for (let side = -before - 1; side <= after + 1; side += 1) {
      const lane = run.lane + side;
      if (lane >= 0 && lane < way.lanes) to[lane * way.aside + i * way.along] = 255;
    }
  }
}

function extentAt(picture: Grey, way: Direction, lane: number, i: number, most: number): Extent {
  return { before: inkFrom(picture, way, lane, i, -1, most), after: inkFrom(picture, way, lane, i, 1, most) };
}

/** Dark pixels in a row beside a place, `step` lanes at a time, at most `most`. */
function inkFrom({ data }: Grey, way: Direction, lane: number, i: number, step: 1 | -1, most: number): number {
  let count = 0;
  for (let at = lane + step; count < most && at >= 0 && at < way.lanes; at += step) {
    if ((data[at * way.aside + i * way.along] ?? 255) >= FRINGE) break;
    count += 1;
  }
  return count;
}

/** Whether a rule of the other direction passes here. */
function isNear(rules: Uint8Array, way: Direction, lane: number, i: number): boolean {
  for (let step = -2; step <= 2; step += 1) {
    for (let side = -2; side <= 2; side += 1)
      if (rules[(lane + side) * way.aside + (i + step) * way.along] === 1) return true;
  }
  return false;
}

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1] ?? 0;
