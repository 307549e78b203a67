import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { FORMS } from './forms.ts';
import { PHONE_SHOT, photograph } from './photograph.ts';
import { openProtocols } from './protocols.ts';
import { readBack } from './read-back.ts';
import { pdfOf } from './render.ts';

const protocols = openProtocols(join(import.meta.dirname, '../data/protocols-2016-2018.jsonl'));
const noBrowser = (): never => {
  throw new Error('these forms are printed without a browser');
};

/**
 * All eight forms at 300, 200 and 150 dpi are the bench's (`bench/photographs.ts`); these are one of a
 * kind each: dense print, two sheets on a page, a page that lies sideways, small print at the lowest resolution.
 */
describe('a phone picture (2 degrees, perspective, blur, uneven light, JPEG)', () => {
  it.each([
    { name: 'harbour', from: 2, to: 3, dpi: 300 },
    { name: 'lac', from: 0, to: 2, dpi: 150 },
    { name: 'typewriter', from: 5, to: 6, dpi: 200 },
    { name: 'bare', from: 9, to: 10, dpi: 150 },
  ])('of the form $name at $dpi dpi: at least 95 % of figures right, every other one in doubt', async (shot) => {
    const form = FORMS.find((one) => one.name === shot.name);
    expect(form).toBeDefined();
    if (form === undefined) return;
    const sheets = protocols.slice(shot.from, shot.to);
    const pdf = await pdfOf(sheets, form, noBrowser);
    const picture = await photograph(pdf, 1, { ...PHONE_SHOT, dpi: shot.dpi });
    const result = await readBack(new Uint8Array(picture), sheets, form);
    expect(result.silent).toEqual([]);
    expect(result.right / (result.right + result.doubted)).toBeGreaterThanOrEqual(0.95);
  });
}, 180_000);
