import { type Grey, sharpSampleAt } from './grey.ts';
import type { Corners } from './paper.ts';

/** Nine numbers h of the plane-to-plane map x = (h0 u + h1 v + h2) / (h6 u + h7 v + h8), y likewise with h3 to h5. */
export type PlaneMap = readonly [number, number, number, number, number, number, number, number, number];

/** A picture to be made: which point of the original each of its points shows, and its size in pixels. */
export interface View {
  readonly map: PlaneMap;
  readonly width: number;
  readonly height: number;
}

/** The picture as it is. */
export const wholeOf = ({ width, height }: { readonly width: number; readonly height: number }): View => ({
  map: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  width,
  height,
});

/** The quadrilateral laid flat, as large as its longer sides; null for one that is none. */
export function flatView([a, b, c, d]: Corners): View | null {
  const width = Math.round(Math.max(distance(a, b), distance(d, c)));
  const height = Math.round(Math.max(distance(a, d), distance(b, c)));
  const square: Square = [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ];
  const map = planeMap(square, [a, b, c, d]);
  return map === null ? null : { map, width, height };
}

/** A view turned clockwise by quarters. */
export function quarterTurned(view: View, quarters: 0 | 1 | 2 | 3): View {
  const { width, height } = view;
  const maps: Record<typeof quarters, PlaneMap> = {
    0: [1, 0, 0, 0, 1, 0, 0, 0, 1],
    1: [0, 1, 0, -1, 0, height, 0, 0, 1],
    2: [-1, 0, width, 0, -1, height, 0, 0, 1],
    3: [0, -1, width, 1, 0, 0, 0, 0, 1],
  };
  const lies = quarters % 2 === 1;
  return { map: after(view.map, maps[quarters]), width: lies ? height : width, height: lies ? width : height };
}

/** A view turned about its middle, clockwise in radians. */
export function turnedView(view: View, angle: number): View {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const [mx, my] = [view.width / 2, view.height / 2];
  const turn: PlaneMap = [cos, sin, mx - mx * cos - my * sin, -sin, cos, my + mx * sin - my * cos, 0, 0, 1];
  return { ...view, map: after(view.map, turn) };
}

/** A view enlarged (or made smaller, below 1). */
export function scaledView(view: View, scale: number): View {
  const map = after(view.map, [1 / scale, 0, 0, 0, 1 / scale, 0, 0, 0, 1]);
  return { map, width: Math.round(view.width * scale), height: Math.round(view.height * scale) };
}

/** The picture that a view shows: every pixel is sampled once, whatever the view is made of. White beyond the original. */
export function shown(picture: Grey, { map, width, height }: View): Grey {
  const [a, b, c, d, e, f, g, h, k] = map;
  const data = new Uint8Array(width * height);
  for (let row = 0; row < height; row += 1) {
    for (let column = 0; column < width; column += 1) {
      const [u, v] = [column + 0.5, row + 0.5];
      const w = g * u + h * v + k;
      const [x, y] = [(a * u + b * v + c) / w - 0.5, (d * u + e * v + f) / w - 0.5];
      data[row * width + column] = sharpSampleAt(picture, x, y, 255);
    }
  }
  return { data, width, height };
}

/** The map that first applies `second`, then `first`: a view of a view. */
function after(first: PlaneMap, second: PlaneMap): PlaneMap {
  const [a, b, c, d, e, f, g, h, k] = first;
  const [p, q, r, s, t, u, v, w, x] = second;
  return [
    a * p + b * s + c * v,
    a * q + b * t + c * w,
    a * r + b * u + c * x,
    d * p + e * s + f * v,
    d * q + e * t + f * w,
    d * r + e * u + f * x,
    g * p + h * s + k * v,
    g * q + h * t + k * w,
    g * r + h * u + k * x,
  ];
}

const distance = (a: { x: number; y: number }, b: { x: number; y: number }): number => Math.hypot(a.x - b.x, a.y - b.y);

type Place = readonly [number, number];
type Square = readonly [Place, Place, Place, Place];

/** The map that takes four points to four corners: eight linear equations. */
function planeMap(from: Square, to: Corners): PlaneMap | null {
  const rows: number[][] = [];
  from.forEach(([u, v], i) => {
    const { x, y } = to[i] ?? { x: 0, y: 0 };
    rows.push([u, v, 1, 0, 0, 0, -u * x, -v * x, x], [0, 0, 0, u, v, 1, -u * y, -v * y, y]);
  });
  const found = solved(rows);
  if (found === null) return null;
  const [a = 1, b = 0, c = 0, d = 0, e = 1, f = 0, g = 0, h = 0] = found;
  return [a, b, c, d, e, f, g, h, 1];
}

/** Gauss elimination with the largest pivot; null for equations without a single answer. */
function solved(rows: number[][]): number[] | null {
  const size = rows.length;
  for (let column = 0; column < size; column += 1) {
    let pivot = column;
    for (let row = column + 1; row < size; row += 1) {
      if (Math.abs(rows[row]?.[column] ?? 0) > Math.abs(rows[pivot]?.[column] ?? 0)) pivot = row;
    }
    const chosen = rows[pivot] ?? [];
    if (Math.abs(chosen[column] ?? 0) < 1e-9) return null;
    [rows[pivot], rows[column]] = [rows[column] ?? [], chosen];
    for (let row = 0; row < size; row += 1) {
      const target = rows[row];
      if (row === column || target === undefined) continue;
      const share = (target[column] ?? 0) / (chosen[column] ?? 1);
      for (let k = column; k <= size; k += 1) target[k] = (target[k] ?? 0) - share * (chosen[k] ?? 0);
    }
  }
  return rows.map((row, i) => (row[size] ?? 0) / (row[i] ?? 1));
}
