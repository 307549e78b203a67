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
    { name: 'harbour', from: 2, to: 3 },
    { name: 'lac', from: 0, to: 2 },
  ])('of the form $name: at least 95 % of figures right, every other one in doubt', async ({ name, from, to }) => {
    const form = FORMS.find((one) => one.name === name);
    expect(form).toBeDefined();
    if (form === undefined) return;
    const sheets = protocols.slice(from, to);
    const pdf = await pdfOf(sheets, form, noBrowser);
    const result = await readBack(new Uint8Array(await photograph(pdf, 1, PHONE_SHOT)), sheets, form);
    expect(result.silent).toEqual([]);
    expect(result.right / (result.right + result.doubted)).toBeGreaterThanOrEqual(0.95);
  });
}, 180_000);
