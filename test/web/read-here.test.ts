import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { gatherSheets, readSheet, type PageSource } from '../../src/intake/index.ts';
import { nodeReaders } from '../../src/intake/node.ts';
import { loadPdfLibrary, pdfTables } from '../../src/intake/pdf/load.ts';
import { pagesOfPdf } from '../../src/intake/pdf/pages.ts';
import { PDF_PROBLEMS } from '../../src/intake/pdf/problems.ts';
import { describeProblem } from '../../src/notation/index.ts';
import { shippedLibrary } from '../../src/rulebook/index.ts';
import { composeBook } from '../sheets/compose.ts';
import { FORMS } from '../sheets/forms.ts';
import { bomb, formTower, HOSTILE, manyPages, onePage, rawPdf, wordBomb } from '../sheets/hostile.ts';
import { htmlPage } from '../sheets/html.ts';
import { inventedProtocols } from '../sheets/invented.ts';
import { openProtocols } from '../sheets/protocols.ts';
import { pdfOf } from '../sheets/render.ts';
import { startApp, startBrowser, visit, type RunningApp, type Visit } from './app.ts';

/**
 * Sheets read by the built app in a real browser, under the server's own rules of what a page may do,
 * against what Node reads from the very same bytes.
 */
let browser: Browser;
let app: RunningApp;
let open: Visit;
beforeAll(async () => {
  [browser, app] = await Promise.all([startBrowser(), startApp({})]);
  open = await visit(browser, app.address, 'laptop');
  await open.page.goto('/add');
}, 120_000);
afterAll(async () => {
  await open.close();
  await Promise.all([browser.close(), app.stop()]);
});

const assets = join(import.meta.dirname, '../../dist/web/assets');
const workerFile = (): string => {
  const [file] = readdirSync(assets).filter((name) => /^read\.worker-.*\.js$/.test(name));
  if (file === undefined) throw new Error('dist/web has no reading worker: run "npm run build" first.');
  return `/assets/${file}`;
};

interface Told {
  readonly tell: string;
  readonly read?: { readonly protocols: readonly unknown[]; readonly problems: readonly string[] };
  readonly where?: { readonly page: number | null };
  readonly done?: { readonly page: number; readonly pages: number } | null;
  readonly why?: string;
}

/** Runs in the page: what the worker told, in order; ended from outside after so many seconds, as the app does. */
const ASK = `async ([file, bytes, seconds]) => {
  const told = [];
  const worker = new Worker(file, { type: 'module' });
  const data = Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0));
  await new Promise((resolve, reject) => {
    const patience = setTimeout(() => { told.push({ tell: 'ended' }); resolve(); }, seconds * 1000);
    worker.onerror = (event) => reject(new Error(event.message));
    worker.onmessage = (event) => {
      if (event.data.tell === undefined) return;
      told.push(event.data);
      if (['read', 'pictures', 'broken'].includes(event.data.tell)) { clearTimeout(patience); resolve(); }
    };
    worker.postMessage({ bytes: data, name: 'a sheet', patience: seconds });
  });
  worker.terminate();
  return told;
}`;

async function readInBrowser(bytes: Uint8Array, seconds = 60): Promise<readonly Told[]> {
  const argument = JSON.stringify([workerFile(), Buffer.from(bytes).toString('base64'), seconds]);
  return await open.page.evaluate<readonly Told[]>(`(${ASK})(${argument})`);
}

/** Node's reading, without the thread that guards it: what is read is the same, and starting one takes seconds. */
const unguarded: PageSource = async function* (bytes) {
  yield* pagesOfPdf(await loadPdfLibrary(), bytes.slice(), { tables: pdfTables() });
};

const readInNode = async (bytes: Uint8Array, pdf: PageSource = unguarded): Promise<string> =>
  JSON.stringify(await gatherSheets(readSheet({ bytes: bytes.slice() }, { library: shippedLibrary(), pdf })));

const all = openProtocols(join(import.meta.dirname, '../data/protocols-2016-2018.jsonl'));
const invented = inventedProtocols(
  { season: '2023/24', category: 'junior women', segment: 'free', judges: 5, letters: true },
  2,
);
const few = [...all.filter((_, i) => i % 210 === 0), ...invented];

