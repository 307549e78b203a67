import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApp, startBrowser, visit, type RunningApp, type Visit } from './app.ts';

/** The same demo season under the shipped rules and under a folder of the coach's own. */
const CHART = `overlay: isu/2025-26
title: chart of the rink
content:
  senior men:
    free:
      jumpElements: { max: 4 }
`;
const VALUES = `overlay: us/2025-26
title: values of the rink
scale:
  rows:
    3S: { base: 5.00 }
`;

/** Another season of the same body, under which the sheet below is printed. */
const EARLIER = `overlay: us/2023-24
title: earlier values of the rink
scale:
  rows:
    2A: { base: 5.00 }
    2F: { base: 3.00 }
`;
/** The example sheet as it is printed where a 2A is worth 5.00 and a 2F 3.00, grades by a tenth of that. */
const printedByThem = readFileSync(path.join(import.meta.dirname, '../../examples/novice-free-2023.txt'), 'utf8')
  .replace('1.80   0.18', '3.00   0.30')
  .replace('1.98', '3.30')
  .replace('4.60   0.22', '6.30   0.33')
  .replace('4.82', '6.63')
  .replace('27.57', '30.47')
  .replaceAll('26.59', '29.72')
  .replace('56.45', '59.58');

let folder: string;
let browser: Browser;
let plain: RunningApp;
let own: RunningApp;
let open: Visit[] = [];
beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'edgeledger-rules-'));
  writeFileSync(path.join(folder, 'chart.yaml'), CHART);
  writeFileSync(path.join(folder, 'earlier.yaml'), EARLIER);
  writeFileSync(path.join(folder, 'values.yaml'), VALUES);
  [browser, plain, own] = await Promise.all([
    startBrowser(),
    startApp({ demo: true }),
    startApp({ demo: true, rulebooks: folder }),
  ]);
}, 120_000);
afterAll(async () => {
  await Promise.all([browser.close(), plain.stop(), own.stop()]);
  rmSync(folder, { recursive: true, force: true });
});

async function at(app: RunningApp, where: string, ready: string) {
  const visited = await visit(browser, app.address, 'laptop');
  open.push(visited);
  await visited.page.goto(where);
  await visited.page.getByText(ready).first().waitFor({ timeout: 45_000 });
  return visited.page;
}

async function textAt(app: RunningApp, where: string, ready: string): Promise<string> {
  const page = await at(app, where, ready);
  const text = await page.locator('main').innerText();
  const { complaints } = open.at(-1) ?? { complaints: [] };
  expect(complaints).toEqual([]);
  await Promise.all(open.map((v) => v.close()));
  open = [];
  return text;
}

describe('a folder of rulebooks of one’s own', () => {
  it('is told by the API, without the place where it lies on this machine', async () => {
    const answer = (await (await fetch(`${own.address}/api/rulebooks`)).json()) as { own: { path: string }[] };
    expect(answer.own.map((file) => file.path)).toEqual(['chart.yaml', 'earlier.yaml', 'values.yaml']);
    expect(JSON.stringify(answer)).not.toContain(folder);
  });

  it('changes a number of the check of a layout, and the range is still computed', async () => {
    const where = '/layout/layout-demo-viktor-free';
    const most = /at most (?:4|four) jump elements/i;
    expect(await textAt(plain, where, 'Usually between')).not.toMatch(most);
    expect(await textAt(own, where, 'Usually between')).toMatch(most);
  });

  it('changes a number of the reading of a sheet', async () => {
    const where = '/reading/demo-e5-demo-mara-free';
    expect(await textAt(plain, where, 'What to train')).not.toMatch(/5\.00/);
    const ask = await textAt(own, where, 'Ask today');
    expect(ask).toMatch(/4\.30/);
    expect(ask).toMatch(/5\.00/);
  });

  it('leaves no doubt about a sheet that is printed by it, in the browser and on the server', async () => {
    const doubts = async (app: RunningApp, onServer: boolean) => {
      const page = await at(app, '/add', 'Or paste');
      if (onServer) await page.route('**/assets/read.worker-*.js', (route) => route.abort());
      await page.getByLabel('The text of the sheet').fill(printedByThem);
      await page.getByRole('button', { name: 'Read it' }).click();
      await page.getByRole('heading', { name: 'One skater' }).waitFor();
      const found = await page
        .getByRole('group')
        .filter({ hasText: /^Element (2|8)/ })
        .count();
      await Promise.all(open.map((v) => v.close()));
      open = [];
      return found;
    };
    expect([await doubts(plain, false), await doubts(plain, true)]).toEqual([4, 4]);
    expect([await doubts(own, false), await doubts(own, true)]).toEqual([0, 0]);
  });

  it('stands in Rules with the mark of one’s own entry and its title as the source', async () => {
    const page = await at(own, '/rules', 'Find a rule or a code');
    await page.getByRole('combobox').first().selectOption('isu/2025-26');
    await page.getByLabel('Find a rule or a code').fill('senior men free jumpElements');
    const rule = page.getByRole('listitem').filter({ hasText: /senior men · free · jump elements · max/ });
    const value = rule.getByRole('button', { name: '4', exact: true });
    expect(await value.getAttribute('title')).toContain('chart of the rink');
    expect(await rule.innerText()).toMatch(/4\s*y/);
    await value.click();
    expect(await page.locator('.why').innerText()).toMatch(/chart of the rink[^]*your own entry/);
    await Promise.all(open.map((v) => v.close()));
    open = [];
  });
});
