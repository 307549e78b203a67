import { boxBlur, brightBlocks, type Grey } from './grey.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Corners from the upper left, clockwise. */
export type Corners = readonly [Point, Point, Point, Point];

const LONGER_SIDE = 400;

/**
 * The corners of a bright sheet on a darker ground; null where the sheet fills the picture, where the
 * ground is as bright as the paper, or where the bright patch is no quadrilateral.
 */
export function findPaper(picture: Grey): Corners | null {
  const size = Math.max(1, Math.ceil(Math.max(picture.width, picture.height) / LONGER_SIDE));
  const small = boxBlur(brightBlocks(picture, size), 1);
  const limit = splitOfBrightness(small);
  if (limit === null) return null;
  const bright = (x: number, y: number): boolean => (small.data[y * small.width + x] ?? 0) >= limit;
  const corners = extremeCorners(small, bright);
  if (corners === null || !fillsQuadrilateral(small, bright, corners)) return null;
  const [a, b, c, d] = corners;
  return [inward(a, 1, 1, size), inward(b, -1, 1, size), inward(c, -1, -1, size), inward(d, 1, -1, size)];
}

/** Into the picture's own pixels, and inside the edge of the paper, which would look like a ruled line. */
const inward = ({ x, y }: Point, dx: number, dy: number, size: number): Point => ({
  x: (x + 0.5 + 2 * dx) * size,
  y: (y + 0.5 + 2 * dy) * size,
});

/** Threshold between ground and paper (largest variance between classes); null without a clear gap. */
function splitOfBrightness(picture: Grey): number | null {
  const counts = new Array<number>(256).fill(0);
  for (const value of picture.data) counts[value] = (counts[value] ?? 0) + 1;
  const all = picture.data.length;
  const total = counts.reduce((sum, count, value) => sum + count * value, 0);
  let best = 0;
  let split = 0;
  let gap = 0;
  let below = 0;
  let sum = 0;
  for (let value = 0; value < 255; value += 1) {
    below += counts[value] ?? 0;
    sum += (counts[value] ?? 0) * value;
    if (below === 0 || below === all) continue;
    const difference = (total - sum) / (all - below) - sum / below;
    const variance = (below / all) * (1 - below / all) * difference ** 2;
    if (variance > best) [best, split, gap] = [variance, value + 1, difference];
  }
  const dark = counts.slice(0, split).reduce((a, b) => a + b, 0) / all;
  return gap < 40 || dark < 0.02 || dark > 0.7 ? null : split;
}

/** The bright cells that lie farthest in the four diagonal directions. */
function extremeCorners(picture: Grey, bright: (x: number, y: number) => boolean): Corners | null {
  const far = [-Infinity, -Infinity, -Infinity, -Infinity];
  const found: (Point | null)[] = [null, null, null, null];
  for (let y = 0; y < picture.height; y += 1) {
    for (let x = 0; x < picture.width; x += 1) {
      if (!bright(x, y)) continue;
      [-x - y, x - y, x + y, y - x].forEach((reach, i) => {
        if (reach > (far[i] ?? 0)) [far[i], found[i]] = [reach, { x, y }];
      });
    }
  }
  const [a, b, c, d] = found;
  return a && b && c && d ? [a, b, c, d] : null;
}

/** At least a third of the picture, and nearly all that is bright lies inside, nearly all inside is bright. */
function fillsQuadrilateral(picture: Grey, bright: (x: number, y: number) => boolean, corners: Corners): boolean {
  let inside = 0;
  let both = 0;
  let lit = 0;
  for (let y = 0; y < picture.height; y += 1) {
    for (let x = 0; x < picture.width; x += 1) {
      const isInside = isWithin({ x, y }, corners);
      const isBright = bright(x, y);
      if (isInside) inside += 1;
      if (isBright) lit += 1;
      if (isInside && isBright) both += 1;
    }
  }
  return inside > 0.33 * picture.data.length && both > 0.9 * inside && both > 0.9 * lit;
}

function isWithin(point: Point, corners: Corners): boolean {
  return corners.every((corner, i) => {
    const next = corners[(i + 1) % 4] ?? corner;
    return (next.x - corner.x) * (point.y - corner.y) - (next.y - corner.y) * (point.x - corner.x) >= -1e-9;
  });
}
