/** PDF -> pages of tokens; the same code in Node (`node.ts` beside it) and in the browser. */
export type { CanvasMaker, PdfLimits, PdfOptions, PdfPage, Picture } from './pages.ts';
export { looksLikePdf, PDF_LIMITS, pagesOfPdf } from './pages.ts';
export type { PdfLibrary } from './library.ts';
export { PDF_PROBLEMS } from './problems.ts';
