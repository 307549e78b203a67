import { type Box, type Component, heightOf, widthOf } from './components.ts';
import type { Grey } from './grey.ts';

/** One character of a word as ink: its bounds, its place on the line, its shape. */
export interface Glyph {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  /** A dot, a stroke, a stroke that stands on a dot, or a letter that has to be told by its shape. */
  readonly kind: 'dot' | 'stroke' | 'bang' | 'shape';
  readonly shape: Float32Array;
}

const COLUMNS = 10;
const ROWS = 14;

/**
 * The glyphs of one word from left to right. Pieces of ink above one another (the dots of `i`, `:`) are
 * one glyph. `size` is the height of a figure in this print, `bottom`
 * the line on which figures stand.
 */
export function glyphsOf(picture: Grey, pieces: readonly Component[], size: number, bottom: number): Glyph[] {
  const stacked: Component[][] = [];
  for (const piece of [...pieces].sort((a, b) => a.x0 - b.x0)) {
    const last = stacked.at(-1);
    const before = last === undefined ? null : last.reduce(union);
    if (before !== null && overlap(before, piece) > 0.5 * Math.min(before.x1 - before.x0, piece.x1 - piece.x0)) {
      last?.push(piece);
    } else stacked.push([piece]);
  }
  return stacked.map((parts) => {
    const piece = parts.reduce(union);
    const { x0, y0, x1, y1 } = piece;
    const kind = isBang(parts, size) ? 'bang' : kindOf(piece, size, bottom);
    return { x0, y0, x1, y1, kind, shape: shapeOf(picture, piece, size) };
  });
}

/** An exclamation mark: a narrow stroke that stands on a dot. */
function isBang(parts: readonly Component[], size: number): boolean {
  const [upper, lower, ...rest] = [...parts].sort((a, b) => a.y0 - b.y0);
  if (upper === undefined || lower === undefined || rest.length > 0) return false;
  const [height, width] = [heightOf(upper), widthOf(upper)];
  const dot = Math.max(heightOf(lower), widthOf(lower));
  return lower.y0 >= upper.y1 - 1 && height > 0.45 * size && width < 0.35 * size && dot < 0.3 * size;
}

/**
 * Glyphs that touch are one piece of ink. Cuts the widest of them where the ink is thinnest near even
 * parts, until there are as many as recognition saw; null where that is not possible.
 */
export function splitGlyphs(picture: Grey, glyphs: readonly Glyph[], count: number, size: number): Glyph[] | null {
  const parts = [...glyphs];
  while (parts.length < count) {
    const widest = parts.reduce((best, glyph, i) => (widthOf(glyph) > widthOf(parts[best] ?? glyph) ? i : best), 0);
    const glyph = parts[widest];
    if (glyph === undefined || widthOf(glyph) < 0.85 * size) return null;
    const cut = thinnestColumn(picture, glyph);
    const halves = [
      { ...glyph, x1: cut },
      { ...glyph, x0: cut },
    ].map((half) => ({ ...half, kind: 'shape' as const, shape: shapeOf(picture, half, size) }));
    parts.splice(widest, 1, ...halves);
  }
  return parts;
}

/** The column with least ink in the middle third of a glyph. */
function thinnestColumn(picture: Grey, glyph: Glyph): number {
  const width = widthOf(glyph);
  let best = glyph.x0 + Math.round(width / 2);
  let least = Infinity;
  for (let x = glyph.x0 + Math.ceil(width * 0.35); x <= glyph.x0 + Math.floor(width * 0.65); x += 1) {
    const ink = darkness(picture, x, glyph.y0, x + 1, glyph.y1) + Math.abs(x - glyph.x0 - width / 2) / (20 * width);
    if (ink < least) [best, least] = [x, ink];
  }
  return best;
}

const overlap = (a: Component, b: Component): number => Math.min(a.x1, b.x1) - Math.max(a.x0, b.x0);
const union = (a: Component, b: Component): Component => ({
  x0: Math.min(a.x0, b.x0),
  y0: Math.min(a.y0, b.y0),
  x1: Math.max(a.x1, b.x1),
  y1: Math.max(a.y1, b.y1),
  ink: a.ink + b.ink,
  darkest: Math.min(a.darkest, b.darkest),
});

function kindOf(piece: Component, size: number, bottom: number): Glyph['kind'] {
  const width = piece.x1 - piece.x0;
  const height = piece.y1 - piece.y0;
  if (height < 0.5 * size && width < 0.4 * size && piece.y1 > bottom - 0.18 * size) return 'dot';
  if (height < 0.28 * size && width > 1.4 * height && width < 1.2 * size) return 'stroke';
  return 'shape';
}

/** Darkness on a small grid, stretched to fill it, with its size against a figure's as further numbers (`o` and `O` differ in that alone). */
function shapeOf(picture: Grey, piece: Box, size: number): Float32Array {
  const shape = new Float32Array(COLUMNS * ROWS + 2);
  const width = piece.x1 - piece.x0;
  const height = piece.y1 - piece.y0;
  for (let row = 0; row < ROWS; row += 1) {
    for (let column = 0; column < COLUMNS; column += 1) {
      shape[row * COLUMNS + column] = darkness(
        picture,
        piece.x0 + (column * width) / COLUMNS,
        piece.y0 + (row * height) / ROWS,
        piece.x0 + ((column + 1) * width) / COLUMNS,
        piece.y0 + ((row + 1) * height) / ROWS,
      );
    }
  }
  shape[COLUMNS * ROWS] = (6 * width) / size;
  shape[COLUMNS * ROWS + 1] = (10 * height) / size;
  return shape;
}

/** Mean darkness, 0 to 1, over the pixels whose middle lies in a box (at least one pixel). */
function darkness(picture: Grey, x0: number, y0: number, x1: number, y1: number): number {
  const left = Math.floor(x0);
  const top = Math.floor(y0);
  const right = Math.max(left + 1, Math.round(x1));
  const lower = Math.max(top + 1, Math.round(y1));
  let sum = 0;
  for (let y = top; y < lower; y += 1)
    for (let x = left; x < right; x += 1) sum += picture.data[y * picture.width + x] ?? 255;
  return 1 - sum / (255 * (right - left) * (lower - top));
}

/** Mean squared difference of two shapes; the same print on one page stays below about 0.03. */
export function shapeDistance(a: Float32Array, b: Float32Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += ((a[i] ?? 0) - (b[i] ?? 0)) ** 2;
  return sum / (COLUMNS * ROWS);
}
