import type { Grey } from './grey.ts';
import type { Segmented } from './segment.ts';

/** A word's place on the strip. */
export interface StripPlace {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

export interface Strip {
  readonly picture: Grey;
  /** One place a run, in the order of the runs. */
  readonly places: readonly StripPlace[];
}

const MAX_WIDTH = 3000;

/**
 * The words of a sheet set anew as ordinary lines of text: same ink, even gaps, lines far enough apart.
 * Text recognition is made for prose; the wide gaps and narrow columns of a table mislead it.
 */
export function stripOf(picture: Grey, { size, runs }: Segmented): Strip {
  const gap = Math.round(0.8 * size);
  const pitch = Math.round(2.6 * size);
  const places: StripPlace[] = [];
  let x = gap;
  let row = 0;
  let line = -1;
  let width = 0;
  for (const run of runs) {
    const wide = Math.max(...run.pieces.map((piece) => piece.x1)) - (run.pieces[0]?.x0 ?? 0);
    if (run.line !== line || x + wide > MAX_WIDTH) {
      row += line === -1 ? 0 : 1;
      x = gap;
      line = run.line;
    }
    places.push({ x0: x, x1: x + wide, y0: row * pitch, y1: (row + 1) * pitch });
    x += wide + gap;
    width = Math.max(width, x);
  }
  return { picture: drawn(picture, runs, places, { width, height: (row + 1) * pitch, size }), places };
}

function drawn(
  from: Grey,
  runs: Segmented['runs'],
  places: readonly StripPlace[],
  sheet: { readonly width: number; readonly height: number; readonly size: number },
): Grey {
  const { width, height, size } = sheet;
  const data = new Uint8Array(width * height).fill(255);
  runs.forEach((run, i) => {
    const place = places[i];
    if (place === undefined) return;
    const left = run.pieces[0]?.x0 ?? 0;
    const top = Math.round(run.bottom - 1.8 * size);
    for (const piece of run.pieces) {
      for (let y = Math.max(0, piece.y0 - 2); y < Math.min(from.height, piece.y1 + 2); y += 1) {
        const to = place.y0 + y - top;
        if (to < 0 || to >= height) continue;
        for (let x = Math.max(0, piece.x0 - 2); x < Math.min(from.width, piece.x1 + 2); x += 1) {
          const at = to * width + place.x0 + x - left;
          data[at] = Math.min(data[at] ?? 255, from.data[y * from.width + x] ?? 255);
        }
      }
    }
  });
  return { data, width, height };
}
