import { describe, expect, it } from 'vitest';
import { componentsOf, unjoined } from './components.ts';
import type { Grey } from './grey.ts';
import { evenLight } from './light.ts';
import { findPaper } from './paper.ts';
import { withoutRules } from './ruled.ts';
import { skewOf } from './skew.ts';
import { turnToUpright } from './upright.ts';
import { flatView, quarterTurned, shown, turnedView, wholeOf } from './warp.ts';

const rotated = (from: Grey, angle: number): Grey => shown(from, turnedView(wholeOf(from), angle));

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
    const view = flatView(corners);
    expect(view).not.toBeNull();
    if (view === null) return;
    const flat = shown(photo, view);
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

  it.each([0, 1, 2, 3] as const)(
    'lying %i quarter turns away is told by its figures and its decimal points',
    (away) => {
      // Decimals: a figure, a dot at its foot, two figures; 12 pixels high, 7 wide.
      const decimals = picture(900, 700, (x, y) => {
        const [column, row] = [x % 60, y % 30];
        if (x < 60 || x > 840 || y < 60 || y > 630) return 250;
        const figure = row < 12 && (column < 7 || (column >= 13 && column < 20) || (column >= 22 && column < 29));
        return figure || (row >= 10 && row < 12 && column >= 9 && column < 11) ? 20 : 250;
      });
      const lying = shown(decimals, quarterTurned(wholeOf(decimals), away));
      const { quarters, sure } = turnToUpright(lying);
      expect([quarters, sure]).toEqual([(4 - away) % 4, true]);
      const upright = shown(lying, quarterTurned(wholeOf(lying), quarters));
      expect([upright.width, upright.height]).toEqual([900, 700]);
      // The edge pixels beyond are white; all else is where it was.
      expect(mean(upright, 2, 2, 898, 698)).toBeCloseTo(mean(decimals, 2, 2, 898, 698), 6);
      expect(upright.data[100 * 900 + 122]).toBe(decimals.data[100 * 900 + 122]);
    },
  );

  it('takes apart what only grey joins, and leaves letters whole', () => {
    const dark = (x: number, y: number, x0: number, y0: number, x1: number, y1: number): boolean =>
      x >= x0 && x < x1 && y >= y0 && y < y1;
    const joined = picture(200, 100, (x, y) => {
      // A minus and a figure, grey between them; a letter of two stems and a bar.
      if (dark(x, y, 20, 44, 40, 50) || dark(x, y, 43, 30, 63, 66)) return 20;
      if (dark(x, y, 40, 44, 43, 50)) return 180;
      if (dark(x, y, 100, 30, 104, 66) || dark(x, y, 132, 30, 136, 66)) return 20;
      return dark(x, y, 104, 46, 132, 50) ? 150 : 250;
    });
    const whole = componentsOf(joined);
    expect(whole).toHaveLength(2);
    const boxes = unjoined(joined, whole, 36).map(({ x0, x1 }) => [x0, x1]);
    expect(boxes.sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0))).toEqual([
      [20, 41],
      [42, 63],
      [100, 136],
    ]);
  });
});
