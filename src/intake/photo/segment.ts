import { type Component, heightOf, widthOf } from './components.ts';

/** The ink of one word, left to right, and the band (top and bottom of a figure) of its line there. */
export interface InkRun {
  readonly pieces: readonly Component[];
  readonly line: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Segmented {
  /** Height of a figure in pixels. */
  readonly size: number;
  readonly runs: readonly InkRun[];
}

/** What is left of a faint rule is narrower, in heights of a figure, than the thinnest stem. */
const HAIRLINE = 0.09;

/** Cuts the ink of a page into lines and words by nothing but its own gaps. */
export function segmented(components: readonly Component[]): Segmented {
  const size = figureHeight(components);
  const letters = components.filter(
    (piece) =>
      heightOf(piece) >= 0.5 * size &&
      heightOf(piece) <= 2.4 * size &&
      widthOf(piece) <= 8 * size &&
      widthOf(piece) > HAIRLINE * size,
  );
  const lines = linesOf(letters, size);
  const small = components.filter((piece) => heightOf(piece) < 0.5 * size && widthOf(piece) < 1.6 * size);
  for (const piece of small) nearestLine(lines, piece, size)?.pieces.push(piece);
  const limit = wordGap(lines, size);
  const runs = lines
    .sort((a, b) => a.level - b.level)
    .flatMap((line, i) =>
      wordsOf(line, limit, size).map((pieces) => ({ pieces, line: i, ...bandAt(line, pieces[0]?.x0 ?? 0, size) })),
    );
  return { size, runs };
}

/** Most letters of a sheet are figures: the height at which most ink stands, specks and dots left aside. */
export function figureHeight(components: readonly Component[]): number {
  const counts = new Map<number, number>();
  for (const piece of components) {
    const height = heightOf(piece);
    if (height < 8 || height > 200 || widthOf(piece) > 2 * height) continue;
    for (const near of [height - 1, height, height + 1]) counts.set(near, (counts.get(near) ?? 0) + 1);
  }
  let best = 24;
  let most = 0;
  for (const [height, count] of counts) if (count > most) [best, most] = [height, count];
  return best;
}

interface InkLine {
  readonly pieces: Component[];
  /** Middle and bottom of its latest letters, from which the next is looked for. */
  middle: number;
  /** Mean bottom and slope of the letters that stand on the line. */
  level: number;
  slope: number;
}

/** Follows each line from left to right, so that a slight slope or bend does no harm. */
function linesOf(letters: readonly Component[], size: number): InkLine[] {
  const lines: InkLine[] = [];
  for (const piece of [...letters].sort((a, b) => a.x0 - b.x0)) {
    const middle = (piece.y0 + piece.y1) / 2;
    let best: InkLine | null = null;
    for (const line of lines) {
      if (
        Math.abs(line.middle - middle) < 0.5 * size &&
        (best === null || Math.abs(line.middle - middle) < Math.abs(best.middle - middle))
      )
        best = line;
    }
    if (best === null) lines.push({ pieces: [piece], middle, level: piece.y1, slope: 0 });
    else {
      best.pieces.push(piece);
      best.middle = 0.7 * best.middle + 0.3 * middle;
    }
  }
  for (const line of lines) fit(line, size);
  return lines;
}

/** A straight line through the bottoms of the letters that are as high as a figure. */
function fit(line: InkLine, size: number): void {
  const standing = line.pieces.filter((piece) => Math.abs(heightOf(piece) - size) < 0.25 * size);
  const base = standing.length >= 2 ? standing : line.pieces;
  const n = base.length;
  const mx = base.reduce((sum, piece) => sum + piece.x0, 0) / n;
  const my = base.reduce((sum, piece) => sum + piece.y1, 0) / n;
  const sxx = base.reduce((sum, piece) => sum + (piece.x0 - mx) ** 2, 0);
  const sxy = base.reduce((sum, piece) => sum + (piece.x0 - mx) * (piece.y1 - my), 0);
  line.slope = sxx < 100 * size * size ? 0 : sxy / sxx;
  line.level = my - line.slope * mx;
}

function bandAt(line: InkLine, x: number, size: number): { top: number; bottom: number } {
  const bottom = line.level + line.slope * x;
  return { top: bottom - size, bottom };
}

/** Dots, strokes and commas belong to the line in whose band they lie, or just under or over it. */
function nearestLine(lines: readonly InkLine[], piece: Component, size: number): InkLine | null {
  let best: InkLine | null = null;
  let least = 0.45 * size;
  const middle = (piece.y0 + piece.y1) / 2;
  for (const line of lines) {
    const { top, bottom } = bandAt(line, piece.x0, size);
    const away = Math.max(top - middle, middle - bottom, 0);
    if (away < least) [best, least] = [line, away];
  }
  return best;
}

/** Between words, in figure heights, where the gaps themselves do not show it. */
const USUAL_GAP = 0.42;

/**
 * Gaps between letters of a word are small, gaps between words larger. A width that does not occur at all
 * between the two parts them, however narrow; else the first width that hardly occurs.
 */
function wordGap(lines: readonly InkLine[], size: number): number {
  const bins = new Array<number>(40).fill(0);
  for (const line of lines) {
    line.pieces.sort((a, b) => a.x0 - b.x0);
    eachGap(line.pieces, (gap) => {
      const bin = Math.round((gap / size) * 20);
      if (bin >= 0 && bin < bins.length) bins[bin] = (bins[bin] ?? 0) + 1;
    });
  }
  const smooth = (bin: number): number => ((bins[bin - 1] ?? 0) + 2 * (bins[bin] ?? 0) + (bins[bin + 1] ?? 0)) / 4;
  let within = bins.slice(0, 8).reduce((sum, count) => sum + count, 0);
  const none = [5, 6, 7].filter((bin) => smooth(bin) < 0.005 * within);
  const [first, last] = [none[0], none.at(-1)];
  if (first !== undefined && last !== undefined) return ((first + last) / 40) * size;
  for (let bin = 8; bin <= 14; bin += 1) {
    within += bins[bin] ?? 0;
    if (smooth(bin) < 0.025 * within) return (bin / 20) * size;
  }
  return USUAL_GAP * size;
}

function eachGap(pieces: readonly Component[], take: (gap: number, i: number) => void): void {
  let right = -Infinity;
  pieces.forEach((piece, i) => {
    if (i > 0) take(piece.x0 - right, i);
    right = Math.max(right, piece.x1);
  });
}

/** A dot or comma between figures belongs to both, however narrow the figures are; a lone dot is no word. */
function wordsOf(line: InkLine, limit: number, size: number): Component[][] {
  const words: Component[][] = [];
  const cuts = new Set<number>();
  eachGap(line.pieces, (gap, i) => {
    const besideDot = isPoint(line, line.pieces[i], size) || isPoint(line, line.pieces[i - 1], size);
    if (gap > (besideDot ? 1.5 * limit : limit)) cuts.add(i);
  });
  line.pieces.forEach((piece, i) => {
    const word = words.at(-1);
    if (word === undefined || cuts.has(i)) words.push([piece]);
    else word.push(piece);
  });
  return words.filter((word) => !word.every((piece) => isDot(piece, size)));
}

const isDot = (piece: Component | undefined, size: number): boolean =>
  piece !== undefined && heightOf(piece) < 0.35 * size && widthOf(piece) < 0.35 * size;

/** A decimal point or comma: small, at the foot of the line. */
function isPoint(line: InkLine, piece: Component | undefined, size: number): boolean {
  if (piece === undefined || heightOf(piece) > 0.55 * size || widthOf(piece) > 0.4 * size) return false;
  return piece.y0 > bandAt(line, piece.x0, size).bottom - 0.3 * size;
}