describe('the reader of the app, in a browser, answers what Node answers, figure for figure', () => {
  it.each(FORMS)('a PDF of the form $name, printed by $producer', async (form) => {
    const bytes = new Uint8Array(await pdfOf(few, form, () => Promise.resolve(browser)));
    const told = await readInBrowser(bytes);
    expect(told.at(-1)?.read?.protocols).toHaveLength(few.length);
    expect(JSON.stringify(told.at(-1)?.read)).toBe(await readInNode(bytes));
  });

  it('an event book of forty skaters, with its progress page by page', async () => {
    const [form] = FORMS;
    if (form === undefined) throw new Error('no forms');
    const book = all.filter((p) => p.competition === all[0]?.competition).slice(0, 40);
    const bytes = new Uint8Array(await pdfOf(book, form, () => Promise.resolve(browser)));
    const told = await readInBrowser(bytes);
    expect(told.at(-1)?.read?.protocols).toHaveLength(40);
    expect(JSON.stringify(told.at(-1)?.read)).toBe(await readInNode(bytes, nodeReaders().pdf));
    const pages = told.flatMap(({ done }) => (done == null ? [] : [done.page]));
    expect(pages).toEqual(pages.map((_, i) => i + 1));
    expect(pages).toHaveLength(told.findLast(({ done }) => done != null)?.done?.pages ?? -1);
  });

  it.each(FORMS.slice(0, 4))('a saved web page of the form $name', async (form) => {
    const bytes = new TextEncoder().encode(htmlPage(composeBook(few, form), form.style));
    const told = await readInBrowser(bytes);
    expect(told.at(-1)?.read?.protocols).toHaveLength(few.length);
    expect(JSON.stringify(told.at(-1)?.read)).toBe(await readInNode(bytes));
  });

  it.each(['novice-free-2023.txt', 'novice-free-2023-altered.txt'])('the text %s', async (name) => {
    const bytes = new Uint8Array(readFileSync(join(import.meta.dirname, '../../examples', name)));
    const told = await readInBrowser(bytes);
    expect(told.at(-1)?.read?.protocols).toHaveLength(1);
    expect(JSON.stringify(told.at(-1)?.read)).toBe(await readInNode(bytes));
  });

  it('protocols as JSON Lines, and bytes that are no sheet', async () => {
    const lines = new TextEncoder().encode(few.map((p) => JSON.stringify(p)).join('\n'));
    expect(JSON.stringify((await readInBrowser(lines)).at(-1)?.read)).toBe(await readInNode(lines));
    const none = new Uint8Array([0, 1, 2, 255]);
    expect(JSON.stringify((await readInBrowser(none)).at(-1)?.read)).toBe(await readInNode(none));
  });
});

describe('a hostile PDF in the browser', () => {
  const encrypted = rawPdf(
    ['<< /Type /Catalog /Pages 2 0 R >>', '<< /Type /Pages /Kids [] /Count 0 >>'],
    `/Encrypt << /Filter /Standard /V 1 /R 2 /P -4 /O (${'o'.repeat(32)}) /U (${'u'.repeat(32)}) >> /ID [(a) (a)]`,
  );
  const whole = manyPages(6);

  it.each([
    ['that asks for a password', encrypted, /password/],
    ['cut in the middle', whole.subarray(0, whole.length / 2), /./],
    ['cut before its end mark', whole.subarray(0, whole.length - 8), /no end mark/],
    ['that is a head without a body', new TextEncoder().encode('%PDF-1.7\n'), /cannot be opened as a PDF/],
    ['with a script', HOSTILE.script(), /a column left out/],
    ['that declares a gigabyte', HOSTILE.declaredLength(), /a column left out/],
    ['with a tree that bites its tail', HOSTILE.cyclicTree(), /cannot be read/],
    ['with more pages than any book', manyPages(6000), /at most 5000 pages/],
  ])('%s gets the message that Node gives', async (_what, bytes, words) => {
    const told = await readInBrowser(bytes);
    expect(told.at(-1)?.read?.problems.join(' ')).toMatch(words);
    expect(JSON.stringify(told.at(-1)?.read)).toBe(await readInNode(bytes));
  });

  it.each(['hugePicture', 'selfDrawingForm', 'lettersWithoutNames'] as const)(
    'without usable text is left to the server, which reads pictures: %s',
    async (name) => {
      expect((await readInBrowser(HOSTILE[name]())).at(-1)).toEqual({ tell: 'pictures', where: { page: 1 } });
    },
  );

  it('that is a photograph is left to the server before anything is read', async () => {
    const png = Buffer.from('89504e470d0a1a0a0000000d49484452', 'hex');
    expect((await readInBrowser(png)).at(-1)).toEqual({ tell: 'pictures', where: { page: null } });
  });

  it.each([
    ['a gigabyte of blanks', bomb(1000, 1)],
    ['a hundred megabytes of words', wordBomb(100)],
    ['ten to the ninth words from two kilobytes', formTower(9)],
  ])('that unpacks to %s ends in a problem or is ended, and the page goes on', async (_what, bytes) => {
    const told = await readInBrowser(bytes, 6);
    const last = told.at(-1);
    if (last?.tell !== 'ended') {
      expect(last?.tell).toBe('read');
      expect(last?.read?.protocols).toEqual([]);
      expect(last?.read?.problems.length).toBeGreaterThan(0);
    }
    const after = await readInBrowser(onePage());
    expect(after.at(-1)?.tell).toBe('read');
  });
});

