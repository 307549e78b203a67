/**
 * Photographs of sheets, measured. `npm run bench photographs`, or
 * `npx tsx bench/photographs.ts FORM…`: every sheet form printed, photographed
 * at three resolutions in several ways (turn, perspective, blur, shadow, JPEG loss), read back and held against
 * what was printed. The bar: 95 % of the figures right, none wrong without a doubt.
 * Needs Chromium, Ghostscript and poppler.
 */
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { startChromium } from '../test/sheets/chromium.ts';
import { FORMS } from '../test/sheets/forms.ts';
import { HELD_OUT } from '../test/sheets/held-out.ts';
import { LATER } from '../test/sheets/later-forms.ts';
import { PHONE_SHOT, photograph, type Shot } from '../test/sheets/photograph.ts';
import { openProtocols } from '../test/sheets/protocols.ts';
import { readBack } from '../test/sheets/read-back.ts';
import { pdfOf } from '../test/sheets/render.ts';

const protocols = openProtocols(join(import.meta.dirname, '../test/data/protocols-2016-2018.jsonl'));

/** Ways to take a picture; each form meets each resolution in each of them, with another sheet. */
const SHOTS: readonly Omit<Shot, 'dpi'>[] = [
  PHONE_SHOT,
  { turn: -2, perspective: 0.06, blur: 0.3, shade: 0.5, quality: 80 },
];
const DPI = [300, 200, 150];

const started: Promise<Browser>[] = [];
function browser(): Promise<Browser> {
  const running = started[0] ?? startChromium();
  started[0] = running;
  return running;
}

const wanted = process.argv.slice(2);
const forms = [...FORMS, HELD_OUT, ...LATER].filter(({ name }) => wanted.length === 0 || wanted.includes(name));
const all = { right: 0, doubted: 0, silent: 0 };
try {
  for (const [i, form] of forms.entries()) {
    for (const dpi of DPI) {
      const sum = { right: 0, doubted: 0, silent: [] as string[], lost: 0, ms: 0 };
      for (const [k, shot] of SHOTS.entries()) {
        const sheets = [protocols[(100 + 37 * i + 211 * k) % protocols.length]].filter((one) => one !== undefined);
        const picture = await photograph(await pdfOf(sheets, form, browser), 1, { ...shot, dpi });
        const start = performance.now();
        const result = await readBack(new Uint8Array(picture), sheets, form);
        sum.ms += performance.now() - start;
        sum.right += result.right;
        sum.doubted += result.doubted;
        sum.silent.push(...result.silent);
        sum.lost += sheets.length - result.sheets;
      }
      const figures = sum.right + sum.doubted + sum.silent.length;
      console.log(
        JSON.stringify({
          bench: 'photographs',
          form: form.name,
          dpi,
          figures,
          share: Math.round((1000 * sum.right) / figures) / 1000,
          silent: sum.silent.length,
          lostSheets: sum.lost,
          first: sum.silent.slice(0, 3),
          msEach: Math.round(sum.ms / SHOTS.length),
        }),
      );
      all.right += sum.right;
      all.doubted += sum.doubted;
      all.silent += sum.silent.length;
    }
  }
  const share = Math.round((1000 * all.right) / (all.right + all.doubted + all.silent)) / 1000;
  console.log(JSON.stringify({ bench: 'photographs', forms: forms.length, ...all, share }));
} finally {
  for (const running of started) await (await running).close();
}
