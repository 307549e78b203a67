import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, chromium } from 'playwright-core';
import type { Style } from './document.ts';

export const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';

/** A browser without window and without network of its own. Close it when done. */
export const startChromium = (): Promise<Browser> =>
  chromium.launch({
    executablePath: CHROMIUM,
    args: [
      '--no-sandbox',
      '--headless',
      '--disable-gpu',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--no-first-run',
    ],
  });

/** Prints a page to PDF. */
export async function pdfByChromium(browser: Browser, html: string, style: Style): Promise<Buffer> {
  const folder = await mkdtemp(join(tmpdir(), 'sheet-'));
  const page = await browser.newPage();
  try {
    const file = join(folder, 'sheet.html');
    await writeFile(file, html);
    await page.goto(pathToFileURL(file).href);
    const footer = `<div style="font-size:8px;width:100%;text-align:center">${style.folio ?? ''} <span class="pageNumber"></span></div>`;
    return await page.pdf({
      preferCSSPageSize: true,
      ...(style.folio === null
        ? {}
        : { displayHeaderFooter: true, headerTemplate: '<span></span>', footerTemplate: footer }),
    });
  } finally {
    await page.close();
    await rm(folder, { recursive: true, force: true });
  }
}
