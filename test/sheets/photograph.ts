import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import sharp from 'sharp';

/** How a printed page was photographed. */
export interface Shot {
  readonly dpi: number;
  /** Degrees clockwise. */
  readonly turn: number;
  /** Share of the width by which the far edge is narrower. */
  readonly perspective: number;
  /** Standard deviation in pixels at 150 dpi, 0 for none. */
  readonly blur: number;
  /** Share of light lost at the darkest corner. */
  readonly shade: number;
  /** JPEG quality, 1 to 100. */
  readonly quality: number;
}

export const PHONE_SHOT: Shot = { dpi: 300, turn: 2, perspective: 0.04, blur: 0.4, shade: 0.4, quality: 70 };

/** One page of a PDF as a photograph (JPEG): printed by poppler, laid on a table, lit from one side. */
export async function photograph(pdf: Uint8Array, page: number, shot: Shot): Promise<Buffer> {
  const { data, info } = await sharp(await pageImage(pdf, page, shot.dpi))
    .greyscale()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const taken = take({ data, width: info.width, height: info.height }, shot);
  const picture = sharp(taken.data, { raw: { width: taken.width, height: taken.height, channels: 1 } });
  const sigma = (shot.blur * shot.dpi) / 150;
  return (sigma >= 0.3 ? picture.blur(sigma) : picture).jpeg({ quality: shot.quality }).toBuffer();
}

async function pageImage(pdf: Uint8Array, page: number, dpi: number): Promise<Buffer> {
  const folder = await mkdtemp(join(tmpdir(), 'photo-'));
  try {
    await writeFile(join(folder, 'sheet.pdf'), pdf);
    const options = ['-r', String(dpi), '-f', String(page), '-l', String(page), '-png', '-gray', '-singlefile'];
    await promisify(execFile)('pdftoppm', [...options, join(folder, 'sheet.pdf'), join(folder, 'page')]);
    return await readFile(join(folder, 'page.png'));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

interface Raster {
  readonly data: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/** Looks up, for each pixel of the photograph, where on the paper it lies; beside the paper is the table. */
function take(paper: Raster, shot: Shot): Raster {
  const margin = Math.round(paper.width * (shot.turn === 0 && shot.perspective === 0 ? 0 : 0.05));
  const width = paper.width + 2 * margin;
  const height = paper.height + 2 * margin;
  const data = new Uint8Array(width * height);
  const angle = (-shot.turn * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const u = x - width / 2;
      const v = y - height / 2;
      const depth = 1 + (shot.perspective * v) / height;
      const px = (u * cos - v * sin) / depth + paper.width / 2;
      const py = (u * sin + v * cos) / depth + paper.height / 2;
      const light = 1 - (shot.shade * (x / width + y / height)) / 2;
      data[y * width + x] = sample(paper, px, py) * light;
    }
  }
  return { data, width, height };
}

const TABLE = 70;

function sample(paper: Raster, x: number, y: number): number {
  const left = Math.floor(x);
  const top = Math.floor(y);
  if (left < 0 || top < 0 || left >= paper.width - 1 || top >= paper.height - 1) return TABLE;
  const at = top * paper.width + left;
  const [fx, fy] = [x - left, y - top];
  const upper = (paper.data[at] ?? 0) * (1 - fx) + (paper.data[at + 1] ?? 0) * fx;
  const lower = (paper.data[at + paper.width] ?? 0) * (1 - fx) + (paper.data[at + paper.width + 1] ?? 0) * fx;
  return upper * (1 - fy) + lower * fy;
}
