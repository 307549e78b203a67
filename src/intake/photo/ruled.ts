import type { Grey } from './grey.ts';

const INK = 170;

/**
 * Takes ruled lines of tables out: dark runs longer than any letter is wide or high. Text
 * recognition takes them for letters, or joins cells along them.
 */
export function withoutRules(picture: Grey): Grey {
  const { width, height } = picture;
  const data = Uint8Array.from(picture.data);
  const longest = Math.max(width, height);
  const across = Math.round(longest / 80);
  const upright = Math.round(longest / 40);
  for (let y = 0; y < height; y += 1) eraseRuns(picture, data, y * width, 1, width, across, width);
  for (let x = 0; x < width; x += 1) eraseRuns(picture, data, x, width, height, upright, 1);
  return { data, width, height };
}

/** Whitens the runs of one row or column that are longer than the limit, with two pixels on either side. */
function eraseRuns(
  from: Grey,
  to: Uint8Array,
  start: number,
  step: number,
  count: number,
  longest: number,
  aside: number,
): void {
  let run = 0;
  for (let i = 0; i <= count; i += 1) {
    if (i < count && (from.data[start + i * step] ?? 255) < INK) {
      run += 1;
      continue;
    }
    if (run > longest) {
      for (let k = i - run; k < i; k += 1) {
        const at = start + k * step;
        for (const place of [at - 2 * aside, at - aside, at, at + aside, at + 2 * aside])
          if (place >= 0 && place < to.length) to[place] = 255;
      }
    }
    run = 0;
  }
}
