import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { startApp, startBrowser, visit } from './app.ts';

/** States of a screen that come only when something is pressed or typed; the screens themselves are tried elsewhere. */
it.each([
  ['laptop', 'light'],
  ['phone', 'dark'],
] as const)(
  'what opens in Rules, a reading and Add a sheet has no violation that axe finds, on a %s in the %s',
  async (size, colorScheme) => {
    const [browser, app] = await Promise.all([startBrowser(), startApp({ demo: true })]);
    const { page, complaints } = await visit(browser, app.address, size);
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    const found: string[] = [];
    const check = async (name: string) => {
      const { violations } = await new AxeBuilder({ page }).analyze();
      found.push(...violations.map((v) => `${name}: ${v.id}: ${v.nodes.map((n) => n.html.slice(0, 120)).join(' | ')}`));
      const over = Number(await page.evaluate('document.documentElement.scrollWidth - window.innerWidth'));
      if (over > 0) found.push(`${name}: scrolls sideways by ${over} pixels`);
    };
    await rules(page, check);
    await page.goto('/reading/demo-e6-demo-viktor-free');
    await page.getByText('What to train').first().waitFor();
    await page.locator('.lead button.ask-why').first().click();
    await check('a number asked why');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Add what you were told' }).click();
    await page.getByLabel('In their words').waitFor();
    await check('told by the panel');
    const text = await (await fetch(`${app.address}/api/sheets/sheet-demo-e5-demo-mara-free`)).text();
    await page.goto('/add');
    await page.getByLabel('The text of the sheet').fill(text.replace('4.39', '4.93'));
    await page.getByRole('button', { name: 'Read it' }).click();
    await page.getByText('Already kept').waitFor();
    await check('a sheet with doubts that is kept already');
    await Promise.all([browser.close(), app.stop()]);
    expect(found).toEqual([]);
    expect(complaints).toEqual([]);
  },
  200_000,
);

async function rules(page: Page, check: (name: string) => Promise<void>): Promise<void> {
  await page.goto('/rules');
  const search = page.getByLabel('Find a rule or a code');
  await search.fill('3Lz');
  await page.locator('button.ask-why').first().click();
  await check('a search in Rules with a source opened');
  await search.fill('fall');
  await check('another search in Rules');
  await search.fill('');
  await page.getByRole('button', { name: 'What changed since the season before' }).click();
  await page.getByText(/values and \d+ rows of the scale differ/).waitFor();
  await check('two seasons compared');
}
