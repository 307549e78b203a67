import type { Browser } from 'playwright-core';
import { pdfByChromium } from './chromium.ts';
import { composeBook } from './compose.ts';
import type { Form } from './forms.ts';
import { htmlPage } from './html.ts';
import { pdfByPdfmake } from './pdfmake.ts';
import { pdfByGhostscript } from './postscript.ts';
import type { SheetProtocol } from './protocols.ts';

/** A PDF of these protocols in this form, by the form's own producer. */
export async function pdfOf(
  protocols: readonly SheetProtocol[],
  form: Form,
  browser: () => Promise<Browser>,
): Promise<Buffer> {
  const blocks = composeBook(protocols, form);
  switch (form.producer) {
    case 'pdfmake':
      return pdfByPdfmake(blocks, form.style);
    case 'ghostscript':
      return pdfByGhostscript(blocks, form.style);
    case 'chromium':
      return pdfByChromium(await browser(), htmlPage(blocks, form.style), form.style);
  }
}
