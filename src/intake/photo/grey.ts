/** A grey picture, one byte a pixel from black 0 to white 255, row by row from the top. */
export interface Grey {
  readonly data: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/** Value between pixels, by the four neighbours; `outside` beyond the picture. */
export function sampleAt(picture: Grey, x: number, y: number, outside: number): number {
  const left = Math.floor(x);
  const top = Math.floor(y);
  if (left < 0 || top < 0 || left >= picture.width - 1 || top >= picture.height - 1) return outside;
  const { data, width } = picture;
  const at = top * width + left;
  const fx = x - left;
  const fy = y - top;
  const upper = (data[at] ?? 0) * (1 - fx) + (data[at + 1] ?? 0) * fx;
  const lower = (data[at + width] ?? 0) * (1 - fx) + (data[at + width + 1] ?? 0) * fx;
  return upper * (1 - fy) + lower * fy;
}

/**
 * As `sampleAt`, by the sixteen neighbours (a cubic through the nearest, slightly overshooting): small print
 * that is enlarged keeps its edges. Near the edge of the picture `outside` is mixed in.
 */
export function sharpSampleAt(picture: Grey, x: number, y: number, outside: number): number {
  const left = Math.floor(x);
  const top = Math.floor(y);
  if (left < 1 || top < 1 || left >= picture.width - 2 || top >= picture.height - 2) {
    return sampleAt(picture, x, y, outside);
  }
  const { data, width } = picture;
  const fx = x - left;
  const fy = y - top;
  const a = before(fx);
  const b = beside(fx);
  const c = beside(1 - fx);
  const d = before(1 - fx);
  let value = 0;
  for (let i = 0, at = (top - 1) * width + left - 1; i < 4; i += 1, at += width) {
    const row = a * (data[at] ?? 0) + b * (data[at + 1] ?? 0) + c * (data[at + 2] ?? 0) + d * (data[at + 3] ?? 0);
    value += row * (i === 0 ? before(fy) : i === 1 ? beside(fy) : i === 2 ? beside(1 - fy) : before(1 - fy));
  }
  return Math.min(255, Math.max(0, value));
}

/** Weights of Catmull and Rom's cubic at a share of the way: of the neighbour, and of the one beyond it. */
const beside = (t: number): number => 1 + t * t * (1.5 * t - 2.5);
const before = (t: number): number => t * (-0.5 + t * (1 - 0.5 * t));

/** Half as wide and high: the mean of four. */
export function halved(picture: Grey): Grey {
  const width = picture.width >> 1;
  const height = picture.height >> 1;
  const data = new Uint8Array(width * height);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const at = 2 * y * picture.width + 2 * x;
      const below = at + picture.width;
      const sum =
        (picture.data[at] ?? 0) +
        (picture.data[at + 1] ?? 0) +
        (picture.data[below] ?? 0) +
        (picture.data[below + 1] ?? 0);
      data[y * width + x] = sum / 4;
    }
  }
  return { data, width, height };
}

/** The picture in blocks of `size` pixels, each standing for its brightest pixel (paper between print). */
export function brightBlocks(picture: Grey, size: number): Grey {
  const width = Math.max(1, Math.ceil(picture.width / size));
  const height = Math.max(1, Math.ceil(picture.height / size));
  const data = new Uint8Array(width * height);
  for (let y = 0; y < picture.height; y += 1) {
    const row = Math.floor(y / size) * width;
    for (let x = 0; x < picture.width; x += 1) {
      const at = row + Math.floor(x / size);
      const value = picture.data[y * picture.width + x] ?? 0;
      if (value > (data[at] ?? 0)) data[at] = value;
    }
  }
  return { data, width, height };
}

/** Mean over a square of `2 * radius + 1` pixels, by running sums. */
export function boxBlur(picture: Grey, radius: number): Grey {
  return blurRows(turned(blurRows(turned(picture), radius)), radius);
}

function blurRows(picture: Grey, radius: number): Grey {
  const { width, height, data } = picture;
  const out = new Uint8Array(width * height);
  for (let y = 0; y < height; y += 1) {
    const row = y * width;
    let sum = 0;
    let count = 0;
    for (let x = -radius; x < width; x += 1) {
      const entering = x + radius;
      if (entering < width) {
        sum += data[row + entering] ?? 0;
        count += 1;
      }
      const leaving = x - radius - 1;
      if (leaving >= 0) {
        sum -= data[row + leaving] ?? 0;
        count -= 1;
      }
      if (x >= 0) out[row + x] = sum / count;
    }
  }
  return { data: out, width, height };
}

function turned(picture: Grey): Grey {
  const { width, height, data } = picture;
  const out = new Uint8Array(width * height);
  for (let y = 0; y < height; y += 1) for (let x = 0; x < width; x += 1) out[x * height + y] = data[y * width + x] ?? 0;
  return { data: out, width: height, height: width };
}
