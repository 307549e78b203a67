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

describe('a phone picture (2 degrees, perspective, blur, uneven light, JPEG, 300 dpi)', () => {
  it.each([
    ['harbour', [protocols[2]]],
    ['lac', [protocols[0], protocols[1]]],
  ])('of the form %s: at least 95 %% of figures right, every other one in doubt', async (name, sheets) => {
    const form = FORMS.find((one) => one.name === name);
    const shown = sheets.filter((one) => one !== undefined);
    expect(form).toBeDefined();
    if (form === undefined) return;
    const pdf = await pdfOf(shown, form, noBrowser);
    const result = await readBack(new Uint8Array(await photograph(pdf, 1, PHONE_SHOT)), shown, form);
    expect(result.silent).toEqual([]);
    expect(result.right / (result.right + result.doubted)).toBeGreaterThanOrEqual(0.95);
  });
});
