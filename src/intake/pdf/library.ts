/**
 * The part of pdfjs-dist that this room uses, as a shape of our own. The library itself is handed in
 * by the surroundings (`node.ts` here, a module worker in the browser), so that this folder is free
 * of both.
 */
export interface PdfLibrary {
  getDocument(options: PdfOpenOptions): PdfLoading;
}

export interface PdfOpenOptions {
  readonly data: Uint8Array;
  readonly isEvalSupported: false;
  readonly enableXfa: false;
  readonly disableFontFace: true;
  readonly useSystemFonts: false;
  readonly useWorkerFetch: false;
  readonly disableRange: true;
  readonly disableStream: true;
  readonly disableAutoFetch: true;
  readonly stopAtErrors: false;
  readonly maxImageSize: number;
  readonly verbosity: 0;
  readonly cMapUrl?: string;
  readonly cMapPacked?: true;
  readonly standardFontDataUrl?: string;
  readonly wasmUrl?: string;
  /** Made by the library, with the folders above by name; absent: the library's own. */
  readonly BinaryDataFactory?: new (folders: Readonly<Record<string, unknown>>) => PdfTableReader;
}

/** Reads one of the library's own tables (a character map, a font) by its name. */
export interface PdfTableReader {
  fetch(table: { readonly kind: string; readonly filename: string }): Promise<Uint8Array>;
}

export interface PdfLoading {
  readonly promise: Promise<PdfDocument>;
  destroy(): Promise<void>;
}

export interface PdfDocument {
  readonly numPages: number;
  getPage(page: number): Promise<PdfLibraryPage>;
}

export interface PdfViewport {
  readonly width: number;
  readonly height: number;
  readonly transform: readonly number[];
}

export interface PdfLibraryPage {
  getViewport(options: { scale: number }): PdfViewport;
  getTextContent(): Promise<PdfTextContent>;
  render(options: { canvas: unknown; viewport: PdfViewport }): { readonly promise: Promise<void> };
  cleanup(): boolean;
}

export interface PdfTextContent {
  readonly items: readonly (PdfTextItem | PdfMarkedContent)[];
  readonly styles: Readonly<Record<string, PdfTextStyle | undefined>>;
}

/** A run of glyphs; `transform` maps text space to page space, width and height are in page units. */
export interface PdfTextItem {
  readonly str: string;
  readonly transform: readonly number[];
  readonly width: number;
  readonly height: number;
  readonly fontName: string;
}

export interface PdfTextStyle {
  readonly fontFamily: string;
}

interface PdfMarkedContent {
  readonly type: string;
}
