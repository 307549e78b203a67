import { expect, it } from 'vitest';
import { SIZES, startApp, startBrowser, visit } from './app.ts';

/** Range strip of a layout on the page, in numbers. */
const RANGE = 'figure[data-range]';

it('a note dragged past others to the second half stays in hand, and the range follows before it is let go', async () => {
  const [browser, app] = await Promise.all([startBrowser(), startApp({ demo: true })]);
  const { page, complaints, close } = await visit(browser, app.address, 'laptop');
  await page.goto('/layout/layout-demo-juna-free');
  await page.getByText(/One more day of twenty moves the range most/).waitFor();
  const range = () => page.locator(RANGE).getAttribute('data-range');
  const first = page.getByRole('slider', { name: /^3/ }).first();
  const id = await first.getAttribute('aria-label');
  const note = page.getByRole('slider', { name: id ?? '', exact: true });
  const before = { range: await range(), at: Number(await note.getAttribute('aria-valuenow')) };
  const box = await note.boundingBox();
  if (box === null) throw new Error('The first note is not on the page.');
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const far = SIZES.laptop.width - 200 - x;
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 20; i += 1) await page.mouse.move(x + (far * i) / 20, y);
  await expect.poll(range).not.toBe(before.range);
  const held = { range: await range(), at: Number(await note.getAttribute('aria-valuenow')) };
  expect(held.at).toBeGreaterThan(before.at + 100);
  expect(await page.evaluate('document.activeElement.getAttribute("aria-label")')).toBe(id);
  await page.mouse.up();
  // At rest the whole is worked out again, from the changed layout itself.
  await page.getByText(`${id} moved to`).first().waitFor();
  await page.waitForTimeout(1500);
  expect(await range()).toBe(held.range);
  await page.reload();
  await page.getByText(/One more day of twenty moves the range most/).waitFor();
  expect(await range()).toBe(held.range);
  // By keyboard past its neighbours: the focus stays on the note.
  await note.focus();
  for (let i = 0; i < 12; i += 1) await page.keyboard.press('Shift+ArrowLeft');
  expect(await page.evaluate('document.activeElement.getAttribute("aria-label")')).toBe(id);
  expect(Number(await note.getAttribute('aria-valuenow'))).toBe(held.at - 60);
  await close();
  await Promise.all([browser.close(), app.stop()]);
  expect(complaints).toEqual([]);
}, 120_000);
