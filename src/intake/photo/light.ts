import { boxBlur, brightBlocks, type Grey, sampleAt } from './grey.ts';

const BLOCK = 16;
const PAPER = 245;

/**
 * Evens out the light: every pixel is measured against the paper around it, so that a shadow over one
 * half of the sheet disappears and print keeps its contrast.
 */
export function evenLight(picture: Grey): Grey {
  const paper = boxBlur(brightBlocks(picture, BLOCK), 2);
  const data = new Uint8Array(picture.data.length);
  for (let y = 0; y < picture.height; y += 1) {
    for (let x = 0; x < picture.width; x += 1) {
      const bx = Math.min(Math.max((x + 0.5) / BLOCK - 0.5, 0), paper.width - 1.001);
      const by = Math.min(Math.max((y + 0.5) / BLOCK - 0.5, 0), paper.height - 1.001);
      const at = y * picture.width + x;
      const around = Math.max(sampleAt(paper, bx, by, 255), 24);
      data[at] = Math.min(255, ((picture.data[at] ?? 0) * PAPER) / around);
    }
  }
  return { data, width: picture.width, height: picture.height };
}
