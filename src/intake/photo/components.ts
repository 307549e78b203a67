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

/** Bounds of a piece of ink or of several. */
export type Box = Pick<Component, 'x0' | 'y0' | 'x1' | 'y1'>;

export const widthOf = ({ x0, x1 }: Pick<Box, 'x0' | 'x1'>): number => x1 - x0;
export const heightOf = ({ y0, y1 }: Pick<Box, 'y0' | 'y1'>): number => y1 - y0;

/** Lighter than this is paper; thin strokes of blurred print are grey, paper is about 245. */
export const INK = 195;

/** Print is at least this dark somewhere. */
const CORE = 165;

/** All connected pieces of ink, in no order; specks below `minInk` pixels are left out. */
export function componentsOf(picture: Grey, minInk = 4): Component[] {
  const whole = { x0: 0, y0: 0, x1: picture.width, y1: picture.height };
  return connected(picture, whole, INK).filter((piece) => piece.ink >= minInk && piece.darkest < CORE);
}

/** Darker and darker limits at which pieces that merely touch come apart. */
const LIMITS = [165, 135, 105];

/**
 * Takes apart what only the grey between two signs joins: a minus and its figure, two figures set close,
 * the stroke of an exclamation mark and its dot.
 * `size` is the height of a figure. A part has to be as wide as a sign, else a letter would lose its stems.
 */
export function unjoined(picture: Grey, components: readonly Component[], size: number): Component[] {
  return components.flatMap((piece) => {
    const [width, height] = [widthOf(piece), heightOf(piece)];
    if (width < 0.35 * size && height > 0.8 * size && height < 1.3 * size) return strokeAndDot(picture, piece, size);
    if (width < 0.7 * size || width > 8 * size || height < 0.5 * size || height > 1.6 * size) return [piece];
    for (const limit of LIMITS) {
      const parts = connected(picture, piece, limit).filter((part) => part.ink >= 0.02 * size * size);
      if (parts.length > 1 && areSigns(parts, size)) return parts.map((part) => grown(part, piece));
    }
    return [piece];
  });
}

function strokeAndDot(picture: Grey, piece: Component, size: number): Component[] {
  for (const limit of LIMITS) {
    const parts = connected(picture, piece, limit).filter((part) => part.ink >= 0.01 * size * size);
    const [upper, lower] = parts.sort((a, b) => a.y0 - b.y0);
    if (parts.length === 2 && upper !== undefined && lower !== undefined && lower.y0 >= upper.y1) return parts;
  }
  return [piece];
}

/** Side by side, each as wide as a sign; or a figure and the point or comma at its foot. */
function areSigns(parts: readonly Component[], size: number): boolean {
  const ordered = [...parts].sort((a, b) => a.x0 - b.x0);
  const feet = Math.max(...parts.map((part) => part.y1));
  const isPoint = (part: Component): boolean => heightOf(part) < 0.55 * size && part.y0 > feet - 0.5 * size;
  const wide = ordered.filter((part) => widthOf(part) >= 0.2 * size);
  const apart = ordered.every((part, i) => part.x0 >= (ordered[i - 1]?.x1 ?? -Infinity) - 0.1 * size);
  if (!apart) return false;
  const whole = (ordered.at(-1)?.x1 ?? 0) - (ordered[0]?.x0 ?? 0);
  if (whole >= 0.95 * size && wide.length === parts.length) return true;
  return parts.length === 2 && wide.length > 0 && parts.some((part) => isPoint(part) && widthOf(part) < 0.3 * size);
}

/** At a darker limit a part is narrower than it was printed. */
const grown = (part: Component, within: Component): Component => ({
  ...part,
  x0: Math.max(within.x0, part.x0 - 1),
  y0: Math.max(within.y0, part.y0 - 1),
  x1: Math.min(within.x1, part.x1 + 1),
  y1: Math.min(within.y1, part.y1 + 1),
});

/** Connected pixels below a limit inside a box. */
function connected(picture: Grey, box: Box, limit: number): Component[] {
  const { width: stride, data } = picture;
  const width = widthOf(box);
  const height = heightOf(box);
  const seen = new Uint8Array(width * height);
  const stack: number[] = [];
  const found: Component[] = [];
  const at = (place: number): number => (box.y0 + Math.floor(place / width)) * stride + box.x0 + (place % width);
  for (let start = 0; start < seen.length; start += 1) {
    if (seen[start] === 1 || (data[at(start)] ?? 255) >= limit) continue;
    let [x0, y0, x1, y1, ink, darkest] = [width, height, 0, 0, 0, 255];
    seen[start] = 1;
    stack.push(start);
    for (let place = stack.pop(); place !== undefined; place = stack.pop()) {
      const x = place % width;
      const y = (place - x) / width;
      ink += 1;
      darkest = Math.min(darkest, data[at(place)] ?? 255);
      x0 = Math.min(x0, x);
      x1 = Math.max(x1, x + 1);
      y0 = Math.min(y0, y);
      y1 = Math.max(y1, y + 1);
      for (let ny = Math.max(0, y - 1); ny <= Math.min(height - 1, y + 1); ny += 1) {
        for (let nx = Math.max(0, x - 1); nx <= Math.min(width - 1, x + 1); nx += 1) {
          const next = ny * width + nx;
          if (seen[next] === 1 || (data[at(next)] ?? 255) >= limit) continue;
          seen[next] = 1;
          stack.push(next);
        }
      }
    }
    found.push({ x0: box.x0 + x0, y0: box.y0 + y0, x1: box.x0 + x1, y1: box.y0 + y1, ink, darkest });
  }
  return found;
}
