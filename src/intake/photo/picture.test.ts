import { describe, expect, it } from 'vitest';
import type { Grey } from './grey.ts';
import { evenLight } from './light.ts';
import { findPaper } from './paper.ts';
import { withoutRules } from './ruled.ts';
import { skewOf } from './skew.ts';
import { flattened, rotated } from './warp.ts';

const picture = (width: number, height: number, at: (x: number, y: number) => number): Grey => {
  const data = new Uint8Array(width * height);
  for (let y = 0; y < height; y += 1) for (let x = 0; x < width; x += 1) data[y * width + x] = at(x, y);
  return { data, width, height };
};

/** Lines of print: dark dashes on white. */
const printed = picture(900, 700, (x, y) =>
  x > 80 && x < 820 && y > 60 && y < 640 && y % 30 < 10 && x % 14 < 8 ? 20 : 250,
);

const mean = ({ data, width }: Grey, x0: number, y0: number, x1: number, y1: number): number => {
  let sum = 0;
  for (let y = y0; y < y1; y += 1) for (let x = x0; x < x1; x += 1) sum += data[y * width + x] ?? 0;
  return sum / ((x1 - x0) * (y1 - y0));
};

const darkPixels = ({ data }: Grey): number => data.reduce((count, value) => count + (value < 128 ? 1 : 0), 0);

describe('a photographed sheet', () => {
  it.each([-3, -2, -0.5, 0, 1, 2.5])('turned by %f degrees is measured to a tenth', (degrees) => {
    const angle = (degrees * Math.PI) / 180;
    expect((skewOf(rotated(printed, angle)) * 180) / Math.PI).toBeCloseTo(degrees, 0.9);
  });

  it('on a dark table is found and laid flat', () => {
    // A sheet whose far edge is shorter: x runs from 100 + y/10 to 700 - y/10 turned upside down.
    const photo = picture(800, 800, (x, y) => {
      const inset = (800 - y) / 10;
      const inside = y > 80 && y < 720 && x > 60 + inset && x < 740 - inset;
      return inside ? 235 : 60;
    });
    const corners = findPaper(photo);
    expect(corners).not.toBeNull();
    if (corners === null) return;
    for (const [i, [x, y]] of [
      [132, 80],
      [668, 80],
      [732, 720],
      [68, 720],
    ].entries()) {
      expect(Math.abs((corners[i]?.x ?? 0) - (x ?? 0)), `corner ${i}`).toBeLessThan(14);
      expect(Math.abs((corners[i]?.y ?? 0) - (y ?? 0)), `corner ${i}`).toBeLessThan(14);
    }
    const flat = flattened(photo, corners);
    expect(mean(flat, 5, 5, flat.width - 5, flat.height - 5)).toBeGreaterThan(225);
  });

  it('that fills the picture is taken as it is', () => {
    expect(findPaper(printed)).toBeNull();
  });

  it('lit from one side has the same paper everywhere afterwards', () => {
    const shaded = picture(900, 700, (x, y) => (printed.data[y * 900 + x] ?? 0) * (1 - (0.6 * x) / 900));
    const lit = evenLight(shaded);
    const [left, right] = [mean(lit, 20, 5, 60, 50), mean(lit, 840, 5, 880, 50)];
    expect(Math.abs(left - right)).toBeLessThan(6);
    expect(left).toBeGreaterThan(230);
  });

  it('loses its ruled lines and keeps its print', () => {
    const ruled = picture(900, 700, (x, y) => (y === 45 || x === 70 ? 0 : (printed.data[y * 900 + x] ?? 0)));
    expect(darkPixels(withoutRules(ruled))).toBe(darkPixels(printed));
    expect(darkPixels(ruled)).toBeGreaterThan(darkPixels(printed));
    expect(mean(withoutRules(printed), 80, 60, 820, 640)).toBeCloseTo(mean(printed, 80, 60, 820, 640), 3);
  });
});
