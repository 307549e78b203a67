import { type Grey, sampleAt } from './grey.ts';
import type { Corners } from './paper.ts';

/** Eight numbers h of the plane-to-plane map x = (h0 u + h1 v + h2) / (h6 u + h7 v + 1), y likewise. */
type PlaneMap = readonly number[];

/** Lays the quadrilateral flat, as large as its longer sides. */
export function flattened(picture: Grey, corners: Corners): Grey {
  const [a, b, c, d] = corners;
  const width = Math.round(Math.max(distance(a, b), distance(d, c)));
  const height = Math.round(Math.max(distance(a, d), distance(b, c)));
  const map = planeMap(
    [
      [0, 0],
      [width, 0],
      [width, height],
      [0, height],
    ],
    corners,
  );
  return map === null ? picture : resampled(picture, width, height, map);
}

/** Turned about its middle, clockwise in radians; new corners are white. */
export function rotated(picture: Grey, angle: number): Grey {
  const { width, height } = picture;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const [mx, my] = [width / 2, height / 2];
  return resampled(picture, width, height, [
    cos,
    sin,
    mx - mx * cos - my * sin,
    -sin,
    cos,
    my + mx * sin - my * cos,
    0,
    0,
  ]);
}

const distance = (a: { x: number; y: number }, b: { x: number; y: number }): number => Math.hypot(a.x - b.x, a.y - b.y);

function resampled(picture: Grey, width: number, height: number, map: PlaneMap): Grey {
  const [a = 1, b = 0, c = 0, d = 0, e = 1, f = 0, g = 0, h = 0] = map;
  const data = new Uint8Array(width * height);
  for (let v = 0; v < height; v += 1) {
    for (let u = 0; u < width; u += 1) {
      const w = g * u + h * v + 1;
      data[v * width + u] = sampleAt(picture, (a * u + b * v + c) / w, (d * u + e * v + f) / w, 255);
    }
  }
  return { data, width, height };
}

/** The map that takes four points to four corners: eight linear equations. */
function planeMap(from: readonly (readonly [number, number])[], to: Corners): PlaneMap | null {
  const rows: number[][] = [];
  from.forEach(([u, v], i) => {
    const { x, y } = to[i] ?? { x: 0, y: 0 };
    rows.push([u, v, 1, 0, 0, 0, -u * x, -v * x, x], [0, 0, 0, u, v, 1, -u * y, -v * y, y]);
  });
  return solved(rows);
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
