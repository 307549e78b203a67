import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { startPostgres } from '../support/postgres.ts';
import { SIZES, startApp, startBrowser, visit, type RunningApp, type Size, type Visit } from './app.ts';

/**
 * The main journeys of a coach, in a real browser, on the built app as a process of its own. What is
 * expected comes from the invented sheets themselves (their printed figures), not from the app.
 */
let browser: Browser;
let demo: RunningApp;
let empty: RunningApp;
let open: Visit[] = [];

beforeAll(async () => {
  [browser, demo, empty] = await Promise.all([startBrowser(), startApp({ demo: true }), startApp({})]);
}, 120_000);
afterAll(async () => {
  await Promise.all([browser.close(), demo.stop(), empty.stop()]);
});
afterEach(async () => {
  const complaints = open.flatMap((v) => v.complaints);
  await Promise.all(open.map((v) => v.close()));
  open = [];
  expect(complaints, 'what the browser complained about').toEqual([]);
});

async function at(app: RunningApp, size: Size, path: string): Promise<Page> {
  const visited = await visit(browser, app.address, size);
  open.push(visited);
  await visited.page.goto(path);
  return visited.page;
}

const sheet = async (id: string): Promise<Buffer> => {
  const answer = await fetch(`${demo.address}/api/sheets/sheet-${id}`);
  return Buffer.from(await answer.arrayBuffer());
};

/** What stands on the page once the browser has come to it. */
const soon = <T>(what: () => Promise<T>) => expect.poll(what, { timeout: 20_000 });

/** +0.79, −1.18, "at least −0.51" → hundredths. */
const hundredths = (text: string): number =>
  Math.round(Number(text.replace('at least', '').replace('−', '-').trim()) * 100);

/** The same sheet comes once for every size of screen: the second time it is kept beside the first. */
async function keepBothIfKept(page: Page): Promise<void> {
  await page.waitForLoadState('networkidle');
  const both = page.getByLabel('Keep both');
  if ((await both.count()) > 0) await both.check();
}