describe('Add a sheet', () => {
  const choose = (page: Page, name: string, buffer: Uint8Array) =>
    page.locator('input[type=file]').setInputFiles({ name, mimeType: 'application/pdf', buffer: Buffer.from(buffer) });

  async function fresh(): Promise<{ page: Page; sent: string[]; complaints: string[]; close: () => Promise<void> }> {
    const { page, complaints, close } = await visit(browser, app.address, 'laptop');
    const sent: string[] = [];
    page.on('request', (request) => {
      if (request.method() !== 'GET') sent.push(`${request.method()} ${new URL(request.url()).pathname}`);
    });
    await page.goto('/add');
    return { page, sent, complaints, close };
  }

  it('reads here and sends nothing before Keep; then the original is kept byte for byte', async () => {
    const [form] = FORMS;
    if (form === undefined) throw new Error('no forms');
    const bytes = new Uint8Array(await pdfOf(invented.slice(0, 1), form, () => Promise.resolve(browser)));
    const { page, sent, complaints, close } = await fresh();
    await choose(page, 'mine.pdf', bytes);
    await page.getByRole('heading', { name: 'One skater' }).waitFor();
    expect(sent).toEqual([]);
    for (const doubt of await page.locator('fieldset').all()) await doubt.getByRole('radio').first().check();
    const kept = page.waitForResponse((r) => r.url().endsWith('/api/sheets/keep'));
    await page.getByRole('button', { name: 'Keep it and read it' }).click();
    const { sheetId } = (await (await kept).json()) as { sheetId: string };
    await page.waitForURL(/\/reading\//);
    const back = await fetch(`${app.address}/api/sheets/${sheetId}`);
    expect(Buffer.from(await back.arrayBuffer()).equals(Buffer.from(bytes))).toBe(true);
    expect(complaints).toEqual([]);
    await close();
  });

  it('tells how far it is, stops when told to, and has kept nothing', async () => {
    const { page, sent, close } = await fresh();
    await choose(page, 'book.pdf', manyPages(4500));
    const working = page.getByRole('status').filter({ hasText: /page \d+ of 4500/ });
    await working.waitFor();
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.getByText('Stopped. Nothing was kept.').waitFor();
    await page.waitForTimeout(500);
    expect(await working.count()).toBe(0);
    expect(sent).toEqual([]);
    await close();
  });

  it('has the server read it, without keeping it, where the worker cannot be loaded', async () => {
    const { page, sent, close } = await fresh();
    await page.route('**/assets/read.worker-*.js', (route) => route.abort());
    const text = readFileSync(join(import.meta.dirname, '../../examples/novice-free-2023.txt'), 'utf8');
    await page.getByLabel('The text of the sheet').fill(text);
    await page.getByRole('button', { name: 'Read it' }).click();
    await page.getByRole('heading', { name: 'One skater' }).waitFor();
    expect(sent).toEqual(['POST /api/sheets']);
    await close();
  });

  it('asks what becomes of a sheet that is kept already: open it, put this in its place, keep both', async () => {
    const text = readFileSync(join(import.meta.dirname, '../../examples/novice-free-2023.txt'), 'utf8');
    const { page, complaints, close } = await fresh();
    const paste = async () => {
      await page.goto('/add');
      await page.getByLabel('The text of the sheet').fill(text);
      await page.getByRole('button', { name: 'Read it' }).click();
      await page.getByRole('heading', { name: 'One skater' }).waitFor();
    };
    const protocols = async () =>
      (await (await fetch(`${app.address}/api/protocols`)).json()) as { id: string; form: { total?: number } }[];
    const wrens = async () => (await protocols()).filter((p) => p.form.total === 56.45);
    const keep = page.getByRole('button', { name: 'Keep it and read it' });
    await paste();
    expect(await page.getByText('Already kept').count()).toBe(0);
    await keep.click();
    await page.waitForURL(/\/reading\//);
    const [first] = await wrens();

    await paste();
    await page.getByText('with the same figures').waitFor();
    expect(await keep.isDisabled()).toBe(true);
    expect(await page.getByRole('link', { name: 'Open the kept one' }).getAttribute('href')).toBe(
      `/reading/${first?.id ?? ''}`,
    );
    await page.getByLabel('Put this one in its place').check();
    await keep.click();
    await page.waitForURL(/\/reading\//);
    expect((await wrens()).map((p) => p.id)).toEqual([first?.id]);

    await paste();
    await page.getByLabel('Keep both').check();
    await keep.click();
    await page.waitForURL(/\/reading\//);
    expect(await wrens()).toHaveLength(2);
    expect(complaints).toEqual([]);
    await close();
  });
});

describe('what the page says', () => {
  it('of a sheet that made no progress is what the server says', async () => {
    const told = (await readInBrowser(onePage(), 7)) as readonly { tell: string; ifSilent?: string }[];
    expect(told[0]?.ifSilent).toBe(describeProblem(PDF_PROBLEMS.outOfTime(7)));
  });
});
