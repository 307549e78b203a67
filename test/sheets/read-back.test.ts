import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, describe, expect, it } from 'vitest';
import { startChromium } from './chromium.ts';
import { FORMS } from './forms.ts';
import { HELD_OUT } from './held-out.ts';
import { LATER } from './later-forms.ts';
import { type InventedEvent, inventedProtocols } from './invented.ts';
import { openProtocols, type SheetProtocol } from './protocols.ts';
import { readBack } from './read-back.ts';
import { pdfOf } from './render.ts';

let started: Promise<Browser> | null = null;
const browser = (): Promise<Browser> => (started ??= startChromium());
afterAll(async () => (await started)?.close());

/** Every 78th of the open protocols: all kinds of segments, struck-out elements among them. */
const open = openProtocols(join(import.meta.dirname, '../data/protocols-2016-2018.jsonl'));
const sample = open.filter((protocol, i) => i % 78 === 0 || protocol.id === 'c02-men-senior-free-09');

const events: readonly InventedEvent[] = [3, 4, 5, 7, 8, 9].map((judges, i) => ({
  season: '2023/24',
  category: i % 2 === 0 ? 'advanced novice women' : 'junior women',
  segment: i % 3 === 0 ? 'short' : 'free',
  judges,
  letters: true,
}));
const invented: readonly SheetProtocol[] = events.flatMap((event, i) => inventedProtocols(event, 2, i + 1));

describe('sheets of 2016/17, 2017/18 and invented ones of 2023/24 with 3 to 9 judges and letters', () => {
  it.each([...FORMS, HELD_OUT])(
    'of the form $name, printed by $producer, are read without a silent error',
    async (form) => {
      const protocols = [...sample, ...invented];
      const result = await readBack(new Uint8Array(await pdfOf(protocols, form, browser)), protocols, form);
      expect(result.silent).toEqual([]);
      expect(result.sheets).toBe(protocols.length);
      // Doubts are for what a sheet leaves open, not a way out.
      expect(result.doubted / (result.right + result.doubted)).toBeLessThan(0.02);
    },
    120_000,
  );

  it.each(LATER)(
    'of the form $name, whose words are hardly known, are read without a silent error',
    async (form) => {
      const protocols = [...sample, ...invented];
      const result = await readBack(new Uint8Array(await pdfOf(protocols, form, browser)), protocols, form);
      expect(result.silent).toEqual([]);
      expect(result.sheets).toBe(protocols.length);
      // Place, start number and category of most sheets can only be asked.
      expect(result.doubted / (result.right + result.doubted)).toBeLessThan(0.03);
    },
    120_000,
  );
});
