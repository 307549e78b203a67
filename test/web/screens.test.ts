import { AxeBuilder } from '@axe-core/playwright';
import { gzipSync } from 'node:zlib';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApp, startBrowser, visit, type RunningApp } from './app.ts';

let browser: Browser;
let demo: RunningApp;
let empty: RunningApp;
beforeAll(async () => {
  [browser, demo, empty] = await Promise.all([startBrowser(), startApp({ demo: true }), startApp({})]);
}, 120_000);
afterAll(async () => {
  await Promise.all([browser.close(), demo.stop(), empty.stop()]);
});

/** Every screen, with words that stand on it once it is ready. */
const SCREENS: readonly (readonly [path: string, ready: string])[] = [
  ['/', 'Next eight weeks'],
  ['/skaters/new', 'Add a skater'],
  ['/skaters/demo-mara', 'Best so far'],
  ['/skaters/demo-mara/new-layout', 'Her elements, in skating order'],
  ['/skaters/demo-mara/new-steps', 'A step sequence'],
  ['/skaters/demo-mara/new-spins', 'The spins of one program'],
  ['/reading/demo-e5-demo-mara-free', 'What to train'],
  ['/reading/demo-e5-demo-mara-free/hers', 'Still to win'],
  ['/layout/layout-demo-viktor-free', 'Usually between'],
  ['/planb/demo-mara', 'a card for the pocket'],
  ['/steps/steps-demo-mara', 'What it brings'],
  ['/events', 'To come'],
  ['/events/new', 'Add an event'],
  ['/events/demo-e7', 'Deadlines'],
  ['/events/demo-e7/day', 'Day sheet'],
  ['/practice', 'logged in the last seven days'],
  ['/practice/log/demo-mara', 'Press only what was different.'],
  ['/rules', 'values'],
  ['/find', 'A skater, an event, a page'],
  ['/settings', 'Appearance'],
  ['/add', 'Or paste'],
  ['/nowhere', 'There is no page at this address'],
];

describe('every screen', () => {
  it.each([
    ['laptop', 'light'],
    ['phone', 'dark'],
  ] as const)('has no violation that axe finds and no sideways scroll, on a %s in the %s', async (size, scheme) => {
    const { page, complaints, close } = await visit(browser, demo.address, size);
    await page.emulateMedia({ colorScheme: scheme, reducedMotion: 'reduce' });
    const found: string[] = [];
    for (const [path, ready] of SCREENS) {
      await page.goto(path);
      await page.getByText(ready).first().waitFor({ state: 'attached' });
      const { violations } = await new AxeBuilder({ page }).analyze();
      found.push(...violations.map((v) => `${path}: ${v.id}: ${v.nodes.map((n) => n.html.slice(0, 120)).join(' | ')}`));
      const over = await page.evaluate('document.documentElement.scrollWidth - window.innerWidth');
      if (Number(over) > 0) found.push(`${path}: scrolls sideways by ${Number(over)} pixels`);
    }
    await close();
    expect(found).toEqual([]);
    expect(complaints).toEqual([]);
  });

  it('keeps the other scheme readable: colours alone change, so contrast is checked where they meet', async () => {
    const { page, close } = await visit(browser, demo.address, 'laptop');
    const found: string[] = [];
    for (const [scheme, paths] of [
      ['dark', ['/', '/reading/demo-e5-demo-mara-free', '/layout/layout-demo-viktor-free', '/settings']],
      ['light', ['/practice/log/demo-mara', '/add']],
    ] as const) {
      await page.emulateMedia({ colorScheme: scheme, reducedMotion: 'reduce' });
      for (const path of paths) {
        await page.goto(path);
        await page.locator('main h1, main h2').first().waitFor();
        const { violations } = await new AxeBuilder({ page }).withRules(['color-contrast']).analyze();
        found.push(...violations.flatMap((v) => v.nodes.map((n) => `${path} ${scheme}: ${n.html.slice(0, 120)}`)));
      }
    }
    await close();
    expect(found).toEqual([]);
  });
});

describe('the first screen', () => {
  const MOST = 250 * 1024;

  it.each(['empty', 'full'] as const)('of an %s store needs at most 250 kB of compressed JavaScript', async (which) => {
    const { page, complaints, close } = await visit(browser, (which === 'empty' ? empty : demo).address, 'laptop');
    const bodies: Promise<Buffer>[] = [];
    page.on('response', (answer) => {
      if (new URL(answer.url()).pathname.endsWith('.js')) bodies.push(answer.body());
    });
    await page.goto('/');
    await page.getByText(which === 'empty' ? 'Start with a sheet' : 'Next eight weeks').waitFor();
    await page.waitForLoadState('networkidle');
    const sizes = (await Promise.all(bodies)).map((body) => gzipSync(body).byteLength);
    await close();
    expect(sizes.length).toBeGreaterThan(0);
    expect(sizes.reduce((a, b) => a + b, 0)).toBeLessThanOrEqual(MOST);
    expect(complaints).toEqual([]);
  });

  it('asks nothing of any other machine', async () => {
    const { page, close } = await visit(browser, demo.address, 'laptop');
    const hosts = new Set<string>();
    page.on('request', (request) => hosts.add(new URL(request.url()).host));
    await page.goto('/');
    await page.waitForLoadState('networkidle');
    await close();
    expect([...hosts]).toEqual([new URL(demo.address).host]);
  });
});

describe('light and dark', () => {
  it('follow the choice in Settings over the device, and stay after a reload', async () => {
    const { page, close } = await visit(browser, demo.address, 'laptop');
    await page.emulateMedia({ colorScheme: 'light' });
    await page.goto('/settings');
    const ground = () => page.evaluate('getComputedStyle(document.body).backgroundColor');
    const light = await ground();
    await page.getByLabel('dark', { exact: true }).check();
    expect(await ground()).not.toBe(light);
    const dark = await ground();
    await page.reload();
    await page.getByText('Appearance').waitFor();
    expect(await ground()).toBe(dark);
    await page.getByLabel('as the device has it').check();
    expect(await ground()).toBe(light);
    await close();
  });
});
