import type { Grey } from './grey.ts';

const MAX_DEGREES = 4;
const INK = 140;

/**
 * By how much the lines of print rise to the right, in radians clockwise (negative: they rise). Rows of
 * print give a profile of dark and light lines; it is sharpest when the sheet lies straight.
 */
export function skewOf(picture: Grey): number {
  const ink = inkPoints(picture);
  const coarse = sharpest(ink, picture, 0, MAX_DEGREES, 0.25);
  const fine = sharpest(ink, picture, coarse, 0.25, 0.05);
  return (fine * Math.PI) / 180;
}

interface Ink {
  readonly x: Int32Array;
  readonly y: Int32Array;
}

/** Every dark pixel of a grid fine enough for lines of print. */
function inkPoints(picture: Grey): Ink {
  const step = Math.max(1, Math.round(picture.width / 1200));
  const xs: number[] = [];
  const ys: number[] = [];
  for (let y = 0; y < picture.height; y += 1) {
    for (let x = 0; x < picture.width; x += step) {
      if ((picture.data[y * picture.width + x] ?? 255) < INK) {
        xs.push(x);
        ys.push(y);
      }
    }
  }
  return { x: Int32Array.from(xs), y: Int32Array.from(ys) };
}

function sharpest(ink: Ink, picture: Grey, middle: number, reach: number, step: number): number {
  let best = -1;
  let angle = middle;
  for (let degrees = middle - reach; degrees <= middle + reach + 1e-9; degrees += step) {
    const score = sharpness(ink, picture, Math.tan((degrees * Math.PI) / 180));
    if (score > best) [best, angle] = [score, degrees];
  }
  return angle;
}

/** Sum of squared differences between neighbouring lines of the profile along this slope. */
function sharpness(ink: Ink, picture: Grey, slope: number): number {
  const shift = Math.ceil(Math.abs(slope) * picture.width) + 1;
  const profile = new Float64Array(picture.height + 2 * shift + 2);
  for (let i = 0; i < ink.x.length; i += 1) {
    const row = Math.round((ink.y[i] ?? 0) - (ink.x[i] ?? 0) * slope) + shift;
    profile[row] = (profile[row] ?? 0) + 1;
  }
  let sum = 0;
  for (let i = 1; i < profile.length; i += 1) sum += ((profile[i] ?? 0) - (profile[i - 1] ?? 0)) ** 2;
  return sum;
}
