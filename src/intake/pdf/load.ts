import { createRequire } from 'node:module';
import { dirname, join, sep } from 'node:path';
import type { PdfLibrary } from './library.ts';
import type { CanvasMaker, PdfOptions, Picture } from './pages.ts';

/** pdfjs-dist as Node loads it: the build for older engines, its tables from the installed package. */
export async function loadPdfLibrary(): Promise<PdfLibrary> {
  const loaded: unknown = await import('pdfjs-dist/legacy/build/pdf.mjs');
  if (!isPdfLibrary(loaded)) throw new Error('pdfjs-dist has no getDocument');
  return loaded;
}

const isPdfLibrary = (value: unknown): value is PdfLibrary =>
  typeof value === 'object' && value !== null && 'getDocument' in value && typeof value.getDocument === 'function';

/** Character maps and fonts for rendering, read from the package's folder; nothing is fetched. */
export function pdfTables(): NonNullable<PdfOptions['tables']> {
  const root = dirname(createRequire(import.meta.url).resolve('pdfjs-dist/package.json'));
  const folder = (name: string): string => join(root, name) + sep;
  return {
    cMapUrl: folder('cmaps'),
    cMapPacked: true,
    standardFontDataUrl: folder('standard_fonts'),
    wasmUrl: folder('wasm'),
  };
}

interface CanvasLike {
  readonly width: number;
  readonly height: number;
  getContext(kind: '2d'): {
    getImageData(x: number, y: number, width: number, height: number): { data: Uint8ClampedArray };
  };
}

/** A canvas for pages without usable text; null where the optional canvas package is not installed. */
export function nodeCanvas(): CanvasMaker | null {
  try {
    const loaded: unknown = createRequire(import.meta.url)('@napi-rs/canvas');
    if (!hasCreateCanvas(loaded)) return null;
    return {
      make(width, height) {
        const canvas = loaded.createCanvas(width, height);
        return { canvas, read: () => readCanvas(canvas) };
      },
    };
  } catch {
    return null;
  }
}

const hasCreateCanvas = (value: unknown): value is { createCanvas(width: number, height: number): CanvasLike } =>
  typeof value === 'object' && value !== null && 'createCanvas' in value && typeof value.createCanvas === 'function';

function readCanvas(canvas: CanvasLike): Picture {
  const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
  const grey = new Uint8Array(canvas.width * canvas.height);
  for (let i = 0, p = 0; i < grey.length; i += 1, p += 4) {
    const alpha = (data[p + 3] ?? 0) / 255;
    const light = 0.299 * (data[p] ?? 0) + 0.587 * (data[p + 1] ?? 0) + 0.114 * (data[p + 2] ?? 0);
    grey[i] = Math.round(light * alpha + 255 * (1 - alpha));
  }
  return { data: grey, width: canvas.width, height: canvas.height, channels: 1 };
}
