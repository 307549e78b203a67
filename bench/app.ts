/*
 * The built app in a real browser: what the first screen loads, when it can be used, and how long the
 * range needs to follow a slider and a note that is dragged.
 *
 *   npm run build && npm run bench app
 */
import { gzipSync } from 'node:zlib';
import type { Browser, Page } from 'playwright-core';
import { startApp, startBrowser, visit } from '../test/web/app.ts';

const ROUNDS = 5;
const STEPS = 40;
/** One frame at 60 a second, in milliseconds. */
const FRAME = 1000 / 60;
const LAYOUT = '/layout/layout-demo-juna-free';

const sorted = (values: readonly number[]): number[] => [...values].sort((a, b) => a - b);
const at = (values: readonly number[], level: number): number =>
  sorted(values)[Math.min(values.length - 1, Math.floor(level * values.length))] ?? NaN;
const told = (values: readonly number[]): string =>
  `median ${at(values, 0.5).toFixed(1)} ms, 95 of 100 within ${at(values, 0.95).toFixed(1)} ms, ` +
  `${values.filter((v) => v <= FRAME).length} of ${values.length} within one frame (${FRAME.toFixed(1)} ms)`;

/** Notes when the first heading of the page stands. */
const WATCH_HEADING = `new MutationObserver((_, watch) => {
  if (document.querySelector('main h1') === null) return;
  window.firstHeading = performance.now();
  watch.disconnect();
}).observe(document, { childList: true, subtree: true })`;

/** Notes for every input event how long it takes until the range, or the notes on the strip, are drawn anew. */
const watching = (event: string, place: string, options: string): string => `
  window.took = [];
  window.since = null;
  addEventListener('${event}', (e) => { window.since ??= e.timeStamp; }, true);
  new MutationObserver(() => {
    if (window.since === null) return;
    window.took.push(performance.now() - window.since);
    window.since = null;
  }).observe(document.querySelector('${place}'), ${options})`;

async function firstScreen(browser: Browser, address: string): Promise<void> {
  const ready: number[] = [];
  let bytes = 0;
  for (let i = 0; i < ROUNDS; i += 1) {
    const { page, close } = await visit(browser, address, 'laptop');
    const bodies: Promise<Buffer>[] = [];
    page.on('response', (answer) => {
      if (new URL(answer.url()).pathname.endsWith('.js')) bodies.push(answer.body());
    });
    await page.addInitScript(WATCH_HEADING);
    await page.goto('/');
    await page.getByText('Next eight weeks').waitFor();
    ready.push(Number(await page.evaluate('window.firstHeading')));
    await page.waitForLoadState('networkidle');
    bytes = (await Promise.all(bodies)).map((body) => gzipSync(body).byteLength).reduce((a, b) => a + b, 0);
    await close();
  }
  console.log(`first screen: ${(bytes / 1024).toFixed(0)} kB of compressed JavaScript`);
  console.log(
    `first screen stands and can be used: median ${at(ready, 0.5).toFixed(0)} ms, slowest of ${ROUNDS} ${at(ready, 1).toFixed(0)} ms after the request`,
  );
}

/** Opens the layout and waits until nothing more is worked out. */
async function layout(browser: Browser, address: string): Promise<{ page: Page; close: () => Promise<void> }> {
  const { page, close } = await visit(browser, address, 'laptop');
  await page.goto(LAYOUT);
  await page.getByText(/One more day of twenty moves the range most/).waitFor();
  await page.waitForTimeout(500);
  return { page, close };
}

async function slider(browser: Browser, address: string): Promise<void> {
  const { page, close } = await layout(browser, address);
  await page
    .getByRole('slider', { name: /days of twenty/ })
    .first()
    .scrollIntoViewIfNeeded();
  const thumb = page.locator('.comesoff .thumb').first();
  await thumb.hover();
  await page.waitForTimeout(500);
  await page.evaluate(
    watching('pointermove', 'figure[data-range]', "{ attributes: true, attributeFilter: ['data-range'] }"),
  );
  const box = await page.locator('.comesoff .track').first().boundingBox();
  const from = await thumb.boundingBox();
  if (box === null || from === null) throw new Error('The first slider is not on the page.');
  const y = box.y + box.height / 2;
  await page.mouse.move(from.x + from.width / 2, y);
  await page.mouse.down();
  for (let i = 1; i <= STEPS; i += 1) {
    // From end to end and back, a day of twenty at a time; as fast as a hand, not faster.
    const day = i % 20 < 10 ? i % 10 : 10 - (i % 10);
    await page.mouse.move(box.x + (box.width * (5 + day)) / 20, y);
    await page.waitForTimeout(40);
  }
  await page.mouse.up();
  const took = await page.evaluate<number[]>('window.took');
  console.log(`slider, from the movement to the range on the page: ${told(took)}`);
  await close();
}

async function drag(browser: Browser, address: string): Promise<void> {
  for (const [what, place, options] of [
    ['strip and verdicts', 'figure.fig svg', '{ childList: true, subtree: true, attributes: true }'],
    ['range', 'figure[data-range]', "{ attributes: true, attributeFilter: ['data-range'] }"],
  ] as const) {
    const { page, close } = await layout(browser, address);
    const note = page.getByRole('slider', { name: /^3/ }).first();
    const box = await note.boundingBox();
    if (box === null) throw new Error('The first note is not on the page.');
    await page.evaluate(watching('pointermove', place, options));
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let i = 1; i <= STEPS; i += 1) {
      // Past the other notes to the second half and back: places, bonus and repeats change on the way.
      const far = i <= STEPS / 2 ? i : STEPS - i;
      await page.mouse.move(x + far * 28, y);
      await page.waitForTimeout(40);
    }
    await page.mouse.up();
    const took = await page.evaluate<number[]>('window.took');
    console.log(`note dragged, from the movement to the ${what} on the page: ${told(took)}`);
    await close();
  }
}

const [browser, app] = await Promise.all([startBrowser(), startApp({ demo: true })]);
try {
  await firstScreen(browser, app.address);
  await slider(browser, app.address);
  await drag(browser, app.address);
} finally {
  await browser.close();
  await app.stop();
}
