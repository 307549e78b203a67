import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { startApp, startBrowser, visit } from './app.ts';

const SHEET = path.join(import.meta.dirname, '../../examples/novice-free-2023.txt');
/** Presses from the first screen of the demo season to the print of a pasted sheet of one's own. */
const FEW = 10;

it('a newcomer clears the demo, pastes a sheet and holds the printed reading, led by the words on screen alone', async () => {
  const [browser, app] = await Promise.all([startBrowser(), startApp({ demo: true })]);
  const { page, complaints, close } = await visit(browser, app.address, 'laptop');
  let presses = 0;
  const press = async (role: 'link' | 'button', name: string) => {
    presses += 1;
    await page.getByRole(role, { name, exact: true }).last().click();
  };
  await page.goto('/');
  await press('link', 'clear it and start your own');
  await press('button', 'Clear and start my own');
  await press('button', 'Yes, remove everything');
  await page.getByText('Everything is removed.').waitFor();
  await press('link', 'Add a sheet');
  await page.getByLabel('The text of the sheet').fill(readFileSync(SHEET, 'utf8'));
  await press('button', 'Read it');
  await press('button', 'Keep it and read it');
  await page.getByRole('heading', { level: 1, name: /Wren’s free skate/ }).waitFor();
  await press('button', 'Release to Wren');
  await page.getByRole('alertdialog').waitFor();
  await press('button', 'Release');
  await press('link', 'See her page');
  const href = await page.getByRole('link', { name: 'PDF' }).getAttribute('href');
  presses += 1;
  const answer = await fetch(app.address + (href ?? ''));
  expect(answer.headers.get('content-type')).toBe('application/pdf');
  expect(
    Buffer.from(await answer.arrayBuffer())
      .subarray(0, 5)
      .toString(),
  ).toBe('%PDF-');
  expect(presses).toBeLessThanOrEqual(FEW);
  await close();
  await Promise.all([browser.close(), app.stop()]);
  expect(complaints).toEqual([]);
}, 120_000);