async function importPdf(app: RunningApp, size: Size): Promise<Page> {
  const page = await at(app, size, '/add');
  const buffer = await sheet('demo-e6-demo-mara-free');
  expect(buffer.subarray(0, 5).toString()).toBe('%PDF-');
  await page.locator('input[type=file]').setInputFiles({ name: 'mara.pdf', mimeType: 'application/pdf', buffer });
  await page.getByRole('heading', { name: 'One skater' }).waitFor();
  expect(await page.locator('main').innerText()).toContain('All printed figures agree.');
  await keepBothIfKept(page);
  await page.getByRole('button', { name: 'Keep it and read it' }).click();
  await page.waitForURL(/\/reading\//);
  await page.getByRole('heading', { name: /Mara’s free skate/ }).waitFor();
  return page;
}

/** Awarded total of the demo's sheet, and that the ledger's numbers add up to the difference that is told. */
async function readIt(page: Page): Promise<void> {
  const lead = await page.locator('.lead').innerText();
  expect(lead).toContain('62.37 awarded');
  expect(await page.locator('main').innerText()).toContain('printed figures agree');
  const told = hundredths(/difference is ([+−]\d+\.\d\d)/.exec(lead)?.[1] ?? '');
  const list = page.locator('.causes').filter({ visible: true });
  if ((await list.count()) === 0) await page.getByText('The same as a list').click();
  const sum = (numbers: readonly string[]) => numbers.map(hundredths).reduce((a, b) => a + b, 0);
  const numbers = await list.locator('.i').getByRole('button').allInnerTexts();
  expect(numbers.length).toBeGreaterThan(3);
  expect(sum(numbers)).toBe(told);
  // The sums of the causes add up to it as well.
  expect(sum(await list.locator('.h .n').allInnerTexts())).toBe(told);
  await list.getByRole('button').first().press('Enter');
  await page.getByRole('heading', { name: /^Why [+−]/ }).waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('heading', { name: /^Why [+−]/ }).waitFor({ state: 'detached' });
}

describe.each(Object.keys(SIZES) as Size[])('a coach with a %s', (size) => {
  it('starts empty, imports a PDF and reads it', async () => {
    const page = await importPdf(empty, size);
    await readIt(page);
    await page.goto('/');
    await page.getByRole('link', { name: 'Mara', exact: true }).waitFor();
    // The second import found her by name: there is one Mara.
    expect(await page.getByRole('link', { name: 'Mara', exact: true }).count()).toBe(1);
  });

  it('finds an arithmetic error in a pasted sheet', async () => {
    const text = (await sheet('demo-e5-demo-mara-free')).toString();
    const altered = text.replace(/(1 3S .*)4\.39\n/, '$14.93\n');
    expect(altered).not.toBe(text);
    const page = await at(demo, size, '/add');
    await page.getByLabel('The text of the sheet').fill(altered);
    await page.getByRole('button', { name: 'Read it' }).click();
    await page.getByText('do not agree; they are shown in the reading').or(page.getByText('does not agree')).waitFor();
    // She is known by name and chosen without being asked.
    expect(await page.getByLabel('Whose is it?').inputValue()).toBe('demo-mara');
    // The altered figure is a doubt: what is printed stands first, what would close the sums beside it.
    // The sheet as printed is kept already: this one stands beside it.
    const twice = page.locator('fieldset', { hasText: 'Already kept' });
    if ((await twice.count()) > 0) await twice.getByText('Keep both').click();
    const doubts = page.locator('fieldset', { hasText: 'Element' });
    for (const doubt of await doubts.all()) await doubt.getByRole('radio').first().check();
    expect(await doubts.first().innerText()).toMatch(/Element 1, score/);
    // A sheet of that day is kept already: it is asked about, and stays.
    await page.getByText('Already kept').waitFor();
    await keepBothIfKept(page);
    await page.getByRole('button', { name: 'Keep it and read it' }).click();
    const ask = page.locator('section.row', { has: page.getByRole('heading', { name: 'Ask today' }) });
    await ask.waitFor();
    expect(await ask.innerText()).toMatch(/4\.93/);
    expect(await ask.innerText()).toMatch(/4\.39/);
    expect(await ask.innerText()).toContain('cannot be protested');
  });

  it('plans a program: moving a note by keyboard changes a verdict and the range', async () => {
    const page = await at(demo, size, '/layout/layout-demo-viktor-free');
    const broken = page.getByLabel('Broken rules');
    // Three kinds of triple are planned twice; the third one skated is the one without value.
    await broken.getByText('Broken, 3F at 3:16').waitFor();
    await page.getByText(/Usually between/).waitFor();
    const note = page.getByRole('slider', { name: '3F', exact: true }).last();
    await note.focus();
    for (let i = 0; i < 10; i += 1) await page.keyboard.press('Shift+Arrow' + (size === 'phone' ? 'Up' : 'Left'));
    await broken.getByText('Broken, 3Lz+1Eu+3S at 2:40').waitFor();
    expect(await note.getAttribute('aria-valuetext')).toBe('3F, 2:26');
    // Autosave, then Ctrl+Z puts it back; what was kept in several goes is taken back in as many.
    const keptStart = async () => {
      const answer = await fetch(`${demo.address}/api/layouts/layout-demo-viktor-free`);
      const { form } = (await answer.json()) as { form: { elements: { code: string; start: number }[] } };
      return Math.max(...form.elements.filter((e) => e.code === '3F').map((e) => e.start));
    };
    await soon(keptStart).toBe(146);
    await page.locator('h1').click();
    for (let goes = 0; goes < 10 && (await keptStart()) !== 196; goes += 1) {
      const before = await keptStart();
      await page.keyboard.press('Control+z');
      await soon(keptStart).not.toBe(before);
    }
    await page.getByText('Taken back.').waitFor();
    await page.reload();
    await broken.getByText('Broken, 3F at 3:16').waitFor();
  });

  it('moves how often an element comes off by keyboard: the range follows, stays after a reload, and is undone', async () => {
    const id = `layout-demo-${size === 'phone' ? 'juna' : 'mara'}-free`;
    const page = await at(demo, size, `/layout/${id}`);
    const range = page.locator('figure[data-range]');
    const numbers = async () => ((await range.getAttribute('data-range')) ?? '').split(' ').map(Number);
    const slider = page.getByRole('slider', { name: /days of twenty/ }).first();
    const keptReliability = async () => {
      const answer = await fetch(`${demo.address}/api/layouts/${id}`);
      const { form } = (await answer.json()) as { form: { elements: { reliability?: number }[] } };
      return form.elements[0]?.reliability;
    };
    await slider.waitFor();
    await page.getByText(/One more day of twenty moves the range most/).waitFor();
    const learnt = Number(await slider.inputValue());
    const before = await numbers();
    await slider.focus();
    const steps = 6;
    for (let i = 0; i < steps; i += 1) await page.keyboard.press('ArrowLeft');
    expect(Number(await slider.inputValue())).toBe(learnt - steps);
    await soon(async () => (await numbers())[1]).toBeLessThan(before[1] ?? 0);
    await page.getByText(/comes off on about \d+ of 20 days\./).waitFor();
    await soon(keptReliability).toBeCloseTo((learnt - steps) / 20, 12);
    await page.reload();
    await page.getByText('as you entered').first().waitFor();
    expect(Number(await slider.inputValue())).toBe(learnt - steps);
    await soon(async () => (await numbers())[1]).toBeLessThan(before[1] ?? 0);
    await page.getByRole('button', { name: /: as learnt again$/ }).click();
    await soon(numbers).toEqual(before);
    await soon(keptReliability).toBeUndefined();
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByText('Taken back.').waitFor();
    await page.getByText('as you entered').first().waitFor();
  });

  it('mends a broken rule with the smallest change, and takes it back', async () => {
    const page = await at(demo, size, '/layout/layout-demo-viktor-free');
    const broken = page.getByLabel('Broken rules');
    await broken.getByText('Broken, 3F at 3:16').waitFor();
    await page.getByRole('button', { name: 'Mend', exact: true }).press('Enter');
    const ways = page.getByRole('list', { name: 'Mend' });
    await ways.waitFor();
    expect(await ways.innerText()).toContain('then nothing is broken; base values as called');
    const saved = page.waitForResponse((r) => r.request().method() === 'PUT' && r.url().includes('/api/layouts/'));
    await ways.getByRole('button').first().press('Enter');
    await page.getByText('Nothing is broken.').waitFor();
    expect(await broken.count()).toBe(0);
    await saved;
    await page.getByRole('button', { name: 'Undo' }).click();
    await broken.getByText('Broken, 3F at 3:16').waitFor();
  });

  it('composes a step sequence to level 3', async () => {
    const page = await at(demo, size, '/skaters/demo-mara/new-steps');
    await page.getByLabel('Name').fill(`Steps on the ${size}`);
    await page.getByRole('button', { name: 'Begin' }).click();
    const line = page.getByLabel('The sequence, in your words');
    await line.fill('LFO rocker, LBO counter, LFO bracket');
    await page
      .getByText(/^No level|^Basic level|^Level 1/)
      .first()
      .waitFor();
    await line.fill(
      'LFO rocker, LBO counter, LFO twizzle / RBI bracket, RFO rocker, RBO loop, RBO choctaw, LFI loop, LFI twizzle',
    );
    await page.getByText('full rotations to the left').click();
    await page.getByText('full rotations to the right').click();
    await page.getByText(/^Level 3/).waitFor();
    // Asked why, the level says which rule holds it, with its source; Escape gives the focus back.
    const level = page.getByRole('button', { name: 'Level 3', exact: true });
    await level.press('Enter');
    const why = page.getByRole('status').filter({ hasText: 'Why this level?' });
    await why.getByText(/Body movements over .*not met.*; holds it here/).waitFor();
    expect(await why.innerText()).toContain('Source: ');
    await page.keyboard.press('Escape');
    await why.waitFor({ state: 'detached' });
    expect(await page.locator(':focus').innerText()).toBe('Level 3');
    // The same without typing: a turn is taken out, the level drops, Undo brings both back.
    await page.getByText('Place the turns').press('Enter');
    await page.getByRole('button', { name: 'Take out: LFO rocker' }).press('Enter');
    await page.getByText(/^Level [12],/).waitFor();
    await soon(() => line.inputValue()).not.toContain('LFO rocker');
    await page.getByRole('button', { name: 'Undo' }).press('Enter');
    await page.getByText('Taken back.').waitFor();
    await page.getByText(/^Level 3/).waitFor();
    await page.waitForTimeout(1200);
    await page.reload();
    await page.getByText(/^Level 3/).waitFor();
  });

  it('sets a goal and meets it', async () => {
    const page = await at(demo, size, '/skaters/demo-linus');
    const words = `Two quiet landings a day, ${size}`;
    await page.getByLabel('A new goal, in her words').fill(words);
    await page.getByRole('button', { name: 'Add the goal' }).click();
    await page.getByRole('button', { name: `Met: ${words}` }).click();
    await page.getByText('Goal met.').waitFor();
    await page.reload();
    const row = page.locator('li', { hasText: words });
    await row.getByText(/· met/).waitFor();
  });

  it('prints the report, and nothing before it is released', async () => {
    const id = size === 'phone' ? 'demo-e6-demo-juna-free' : 'demo-e6-demo-juna-short';
    const held = await fetch(`${demo.address}/api/reports/reading/${id}`);
    expect(held.status).toBe(409);
    const page = await at(demo, size, `/reading/${id}`);
    await page.getByLabel('In the report').fill('We look at the video together.');
    await page.getByRole('button', { name: 'Release to Juna' }).click();
    await page.getByRole('alertdialog').getByRole('button', { name: 'Release', exact: true }).click();
    await page.getByText('Her page can be printed and shown.').waitFor();
    await page.getByRole('link', { name: 'See her page' }).click();
    await page.getByText('We look at the video together.').waitFor();
    const her = await page.locator('main').innerText();
    expect(her).not.toMatch(/\b(failed|weak|lost|only|lazy|chance|%)\b/i);
    const href = (await page.getByRole('link', { name: 'PDF' }).getAttribute('href')) ?? '';
    const pdf = await fetch(demo.address + href);
    expect(pdf.headers.get('content-type')).toContain('application/pdf');
    const bytes = Buffer.from(await pdf.arrayBuffer());
    expect(bytes.subarray(0, 5).toString()).toBe('%PDF-');
    expect(bytes.byteLength).toBeGreaterThan(5000);
  });
});

describe('on PostgreSQL', () => {
  it('a PDF is imported and read all the same', async () => {
    const postgres = await startPostgres();
    const app = await startApp({ database: postgres.address });
    try {
      await readIt(await importPdf(app, 'laptop'));
    } finally {
      await app.stop();
      await postgres.stop();
    }
  });
});
