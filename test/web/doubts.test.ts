import { AxeBuilder } from '@axe-core/playwright';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { placeOf, shown, valueFrom, withSaid } from '../../web/src/rooms/add/doubt-places.ts';
import { startApp, startBrowser, visit, type RunningApp, type Size } from './app.ts';

let browser: Browser;
let app: RunningApp;
beforeAll(async () => {
  [browser, app] = await Promise.all([startBrowser(), startApp({})]);
}, 120_000);
afterAll(async () => {
  await Promise.all([browser.close(), app.stop()]);
});

const wren = readFileSync(join(import.meta.dirname, '../../examples/novice-free-2023.txt'), 'utf8');
/** A grade that closes no sum, and marks of three elements that do not give the printed grades. */
const doubtful = wren
  .replace('1.98', '1.89')
  .replace('-2  -2  -3  -2  -2     2.75', ' 3  -2  -3  -2   3     2.75')
  .replace('1   0   1   1   0     4.82', '3   3   1   3   0     4.82')
  .replace('1   1   0   1   1     3.30', '3   3   0   3   3     3.30');

async function asked(size: Size, text: string) {
  const { page, complaints, close } = await visit(browser, app.address, size);
  await page.goto('/add');
  await page.getByLabel('The text of the sheet').fill(text);
  await page.getByRole('button', { name: 'Read it' }).click();
  await page.getByRole('heading', { name: 'One skater' }).waitFor();
  return { page, complaints, close };
}

const keepOf = (page: Page) => page.getByRole('button', { name: 'Keep it and read it' });
const score = (page: Page) => page.getByRole('group', { name: /^Element 8, score/ });

interface Kept {
  readonly id: string;
  readonly form: { readonly elements: readonly { readonly score: number; readonly marks: readonly number[] }[] };
}
const kept = async (page: Page): Promise<Kept | undefined> => {
  const id = page.url().split('/').at(-1);
  return ((await (await fetch(`${app.address}/api/protocols`)).json()) as Kept[]).find((one) => one.id === id);
};

describe('the doubts of a sheet', () => {
  it('take something else that is typed, with a comma, and it is what is kept', async () => {
    const { page, complaints, close } = await asked('laptop', doubtful);
    expect(await keepOf(page).isDisabled()).toBe(true);
    for (const doubt of await page.getByRole('group').all()) {
      const name = (await doubt.locator('legend').innerText()).split(':')[0] ?? '';
      expect(name).not.toMatch(/[[\]]|goe|tes|pcs/);
      expect(await doubt.getByText('as read', { exact: true }).count()).toBe(1);
      if (!name.endsWith('marks')) await doubt.getByRole('radio').first().check();
    }
    expect(await keepOf(page).isDisabled()).toBe(false);
    await score(page).getByLabel('Something else').check();
    expect(await keepOf(page).isDisabled()).toBe(true);
    const field = score(page).getByRole('textbox');
    await field.fill('about two');
    await score(page).getByText('A number, please').waitFor();
    expect(await keepOf(page).isDisabled()).toBe(true);
    await field.fill('1,97');
    const marks = page.getByRole('group', { name: /^Element 1, judges’ marks/ });
    await marks.getByLabel('Something else').check();
    await marks.getByRole('textbox').fill('-2 −2 -3 -2 -1');
    await keepOf(page).click();
    await page.waitForURL(/\/reading\//);
    const record = await kept(page);
    expect(record?.form.elements[7]?.score).toBe(1.97);
    expect(record?.form.elements[0]?.marks).toEqual([-2, -2, -3, -2, -1]);
    // What was left as read is as the sheet prints it.
    expect(record?.form.elements[1]?.marks).toEqual([3, 3, 1, 3, 0]);
    expect(complaints).toEqual([]);
    await close();
  });

  it('hold up keeping only where there is a choice; one press takes the rest as read', async () => {
    const { page, close } = await asked('laptop', doubtful);
    const left = await page.getByText(/to be settled first/).innerText();
    const all = await page.getByRole('group').count();
    expect(Number.parseInt(left.replace('One', '1'))).toBeLessThan(all);
    const answered = () => page.getByRole('radio', { checked: true }).count();
    const before = await answered();
    await page.getByRole('button', { name: 'All as read' }).click();
    expect(await answered()).toBeGreaterThan(before + 2);
    expect(await page.getByRole('button', { name: 'All as read' }).isDisabled()).toBe(true);
    // The choices are not among them.
    expect(await page.getByText(/to be settled first/).innerText()).toBe(left);
    expect(await keepOf(page).isDisabled()).toBe(true);
    await close();
  });

  it.each(['laptop', 'phone'] as const)('have no violation that axe finds with a field open, on a %s', async (size) => {
    const { page, close } = await asked(size, doubtful);
    await score(page).getByLabel('Something else').check();
    await score(page).getByRole('textbox').fill('no number');
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(' | ')}`)).toEqual([]);
    expect(await page.evaluate('document.documentElement.scrollWidth - window.innerWidth')).toBe(0);
    await close();
  });
});

describe('a place of a protocol', () => {
  it.each([
    ['elements[2].marks[2]', 'Element 3, third judge’s mark'],
    ['elements[0].no', 'Element 1, its number in the list'],
    ['components[1].factor', 'Component 2, factor'],
    ['elements[4]', 'Element 5'],
    ['startNumber', 'Start number'],
    ['tes', 'Element score'],
  ])('%s is said as “%s”', (at, words) => expect(placeOf(at)).toBe(words));

  it('takes only what can stand there', () => {
    expect(valueFrom('points', '4,75')).toEqual({ ok: true, value: 4.75 });
    expect(valueFrom('points', '−0.50', 'deductions')).toEqual({ ok: true, value: -0.5 });
    expect(valueFrom('points', '1', 'deductions')).toEqual({ ok: true, value: -1 });
    expect(valueFrom('whole', '-')).toEqual({ ok: true, value: null });
    expect(valueFrom('category', 'Ladies, Junior')).toEqual({ ok: true, value: 'junior women' });
    for (const [kind, text] of [
      ['whole', '1.5'],
      ['points', '1.234'],
      ['marks', '1 x 2'],
      ['category', 'ladies'],
      ['words', ' '],
    ] as const)
      expect(valueFrom(kind, text).ok).toBe(false);
  });

  it('changes nothing of the form for a whole block, whatever was read there', () => {
    const form = { elements: [{ code: '2A' }], total: 5 };
    const doubts = [
      { at: 'elements', read: 8, alternatives: [], why: 'A row may be lost.' },
      { at: 'total', read: 5, alternatives: [6], why: 'The sums give 6.' },
    ];
    expect(withSaid(form, doubts, () => ({ as: 'read' }))).toEqual(form);
    expect(withSaid(form, doubts, () => ({ as: 'value', value: 6 }))).toEqual({ ...form, total: 6 });
    expect(shown('points', -0.5)).toBe('−0.50');
  });
});
