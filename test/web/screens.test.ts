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

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string }[];
}

/** Twenty screens on a busy machine. */
const PATIENCE = 400_000;

describe('every screen', () => {
  it.each(['laptop', 'phone'] as const)(
    'has no violation that axe finds, in the light and in the dark, and no sideways scroll, on a %s',
    async (size) => {
      const { page, complaints, close } = await visit(browser, demo.address, size);
      const found: string[] = [];
      const note = (path: string, scheme: string, violations: readonly Violation[]) =>
        found.push(
          ...violations.map(
            ({ id, nodes }) => `${path}, ${scheme}: ${id}: ${nodes.map((n) => n.html.slice(0, 120)).join(' | ')}`,
          ),
        );
      for (const [path, ready] of SCREENS) {
        await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
        await page.goto(path);
        await page.getByText(ready).first().waitFor({ state: 'attached' });
        note(path, 'light', (await new AxeBuilder({ page }).analyze()).violations);
        // In the dark only colours change, so only contrast is asked again.
        await page.emulateMedia({ colorScheme: 'dark', reducedMotion: 'reduce' });
        note(path, 'dark', (await new AxeBuilder({ page }).withRules(['color-contrast']).analyze()).violations);
        const over = await page.evaluate('document.documentElement.scrollWidth - window.innerWidth');
        if (Number(over) > 0) found.push(`${path}: scrolls sideways by ${Number(over)} pixels`);
      }
      await close();
      expect(found).toEqual([]);
      expect(complaints).toEqual([]);
    },
    PATIENCE,
  );
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
