import type { Grey } from './grey.ts';

/** Connected ink: in print, one letter, figure, dot or stroke. Bounds in pixels, right and lower ends exclusive. */
export interface Component {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  /** Dark pixels. */
  readonly ink: number;
  /** Its darkest pixel: print has a dark core, the remains of erased lines have none. */
  readonly darkest: number;
}

/** Lighter than this is paper; thin strokes of blurred print are grey, paper is about 245. */
export const INK = 185;

/** Print is at least this dark somewhere. */
const CORE = 150;

/** All connected pieces of ink, in no order; specks below `minInk` pixels are left out. */
export function componentsOf(picture: Grey, minInk = 4): Component[] {
  const { width, height, data } = picture;
  const seen = new Uint8Array(width * height);
  const stack: number[] = [];
  const found: Component[] = [];
  for (let start = 0; start < data.length; start += 1) {
    if (seen[start] === 1 || (data[start] ?? 255) >= INK) continue;
    let [x0, y0, x1, y1, ink, darkest] = [width, height, 0, 0, 0, 255];
    seen[start] = 1;
    stack.push(start);
    for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
      const x = at % width;
      const y = (at - x) / width;
      ink += 1;
      darkest = Math.min(darkest, data[at] ?? 255);
      x0 = Math.min(x0, x);
      x1 = Math.max(x1, x + 1);
      y0 = Math.min(y0, y);
      y1 = Math.max(y1, y + 1);
      for (let ny = Math.max(0, y - 1); ny <= Math.min(height - 1, y + 1); ny += 1) {
        for (let nx = Math.max(0, x - 1); nx <= Math.min(width - 1, x + 1); nx += 1) {
          const next = ny * width + nx;
          if (seen[next] === 1 || (data[next] ?? 255) >= INK) continue;
          seen[next] = 1;
          stack.push(next);
        }
      }
    }
    if (ink >= minInk && darkest < CORE) found.push({ x0, y0, x1, y1, ink, darkest });
  }
  return found;
}
