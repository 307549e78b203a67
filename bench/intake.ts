/**
 * Reading of sheets, measured. `npm run bench -- intake`:
 *  1. every open protocol in every sheet form, printed and read back: figures right, wrong but doubted,
 *     wrong without a doubt (the bar is none);
 *  2. an event book of 500 pages: time against the PDF library's own text extraction of the same file in
 *     the same run (bar: 1.3 times), by the clock and by the processor time of all threads, and the most
 *     memory the process took (bar: 300 MB).
 * Needs the build (`npm run build`), Chromium, Ghostscript.
 */
import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import type { Browser } from 'playwright-core';
import { startChromium } from '../test/sheets/chromium.ts';
import { type Form, FORMS } from '../test/sheets/forms.ts';
import { HELD_OUT } from '../test/sheets/held-out.ts';
import { LATER } from '../test/sheets/later-forms.ts';
import { openProtocols, type SheetProtocol } from '../test/sheets/protocols.ts';
import { readBack } from '../test/sheets/read-back.ts';
import { pdfOf } from '../test/sheets/render.ts';

const root = join(import.meta.dirname, '..');
const protocols = openProtocols(join(root, 'test/data/protocols-2016-2018.jsonl'));
/** Sheets a book: small enough for the browser's printing, large enough to be a book. */
const BOOK = 104;
const ROUNDS = 5;

const started: Promise<Browser>[] = [];
function browser(): Promise<Browser> {
  const running = started[0] ?? startChromium();
  started[0] = running;
  return running;
}

async function readBackAll(form: Form): Promise<number> {
  const sum = { sheets: 0, right: 0, doubted: 0, silent: 0, doubts: 0, problems: 0 };
  const errors: string[] = [];
  for (let from = 0; from < protocols.length; from += BOOK) {
    const part = protocols.slice(from, from + BOOK);
    const result = await readBack(new Uint8Array(await pdfOf(part, form, browser)), part, form);
    sum.sheets += result.sheets;
    sum.right += result.right;
    sum.doubted += result.doubted;
    sum.silent += result.silent.length;
    sum.doubts += result.doubts;
    sum.problems += result.problems.length;
    errors.push(...result.problems, ...result.silent);
  }
  console.log(
    JSON.stringify({ bench: 'read-back', form: form.name, producer: form.producer, ...sum, first: errors.slice(0, 5) }),
  );
  return sum.silent;
}

/** The library's own text extraction, loaded as anybody loads it, in a process that does nothing else. */
const EXTRACT = `
const library = await import(LIBRARY);
const { readFileSync } = await import('node:fs');
const bytes = new Uint8Array(readFileSync(FILE));
const cpu = process.cpuUsage();
const start = performance.now();
const document = await library.getDocument({ data: bytes, isEvalSupported: false, verbosity: 0 }).promise;
let pages = 0;
for (let i = 1; i <= document.numPages; i += 1) {
  const page = await document.getPage(i);
  await page.getTextContent();
  page.cleanup();
  pages += 1;
}
${measuredOf('pages')}`;

/** The whole way from the bytes to the sheets; the start of the reading thread is part of it. */
const READ = `
const { readSheet } = await import(ROOM + 'index.js');
const { nodeReaders } = await import(ROOM + 'node.js');
const { shippedLibrary } = await import(ROOM + '../rulebook/index.js');
const { readFileSync } = await import('node:fs');
const library = shippedLibrary();
const bytes = new Uint8Array(readFileSync(FILE));
const cpu = process.cpuUsage();
const start = performance.now();
let sheets = 0;
for await (const item of readSheet({ bytes }, { library, ...nodeReaders() })) if ('sheet' in item) sheets += 1;
${measuredOf('sheets')}`;

/** Milliseconds on the clock and of all threads, and the most memory the process held. */
function measuredOf(count: string): string {
  return `
const ms = performance.now() - start;
const { user, system } = process.cpuUsage(cpu);
const whole = (value) => Math.round(value);
console.log(JSON.stringify({ ${count}, ms: whole(ms), cpuMs: whole((user + system) / 1000), peakMB: whole(process.resourceUsage().maxRSS / 1000) }));`;
}

/** Runs a piece of code against the build in a process of its own. */
async function measured(code: string, file: string): Promise<Record<string, number>> {
  const room = pathToFileURL(join(root, 'dist/intake/')).href;
  const library = import.meta.resolve('pdfjs-dist/legacy/build/pdf.mjs');
  const text = `const LIBRARY = ${JSON.stringify(library)}; const ROOM = ${JSON.stringify(room)}; const FILE = ${JSON.stringify(file)};${code}`;
  const script = `${file}.mjs`;
  await writeFile(script, text);
  const { stdout } = await promisify(execFile)(process.execPath, [script]);
  return JSON.parse(stdout) as Record<string, number>;
}

const ratioOf = (read = NaN, extract = NaN): number => Math.round((100 * read) / extract) / 100;

async function measureBook(form: Form, book: readonly SheetProtocol[]): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), 'book-'));
  try {
    const file = join(folder, 'book.pdf');
    await writeFile(file, await pdfOf(book, form, browser));
    const ratios: { wall: number; cpu: number }[] = [];
    // By turns, so that whatever else the machine does falls on both.
    for (let round = 0; round < ROUNDS; round += 1) {
      const extract = await measured(EXTRACT, file);
      const read = await measured(READ, file);
      const ratio = { wall: ratioOf(read.ms, extract.ms), cpu: ratioOf(read.cpuMs, extract.cpuMs) };
      ratios.push(ratio);
      console.log(JSON.stringify({ bench: 'event-book', form: form.name, extract, read, ratio }));
    }
    const median = (of: 'wall' | 'cpu'): number =>
      ratios.map((one) => one[of]).sort((a, b) => a - b)[ROUNDS >> 1] ?? NaN;
    const load = loadavg()[0]?.toFixed(1);
    console.log(
      JSON.stringify({
        bench: 'event-book',
        form: form.name,
        median: { wall: median('wall'), cpu: median('cpu') },
        load,
        cores: cpus().length,
      }),
    );
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

try {
  if (!existsSync(join(root, 'dist/intake/node.js'))) throw new Error('build first: npm run build');
  const all = [...FORMS, HELD_OUT, ...LATER];
  const wanted = process.argv.slice(2).filter((name) => all.some((form) => form.name === name));
  const forms = wanted.length === 0 ? all : all.filter((form) => wanted.includes(form.name));
  if (!process.argv.includes('--read-back')) {
    for (const form of forms.filter(({ perPage }) => perPage === 1).slice(0, 1))
      await measureBook(form, protocols.slice(0, 500));
  }
  if (!process.argv.includes('--book')) {
    let silent = 0;
    for (const form of forms) silent += await readBackAll(form);
    console.log(JSON.stringify({ bench: 'read-back', forms: forms.length, silent }));
  }
} finally {
  for (const running of started) await (await running).close();
}
