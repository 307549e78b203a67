import { type Box, componentsOf, heightOf, widthOf } from './components.ts';
import type { Grey } from './grey.ts';

/** Letters and figures, in pixels; in figure sizes where they depend on it. */
const LEAST = 6;
const MOST = 200;
/** Fewer letters or dots than this tell nothing. */
const ENOUGH = 12;
/** Points of decimals against letters: fewer, and most were lost or stick to their figures. */
const SHARE = 0.05;
/** Dots on one side of the letters' middle, against all, before a page is turned over. */
const CLEAR = 0.7;

/** How a picture has to be turned for its print to stand upright. */
export interface Turn {
  /** Quarter turns clockwise. */
  readonly quarters: 0 | 1 | 2 | 3;
  /** False where there was too little to tell it from the same picture upside down. */
  readonly sure: boolean;
}

/**
 * Tells by its figures how a picture lies: they are higher than wide, and the points (or commas) of decimals
 * stand at their feet. A sheet is full of both.
 */
export function turnToUpright(picture: Grey): Turn {
  const components = componentsOf(picture);
  const letters = components.filter((piece) => isLetter(piece));
  if (letters.length < ENOUGH) return { quarters: 0, sure: false };
  const lying = letters.filter((piece) => widthOf(piece) > heightOf(piece)).length > letters.length / 2;
  const feet = feetOf(lying ? components.map(sideways) : components);
  return { quarters: lying ? (feet === 'up' ? 3 : 1) : feet === 'up' ? 2 : 0, sure: feet !== null };
}

const isLetter = (box: Box): boolean => {
  const [less, more] = [Math.min(widthOf(box), heightOf(box)), Math.max(widthOf(box), heightOf(box))];
  return less >= LEAST / 2 && more >= LEAST && more <= MOST && more <= 3 * less;
};

/** Where a piece lies once the picture is turned clockwise by a quarter (shifted, which changes nothing here). */
const sideways = ({ x0, y0, x1, y1 }: Box): Box => ({ x0: -y1, y0: x0, x1: -y0, y1: x1 });

/** Whether the dots between figures stand low or high beside them; null where that cannot be told. */
function feetOf(boxes: readonly Box[]): 'down' | 'up' | null {
  const heights = boxes.filter((box) => isLetter(box)).map(heightOf);
  const size = heights.sort((a, b) => a - b)[Math.floor(0.6 * heights.length)] ?? 0;
  const letters = boxes
    .filter((box) => heightOf(box) > 0.7 * size && heightOf(box) < 1.4 * size && widthOf(box) < 1.2 * size)
    .sort((a, b) => a.x0 - b.x0);
  const starts = letters.map((box) => box.x0);
  let low = 0;
  let high = 0;
  for (const dot of boxes) {
    if (heightOf(dot) > 0.5 * size || widthOf(dot) > 0.35 * size) continue;
    const middle = (dot.y0 + dot.y1) / 2;
    const beside = (gap: number, box: Box): boolean =>
      gap > -0.2 * size && gap < 0.4 * size && middle > box.y0 - 0.3 * size && middle < box.y1 + 0.3 * size;
    const near = letters.slice(firstFrom(starts, dot.x0 - 2 * size), firstFrom(starts, dot.x1 + size));
    const before = near.find((box) => box.x0 < dot.x0 && beside(dot.x0 - box.x1, box));
    const after = near.find((box) => box.x0 > dot.x0 && beside(box.x0 - dot.x1, box));
    if (before === undefined || after === undefined) continue;
    const place = (middle - before.y0) / heightOf(before);
    if (place > 0.7) low += 1;
    if (place < 0.3) high += 1;
  }
  if (low + high < Math.max(ENOUGH, SHARE * letters.length) || Math.max(low, high) < CLEAR * (low + high)) return null;
  return high > low ? 'up' : 'down';
}

/** Index of the first value that is at least `value`, in ascending order. */
function firstFrom(values: readonly number[], value: number): number {
  let [from, to] = [0, values.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    if ((values[middle] ?? 0) < value) from = middle + 1;
    else to = middle;
  }
  return from;
}
