import { fail, ok, type Problem, type Result } from '../../notation/index.ts';
import type { Token } from '../token.ts';
import { tokensOfWords } from './glue.ts';
import type { PdfDocument, PdfLibrary, PdfLibraryPage, PdfOpenOptions } from './library.ts';
import { detailOf, PDF_PROBLEMS, problemOfError } from './problems.ts';
import { wordsOfPage } from './runs.ts';

/** One page of a PDF as words; `trouble` says why there are none that can be used. */
export interface PdfPage {
  /** From 1. */
  readonly page: number;
  readonly pages: number;
  readonly tokens: readonly Token[];
  /** Pieces of text in another direction than the page's main one, left out. */
  readonly turned: number;
  readonly trouble: Problem | null;
  /** The page as a picture, only where the text cannot be used and a canvas is at hand. */
  readonly picture: Picture | null;
}

/** Eight-bit samples, `channels` per pixel, row by row from the top. */
export interface Picture {
  readonly data: Uint8Array;
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3 | 4;
}

/** Makes a canvas of so many pixels and reads it out; absent where there is no canvas. */
export interface CanvasMaker {
  make(width: number, height: number): { canvas: unknown; read: () => Picture };
}

export interface PdfLimits {
  readonly maxBytes: number;
  readonly maxPages: number;
}

export const PDF_LIMITS: PdfLimits = { maxBytes: 200_000_000, maxPages: 5000 };

export interface PdfOptions {
  readonly limits?: PdfLimits;
  readonly signal?: AbortSignal;
  readonly onProgress?: (done: number, pages: number) => void;
  readonly canvas?: CanvasMaker;
  /** Where the library finds its own tables (character maps, fonts for rendering); local paths only. */
  readonly tables?: Pick<
    PdfOpenOptions,
    'cMapUrl' | 'cMapPacked' | 'standardFontDataUrl' | 'wasmUrl' | 'BinaryDataFactory'
  >;
}

/** A page this size in pixels (longer side) is enough to recognise print of 8 points. */
const PICTURE_LONGER_SIDE = 3000;
const MAX_IMAGE_PIXELS = 60_000_000;

/**
 * The pages of a PDF, one at a time and in order; each is let go before the next is read. A problem
 * with one page is yielded in its place and reading goes on; a problem with the document ends it.
 * Scripts in the file are never run, nothing is fetched.
 */
export async function* pagesOfPdf(
  library: PdfLibrary,
  bytes: Uint8Array,
  options: PdfOptions = {},
): AsyncGenerator<Result<PdfPage>, void, undefined> {
  const limits = options.limits ?? PDF_LIMITS;
  if (bytes.length > limits.maxBytes) {
    yield fail(PDF_PROBLEMS.tooLarge(bytes.length, limits.maxBytes));
    return;
  }
  const ended = hasEndMark(bytes);
  const loading = library.getDocument({ ...SAFE_OPTIONS, ...options.tables, data: bytes });
  try {
    const opened = await openDocument(loading.promise, limits);
    if (!opened.ok) {
      yield opened;
      return;
    }
    yield* eachPage(opened.value, options);
    if (!ended) yield fail(PDF_PROBLEMS.truncated());
  } finally {
    await loading.destroy().catch(() => undefined);
  }
}

const SAFE_OPTIONS = {
  isEvalSupported: false,
  enableXfa: false,
  disableFontFace: true,
  useSystemFonts: false,
  useWorkerFetch: false,
  disableRange: true,
  disableStream: true,
  disableAutoFetch: true,
  stopAtErrors: false,
  maxImageSize: MAX_IMAGE_PIXELS,
  verbosity: 0,
} as const;

async function openDocument(promise: Promise<PdfDocument>, limits: PdfLimits): Promise<Result<PdfDocument>> {
  try {
    const document = await promise;
    return document.numPages > limits.maxPages
      ? fail(PDF_PROBLEMS.tooManyPages(document.numPages, limits.maxPages))
      : ok(document);
  } catch (error) {
    return fail(problemOfError(error));
  }
}

async function* eachPage(document: PdfDocument, options: PdfOptions): AsyncGenerator<Result<PdfPage>> {
  const pages = document.numPages;
  for (let page = 1; page <= pages; page += 1) {
    if (options.signal?.aborted === true) {
      yield fail(PDF_PROBLEMS.cancelled());
      return;
    }
    yield await readPage(document, page, options.canvas ?? null);
    options.onProgress?.(page, pages);
  }
}

async function readPage(document: PdfDocument, page: number, canvas: CanvasMaker | null): Promise<Result<PdfPage>> {
  try {
    const source = await document.getPage(page);
    const viewport = source.getViewport({ scale: 1 });
    const { words, turned } = wordsOfPage(await source.getTextContent(), viewport);
    const tokens = tokensOfWords(words, page);
    const trouble = troubleOf(tokens, page);
    const picture = trouble === null || canvas === null ? null : await pictureOf(source, canvas);
    source.cleanup();
    return ok({ page, pages: document.numPages, tokens: trouble === null ? tokens : [], turned, trouble, picture });
  } catch (error) {
    return fail(PDF_PROBLEMS.page(page, detailOf(error)));
  }
}

function troubleOf(tokens: readonly Token[], page: number): Problem | null {
  if (tokens.length === 0) return PDF_PROBLEMS.noText(page);
  let characters = 0;
  let strange = 0;
  for (const token of tokens) {
    characters += token.text.length;
    // Control characters, private use and the replacement character stand for "no letter known".
    strange += token.text.match(/[\p{Cc}\p{Co}\p{Cn}\ufffd]/gu)?.length ?? 0;
  }
  return strange > 0.2 * characters ? PDF_PROBLEMS.noLetters(page) : null;
}

async function pictureOf(page: PdfLibraryPage, canvas: CanvasMaker): Promise<Picture> {
  const natural = page.getViewport({ scale: 1 });
  const scale = PICTURE_LONGER_SIDE / Math.max(natural.width, natural.height, 1);
  const viewport = page.getViewport({ scale });
  const target = canvas.make(Math.ceil(viewport.width), Math.ceil(viewport.height));
  await page.render({ canvas: target.canvas, viewport }).promise;
  return target.read();
}

/** The last two kilobytes of a whole PDF hold `%%EOF`. */
function hasEndMark(bytes: Uint8Array): boolean {
  const mark = [0x25, 0x25, 0x45, 0x4f, 0x46];
  for (let at = bytes.length - mark.length; at >= Math.max(0, bytes.length - 2048); at -= 1) {
    if (mark.every((value, i) => bytes[at + i] === value)) return true;
  }
  return false;
}
