import { boxBlur, type Grey } from './grey.ts';

/** Pixels of a block that has paper in it surely, beside print of an ordinary size. */
const BLOCK = 16;
const PAPER = 245;
/** Of the pixels of a block, brightest first: the one that is paper whatever is printed there and however grainy it is. */
const PAPER_SHARE = 0.3;
const DARKEST = 24;

/**
 * Evens out the light: every pixel is measured against the paper around it, so that a shadow over one
 * half of the sheet disappears and print keeps its contrast. `scale` says by how much print is enlarged.
 */
export function evenLight(picture: Grey, scale = 1): Grey {
  const block = Math.max(BLOCK / 2, Math.round(BLOCK * scale));
  const paper = boxBlur(paperBlocks(picture, block), 2);
  const { width, height } = picture;
  const data = new Uint8Array(picture.data.length);
  const columns = lanes(width, block, paper.width);
  const rows = lanes(height, block, paper.height);
  const around = new Float32Array(width);
  for (let y = 0; y < height; y += 1) {
    const upper = (rows.low[y] ?? 0) * paper.width;
    const lower = (rows.high[y] ?? 0) * paper.width;
    const down = rows.share[y] ?? 0;
    for (let x = 0; x < width; x += 1) {
      const left = columns.low[x] ?? 0;
      const right = columns.high[x] ?? 0;
      const across = columns.share[x] ?? 0;
      const above = (paper.data[upper + left] ?? 0) * (1 - across) + (paper.data[upper + right] ?? 0) * across;
      const below = (paper.data[lower + left] ?? 0) * (1 - across) + (paper.data[lower + right] ?? 0) * across;
      around[x] = above * (1 - down) + below * down;
    }
    for (let x = 0, at = y * width; x < width; x += 1, at += 1)
      data[at] = Math.min(255, ((picture.data[at] ?? 0) * PAPER) / Math.max(around[x] ?? 0, DARKEST));
  }
  return { data, width, height };
}

/** For every pixel of a side: the blocks before and after it, and how far it lies towards the latter. */
function lanes(
  length: number,
  block: number,
  blocks: number,
): { low: Int32Array; high: Int32Array; share: Float32Array } {
  const low = new Int32Array(length);
  const high = new Int32Array(length);
  const share = new Float32Array(length);
  for (let i = 0; i < length; i += 1) {
    const place = Math.min(Math.max((i + 0.5) / block - 0.5, 0), blocks - 1);
    low[i] = Math.floor(place);
    high[i] = Math.min(blocks - 1, Math.floor(place) + 1);
    share[i] = place - Math.floor(place);
  }
  return { low, high, share };
}

/** The picture in blocks, each standing for its paper. */
function paperBlocks(picture: Grey, size: number): Grey {
  const width = Math.ceil(picture.width / size);
  const height = Math.ceil(picture.height / size);
  const data = new Uint8Array(width * height);
  const counts = new Uint32Array(256);
  for (let row = 0; row < height; row += 1) {
    for (let column = 0; column < width; column += 1) {
      counts.fill(0);
      let all = 0;
      for (let y = row * size; y < Math.min(picture.height, (row + 1) * size); y += 2) {
        for (let x = column * size; x < Math.min(picture.width, (column + 1) * size); x += 2) {
          const value = picture.data[y * picture.width + x] ?? 0;
          counts[value] = (counts[value] ?? 0) + 1;
          all += 1;
        }
      }
      data[row * width + column] = brightest(counts, PAPER_SHARE * all);
    }
  }
  return { data, width, height };
}

/** The value that `share` of the counted ones reach. */
function brightest(counts: Uint32Array, share: number): number {
  let sum = 0;
  for (let value = 255; value > 0; value -= 1) {
    sum += counts[value] ?? 0;
    if (sum >= share) return value;
  }
  return 0;
}
