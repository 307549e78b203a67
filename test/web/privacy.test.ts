import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { FORMS } from '../sheets/forms.ts';
import { inventedProtocols } from '../sheets/invented.ts';
import { pdfOf } from '../sheets/render.ts';
import { startApp, startBrowser, visit } from './app.ts';

const SKATERS = 14;
const HERS = 4;

/** Every byte of the store as text, also of what it writes beside its file. */
const storeText = (folder: string): string =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => readFileSync(path.join(entry.parentPath, entry.name), 'latin1'))
    .join('\n');

/** A name as the store would write it: whole, in UTF-8. */
const bytesOf = (name: string): string => Buffer.from(name, 'utf8').toString('latin1');

it('of an event book only her own skater is kept with a name: no other stands in the store, an export or on a page', async () => {
  const [form] = FORMS;
  if (form === undefined) throw new Error('no forms');
  const event = {
    season: '2023-24',
    category: 'advanced novice women',
    segment: 'free',
    judges: 5,
    letters: false,
  } as const;
  const book = inventedProtocols(event, SKATERS, 11).map((p) => ({ ...p, competition: 'Copper Hill Classic' }));
  const names = book.map((p) => p.skater);
  expect(new Set(names).size).toBe(SKATERS);
  const [browser, app] = await Promise.all([startBrowser(), startApp({})]);
  const buffer = Buffer.from(await pdfOf(book, form, () => Promise.resolve(browser)));
  const { page, complaints, close } = await visit(browser, app.address, 'laptop');
  const hers = names[HERS] ?? '';
  const others = names.filter((name) => name !== hers);

  await page.goto('/add');
  await page.locator('input[type=file]').setInputFiles({ name: 'book.pdf', mimeType: 'application/pdf', buffer });
  await page.getByRole('heading', { name: `${SKATERS} skaters` }).waitFor();
  await page.getByText(`${SKATERS} further skaters`).click();
  await page.getByRole('listitem').filter({ hasText: hers }).getByRole('button', { name: 'Mine' }).click();
  expect(await page.getByLabel('Keep the file itself too').isChecked()).toBe(false);
  await page.getByRole('button', { name: 'Keep it and read it' }).click();
  await page.getByRole('heading', { level: 1 }).filter({ hasText: hers }).waitFor();
  const reading = new URL(page.url()).pathname;

  // What is kept of the others are figures alone.
  const fields = (await (await fetch(`${app.address}/api/fields`)).json()) as {
    protocols: Record<string, unknown>[];
  }[];
  expect(fields.flatMap((f) => f.protocols)).toHaveLength(SKATERS);
  const exported = await (await fetch(`${app.address}/api/export`)).text();
  const kept = storeText(app.folder);
  expect(exported).toContain(hers);
  expect(kept).toContain(bytesOf(hers));
  expect(others.filter((name) => exported.includes(name))).toEqual([]);
  expect(others.filter((name) => kept.includes(bytesOf(name)))).toEqual([]);
  // The file itself, in which a name could stand packed, is not there.
  expect(kept).not.toContain('%PDF');
  expect(exported).not.toContain(buffer.toString('base64').slice(0, 60));

  const skater = /"skaterId":"([^"]+)"/.exec(exported)?.[1] ?? '';
  const pages = [
    '/',
    reading,
    `${reading}/hers`,
    `/skaters/${skater}`,
    '/events',
    '/practice',
    '/find',
    '/settings',
    '/add',
  ];
  for (const address of pages) {
    await page.goto(address);
    await page.waitForLoadState('networkidle');
    const html = await page.content();
    expect(
      others.filter((name) => html.includes(name)),
      address,
    ).toEqual([]);
  }
  await page.goto(reading);
  await page.getByText('In this field').first().waitFor();
  await close();

  // Said outright, the file is kept byte for byte.
  const again = await visit(browser, app.address, 'laptop');
  await again.page.goto('/add');
  await again.page.locator('input[type=file]').setInputFiles({ name: 'book.pdf', mimeType: 'application/pdf', buffer });
  await again.page.getByLabel('Keep the file itself too').check();
  await again.page.getByLabel('Put this one in its place').check();
  await again.page.getByRole('button', { name: 'Keep it and read it' }).click();
  await again.page.getByRole('heading', { level: 1 }).filter({ hasText: hers }).waitFor();
  const after = await (await fetch(`${app.address}/api/export`)).text();
  expect(after).toContain(buffer.toString('base64').slice(0, 60));
  await again.close();
  await Promise.all([browser.close(), app.stop()]);
  expect(complaints).toEqual([]);
}, 180_000);
