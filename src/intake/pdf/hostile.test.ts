import { describe, expect, it } from 'vitest';
import type { Problem, Result } from '../../notation/index.ts';
import { bomb, formTower, HOSTILE, manyPages, onePage, wordBomb } from '../../../test/sheets/hostile.ts';
import { loadPdfLibrary, pdfTables } from './load.ts';
import { type GuardedPdfOptions, readPdfPages } from './node.ts';
import { type PdfPage, pagesOfPdf } from './pages.ts';

interface Outcome {
  readonly pages: number;
  readonly texts: readonly string[];
  readonly problems: readonly Problem[];
  /** Most memory the process took meanwhile, beyond its start. */
  readonly peak: number;
}

/** In a thread of its own, as the product does. */
const readGuarded = (bytes: Uint8Array, options: GuardedPdfOptions = {}): Promise<Outcome> =>
  gather(readPdfPages(bytes, { maxSilence: 3000, pictures: false, ...options }));

/** In this thread: for files that only lie, which need nobody to stop them. */
const readPlainly = async (bytes: Uint8Array): Promise<Outcome> =>
  gather(pagesOfPdf(await loadPdfLibrary(), bytes, { tables: pdfTables() }));

async function gather(source: AsyncIterable<Result<PdfPage>>): Promise<Outcome> {
  const start = process.memoryUsage.rss();
  let peak = 0;
  const watch = setInterval(() => (peak = Math.max(peak, process.memoryUsage.rss() - start)), 10);
  const texts: string[] = [];
  const problems: Problem[] = [];
  let pages = 0;
  for await (const page of source) {
    if (!page.ok) problems.push(page.error);
    else {
      pages += 1;
      texts.push(...page.value.tokens.map((token) => token.text));
      if (page.value.trouble !== null) problems.push(page.value.trouble);
    }
  }
  clearInterval(watch);
  return { pages, texts, problems, peak };
}

const codes = (outcome: Outcome): string[] => outcome.problems.map((problem) => problem.code);
const WORDS = ['1', '3Lz+3T', '10.10', '1.00'];

describe('a hostile PDF ends in a located problem and leaves the process alive', () => {
  it('reads the plain page that the others are made from', async () => {
    expect((await readGuarded(onePage())).texts).toEqual(WORDS);
  });

  it.each([
    'script',
    'declaredLength',
    'hugePaper',
    'nestedObject',
    'lyingCount',
    'fontLoop',
    'hugeTable',
    'hugeIndex',
    'deepTree',
  ] as const)('reads on where only the surroundings lie: %s', async (name) => {
    const outcome = await readPlainly(HOSTILE[name]());
    expect(outcome.texts).toEqual(WORDS);
    expect(globalThis).not.toHaveProperty('scriptRan');
  });

  it.each([
    ['selfDrawingForm', 'pdf.no-text'],
    ['hugePicture', 'pdf.no-text'],
    ['nestedArray', 'pdf.no-text'],
    ['lettersWithoutNames', 'pdf.no-text'],
    ['cyclicTree', 'pdf.page'],
    ['hugeRows', 'pdf.no-text'],
    ['lettersOfEverything', 'pdf.no-letters'],
    ['lettersBackwards', 'pdf.no-letters'],
    ['lettersOfNonsense', 'pdf.no-letters'],
    ['lettersThatLoop', 'pdf.no-letters'],
  ] as const)('says what a page lacks: %s', async (name, code) => {
    expect(codes(await readPlainly(HOSTILE[name]()))).toEqual([code]);
  });

  it.each([1, 2] as const)('stops a stream that unpacks to a gigabyte, packed %i times', async (times) => {
    const bytes = bomb(1000, times);
    expect(bytes.length).toBeLessThan(3_000_000);
    const outcome = await readGuarded(bytes);
    expect(['pdf.page', 'pdf.time']).toContain(codes(outcome)[0]);
    expect(outcome.pages).toBe(0);
    expect(outcome.peak).toBeLessThan(900_000_000);
  });

  it.each([
    ['ten to the ninth words from two kilobytes', () => formTower(9)],
    ['a hundred megabytes of show operators', () => wordBomb(100)],
  ])('stops %s', async (_name, make) => {
    const outcome = await readGuarded(make(), { maxSilence: 1500, maxMemory: 400_000_000 });
    expect(outcome.pages).toBe(0);
    expect(['pdf.time', 'pdf.memory', 'pdf.page']).toContain(codes(outcome)[0]);
  });

  it('reads 2,000 pages one by one and refuses more than the limit', async () => {
    expect((await readGuarded(manyPages(2000))).pages).toBe(2000);
    expect(codes(await readPlainly(manyPages(6000)))).toEqual(['pdf.too-many-pages']);
  });

  it.each([
    ['nothing', ''],
    ['a word', 'hello'],
    ['a head without a body', '%PDF-1.7\n'],
  ])('refuses %s', async (_name, text) => {
    expect(codes(await readPlainly(new TextEncoder().encode(text)))).toEqual(['pdf.broken']);
  });

  it('never throws, wherever the file is cut off', async () => {
    const whole = manyPages(6);
    for (const share of [0.2, 0.5, 0.8, 0.97]) {
      const outcome = await readPlainly(whole.subarray(0, Math.floor(whole.length * share)));
      expect(outcome.problems.length, `cut at ${share}`).toBeGreaterThan(0);
    }
  });

  it('stops on request', async () => {
    const stop = new AbortController();
    const outcome = await readGuarded(manyPages(2000), {
      signal: stop.signal,
      onProgress: (done) => {
        if (done === 3) stop.abort();
      },
    });
    expect(codes(outcome)).toEqual(['pdf.cancelled']);
    expect(outcome.pages).toBeLessThan(30);
  });

  it('refuses a file beyond the size limit without opening it', async () => {
    const limits = { maxBytes: 100, maxPages: 10 };
    expect(codes(await readGuarded(onePage(), { limits }))).toEqual(['pdf.too-large']);
  });
});
