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
/** Eleven elements of a junior; twelve of a senior with many triples, where one forecast takes ten times as long. */
const LAYOUTS = ['layout-demo-juna-free', 'layout-demo-viktor-free'];

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

/**
 * Watches every movement of the pointer, from its first handler on. The browser hands a movement out at
 * the beginning of a frame and draws at its end, so what counts is that the frame that handles the
 * movement also draws what follows from it:
 *  - `frame`: until a task behind the drawing of that frame (a message sent from its animation callback);
 *  - `script`: until the page last changed in that frame; null where nothing had to change;
 *  - `late`: something in one of the places changed only after that frame was drawn.
 */
const watching = (places: readonly string[]): string => `
  window.moves = [];
  let now = null;
  const done = new MessageChannel();
  done.port1.onmessage = ({ data }) => {
    const move = window.moves[data];
    move.frame = performance.now() - move.start;
    move.drawn = true;
  };
  addEventListener('pointermove', () => {
    if (now !== null && !now.drawn) return;
    now = { start: performance.now(), script: null, frame: null, drawn: false, late: false };
    const no = window.moves.push(now) - 1;
    requestAnimationFrame(() => done.port2.postMessage(no));
  }, true);
  const watch = new MutationObserver(() => {
    if (now === null) return;
    if (now.drawn) now.late = true;
    else now.script = performance.now() - now.start;
  });
  for (const place of ${JSON.stringify(places)}) {
    watch.observe(document.querySelector(place), { childList: true, subtree: true, attributes: true, characterData: true });
  }`;

interface Move {
  readonly script: number | null;
  readonly frame: number | null;
  readonly late: boolean;
}

/** What the page noted, told in two lines. */
async function tell(page: Page, what: string): Promise<void> {
  const moves = (await page.evaluate<Move[]>('window.moves')).filter((m) => m.frame !== null);
  const changed = moves.filter((m) => m.script !== null || m.late);
  const late = moves.filter((m) => m.late).length;
  console.log(
    `${what}: ${changed.length} of ${moves.length} movements changed the page, ${late} of them after their frame`,
  );
  console.log(`  from handler to drawn frame: ${told(changed.map((m) => m.frame ?? NaN))}`);
  console.log(`  of it until the page had changed: ${told(changed.flatMap((m) => m.script ?? []))}`);
}

/** What a frame costs here when next to nothing is done in it: one word of an empty page changes. */
async function emptyPage(browser: Browser, address: string): Promise<void> {
  const { page, close } = await visit(browser, address, 'laptop');
  await page.setContent('<!doctype html><p id="word">0</p>');
  await page.evaluate(`addEventListener('pointermove', (e) => { word.textContent = e.clientX; })`);
  await page.evaluate(watching(['#word']));
  for (let i = 1; i <= STEPS; i += 1) {
    await page.mouse.move(100 + i * 10, 200);
    await page.waitForTimeout(40);
  }
  await tell(page, 'empty page, one word');
  await close();
}

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
async function layout(
  browser: Browser,
  address: string,
  id: string,
): Promise<{ page: Page; close: () => Promise<void> }> {
  const { page, close } = await visit(browser, address, 'laptop');
  await page.goto(`/layout/${id}`);
  await page.getByText(/One more day of twenty moves the range most/).waitFor();
  await page.waitForTimeout(500);
  return { page, close };
}

async function slider(browser: Browser, address: string, id: string): Promise<void> {
  const { page, close } = await layout(browser, address, id);
  await page
    .getByRole('slider', { name: /days of twenty/ })
    .first()
    .scrollIntoViewIfNeeded();
  const thumb = page.locator('.comesoff .thumb').first();
  await thumb.hover();
  await page.waitForTimeout(500);
  await page.evaluate(watching(['figure[data-range]', '.comesoff .days']));
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
  await tell(page, `${id}: slider, its row and the range`);
  await page.mouse.up();
  await close();
}

async function drag(browser: Browser, address: string, id: string): Promise<void> {
  const { page, close } = await layout(browser, address, id);
  const note = page.getByRole('slider', { name: /^3/ }).first();
  const box = await note.boundingBox();
  if (box === null) throw new Error('The first note is not on the page.');
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.waitForTimeout(500);
  await page.evaluate(watching(['figure.fig', 'figure[data-range]']));
  await page.mouse.down();
  const ranges = new Set<string>();
  for (let i = 1; i <= STEPS; i += 1) {
    // Past the other notes to the second half and back: places, bonus and repeats change on the way.
    const far = i <= STEPS / 2 ? i : STEPS - i;
    await page.mouse.move(x + far * 28, y);
    await page.waitForTimeout(40);
    ranges.add(String(await page.locator('figure[data-range]').getAttribute('data-range')));
  }
  await tell(page, `${id}: note dragged, strip, verdicts and range (${ranges.size} different ranges on the way)`);
  await page.mouse.up();
  await close();
}

const [browser, app] = await Promise.all([startBrowser(), startApp({ demo: true })]);
try {
  await firstScreen(browser, app.address);
  await emptyPage(browser, app.address);
  for (const id of LAYOUTS) {
    await slider(browser, app.address, id);
    await drag(browser, app.address, id);
  }
} finally {
  await browser.close();
  await app.stop();
}
